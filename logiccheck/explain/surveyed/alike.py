"""What says the same as something else in every situation that can be reached, also while it settles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from logiccheck.explain.surveyed.steady import Change, steady
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.lang.program import (
    And,
    Bistable,
    Blink,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    Output,
    Previous,
    Program,
    Rule,
    Signal,
    SignalKind,
    Timer,
    WireSense,
    Xor,
)
from logiccheck.lang.rebuild import replace_leaves


@lru_cache(maxsize=1)
def alike(survey: Survey) -> tuple[tuple[Rule, ...] | tuple[WireSense, ...], ...]:
    """Groups of senses, and of rules, that always say the same; none of what never changes, nor of a rule that is
    nothing but another's name.

    May raise KeyboardInterrupt, or BugMet.
    """
    box = survey.written.box
    if box is None:
        return ()
    still = {name for each in steady(survey) for name in each.names}
    senses = [each for each in box.senses if isinstance(each, WireSense) and each.name not in still]
    rules = [each for each in box.rules if isinstance(each, Rule) and each.name not in still]
    rules = [each for each in rules if not _is_a_name(each.expr)]
    found: list[tuple[Rule, ...] | tuple[WireSense, ...]] = []
    for group in _groups(survey, SignalKind.SENSE, [each.name for each in senses]):
        found.append(tuple(each for each in senses if each.name in group))
    for group in _groups(survey, SignalKind.RULE, [each.name for each in rules]):
        found.append(tuple(each for each in rules if each.name in group))
    return tuple(found)


@lru_cache(maxsize=1)
def ruled_out(survey: Survey) -> dict[str, str]:
    """Rules and outputs that are never on because their line asks for one of a group and against another; each with the
    first name of that group."""
    first = {each.name: group[0].name for group in alike(survey) for each in group}
    found = {}
    for each in steady(survey):
        if each.change is Change.NEVER and isinstance(each.item, Rule | Output):
            line = each.item.expr if isinstance(each.item, Rule) else each.item.command
            parts = line.parts if isinstance(line, And) else ()
            wanted = {part.name for part in parts if isinstance(part, Signal)}
            barred = {part.x.name for part in parts if isinstance(part, Not) and isinstance(part.x, Signal)}
            both = {first[n] for n in wanted if n in first} & {first[n] for n in barred if n in first}
            if both:
                found[each.name] = min(both)
    return found


def joined(program: Program, group: tuple[Rule, ...] | tuple[WireSense, ...]) -> bool:
    """They are senses of wires that are joined for good: then that is what has to be said."""
    senses = [each for each in group if isinstance(each, WireSense)]
    if not senses:
        return False
    closed = [(each.left, each.right) for each in program.contacts if each.condition == Const(True)]
    reached = {senses[0].wire}
    while more := {end for pair in closed if reached & set(pair) for end in pair} - reached:
        reached |= more
    return len({each.wire for each in senses}) > 1 and {each.wire for each in senses} <= reached


def outputs_alike(survey: Survey) -> Iterator[tuple[Output, ...]]:
    """Groups of outputs that are always in the same state although they are written differently, whatever else is
    alike; none of what never changes."""
    box = survey.written.box
    if box is None:
        return
    still = {name for each in steady(survey) for name in each.names}
    outputs = [each for each in box.outputs if each.name not in still]
    first = {each.name: group[0].name for group in alike(survey) for each in group}
    for names in _groups(survey, SignalKind.OUTPUT, [each.name for each in outputs]):
        group = [each for each in outputs if each.name in names]
        different = {_as_read(each.command, first) for each in group if not _names_one_of(each, names)}
        if len(different) > 1:
            yield tuple(group)


def _names_one_of(output: Output, names: Sequence[str]) -> bool:
    return isinstance(output.command, Signal) and output.command.name in names


def _is_a_name(expr: Expr) -> bool:
    return isinstance(expr, Signal) and expr.kind in (SignalKind.RULE, SignalKind.COMMAND)


def _groups(survey: Survey, kind: SignalKind, names: list[str]) -> list[list[str]]:
    """Those that cannot differ, in groups of two at least; as far as there is time. What passes within a moment counts:
    there a rule that ends itself does what it is for."""
    groups: list[list[str]] = []
    for name in names:
        if not survey.budget.left and survey.out_of_time:  # that something was left out is known
            break
        for group in groups:
            differ = Xor(Signal(kind, group[0]), Signal(kind, name))
            if survey.passes(differ) is False:
                group.append(name)
                break
        else:
            groups.append([name])
    return [group for group in groups if len(group) > 1]


def _as_read(expr: Expr, first: dict[str, str]) -> Expr:
    """The expression as a reader compares it: memory is what is written, and of names that say the same one stands."""

    def leaf(each: Expr) -> Expr:
        match each:
            case Signal(name=name):
                return replace(each, name=first.get(name, name))
            case Timer() | Blink() | Edge() | Previous():
                return replace(each, x=_as_read(each.x, first), key="")
            case Bistable():
                return replace(each, set=_as_read(each.set, first), reset=_as_read(each.reset, first), key="")
            case Impulse():
                return replace(each, x=_as_read(each.x, first), reset=_as_read(each.reset, first), key="")
            case _:
                return each

    return replace_leaves(expr, leaf)
