"""Which faults may be there at once, as conditions on switches of the world, and which ones a story has.

Either each fault is a contact of its own, or there are a few places for faults: switches that hold no fault, or one of
them for good. With two places no more than two faults are there, and what is asked looks at two switches, however many
faults there are.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from typing import Any, TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.copper.sets.breaking import Breaking, Faults
from logiccheck.lang.program import (
    And,
    ChangesOnlyWhile,
    Const,
    Excluded,
    Expr,
    Form,
    Not,
    Or,
    Position,
    Program,
    Switch,
)
from logiccheck.model.story import Story

Where: TypeAlias = tuple[str, int]  # a switch, and its position

ON, NONE = 1, 0  # of a contact; of a place that holds no fault


@frozen
class Held:
    """`program` is that of `breaking`, with `places` or without (None). Fault i is there while some switch of
    `where[i]` stands in its position."""

    breaking: Breaking
    program: Program
    where: tuple[tuple[Where, ...], ...]
    places: tuple[str, ...] | None

    @property
    def most(self) -> int:
        """No more faults can be there at once."""
        return len(self.where if self.places is None else self.places)

    def said(self, form: Form) -> Form:
        """The form, which may name faults, as this program has them."""
        if self.places is None:
            return form
        rewritten: Form = _rewritten(form, self.places, _numbers(self.breaking))
        return rewritten

    def any_of(self, faults: Iterable[int]) -> Expr:
        """One of these faults is there."""
        indices: dict[str, set[int]] = defaultdict(set)
        for fault in sorted(faults):
            for switch, index in self.where[fault]:
                indices[switch].add(index)
        return _either([Position(switch, frozenset(some)) for switch, some in indices.items()])

    def kept(self, left: Faults, without: Iterable[Faults], most: int) -> Expr:
        """Only faults of `left` are there, none of these sets whole, and at most so many."""
        others = Not(self.any_of(set(range(len(self.where))) - left))
        few = [Not(self._at_least(sorted(left), most + 1))] if most < self.most else []
        return And((others, Not(_either(list(self._together(without)))), *few))

    def there(self, story: Story) -> Faults:
        """The faults that are there where the story ends."""
        last = dict(story.steps[-1].world)
        number = range(len(self.where))
        return frozenset(i for i in number if any(last.get(switch) == index for switch, index in self.where[i]))

    def told(self, story: Story, question: str) -> Story:
        """The same story, on the program of `breaking`; what `question` remembers is the requirement's own again."""
        mine = sorted(self.there(story))
        switches = {switch for ways in self.where for switch, _ in ways}

        def world(step: tuple[tuple[str, int | Fraction], ...]) -> tuple[tuple[str, int | Fraction], ...]:
            held, others = dict(step), tuple(pair for pair in step if pair[0] not in switches)
            so = ((i, any(held.get(switch) == index for switch, index in self.where[i])) for i in mine)
            return (*others, *((self.breaking.names[i], int(there)) for i, there in so))

        def own(key: str) -> str:
            return key.removesuffix(f", {question}")

        steps = (replace(s, world=world(s.world), due=tuple(own(key) for key in s.due)) for s in story.steps)
        runs = tuple(replace(run, key=own(run.key)) for run in story.runs)
        involved = (story.involved - switches) | {self.breaking.names[fault] for fault in mine}
        return replace(story, steps=tuple(steps), runs=runs, involved=involved)

    def _together(self, sets: Iterable[Faults]) -> Iterator[Expr]:
        """For each set that all of it is there; those that begin alike are put together."""
        after: dict[int, list[Faults]] = defaultdict(list)
        for faults in sorted(sets, key=sorted):
            after[min(faults)].append(faults - {min(faults)})
        alone = [first for first, rests in after.items() if frozenset() in rests]
        if alone:
            yield self.any_of(alone)
        alike: dict[tuple[Faults, ...], list[int]] = defaultdict(list)
        for first, rests in after.items():
            if first not in alone:
                alike[tuple(rests)].append(first)
        for others, firsts in alike.items():
            yield And((self.any_of(firsts), _either(list(self._together(others)))))

    def _at_least(self, some: Sequence[int], number: int) -> Expr:
        """That many of these faults are there: so many of the first half, and the others of the second."""
        if number > len(some):
            return Const(False)
        if number == 0:
            return Const(True)
        if number == 1:
            return self.any_of(some)
        half = len(some) // 2
        first, second = some[:half], some[half:]
        shares = range(max(0, number - len(second)), min(number, len(first)) + 1)
        return _either([And((self._at_least(first, n), self._at_least(second, number - n))) for n in shares])


def each_its_own(breaking: Breaking, barred: Iterable[Faults]) -> Held:
    """Each fault a contact; the faults of each of the sets `barred` are never there together."""
    where = tuple(((name, ON),) for name in breaking.names)
    return _without(Held(breaking, breaking.program, where, None), barred)


def in_places(breaking: Breaking, count: int, barred: Iterable[Faults]) -> Held:
    """With that many places; the faults of each of the sets `barred` are never there together."""
    places = tuple(f"fault place {number}" for number in range(1, count + 1))
    labels = ("none", *breaking.names)
    switches = (Switch(name, name, labels, one_by_one=False, contact=False) for name in places)
    number = _numbers(breaking)
    rewritten: Program = _rewritten(breaking.program, places, number)
    stays = (ChangesOnlyWhile(place, Position(place, frozenset({NONE})), "") for place in places)
    kept = (g for g in rewritten.givens if not (isinstance(g, ChangesOnlyWhile) and g.name in number))
    program = replace(
        rewritten,
        switches=(*(switch for switch in rewritten.switches if switch.name not in number), *switches),
        givens=(*kept, *stays),
    )
    where = tuple(tuple((place, index) for place in places) for index in number.values())
    return _without(Held(breaking, program, where, places), barred)


def _numbers(breaking: Breaking) -> dict[str, int]:
    """In which position a place holds which fault."""
    return {name: index for index, name in enumerate(breaking.names, 1)}


def _without(held: Held, barred: Iterable[Faults]) -> Held:
    never = [Excluded(And(tuple(held.any_of({f}) for f in sorted(faults))), "") for faults in barred]
    return replace(held, program=replace(held.program, givens=(*held.program.givens, *never)))


def _either(parts: Sequence[Expr]) -> Expr:
    return Const(False) if not parts else parts[0] if len(parts) == 1 else Or(tuple(parts))


def _rewritten(value: Any, places: tuple[str, ...], number: dict[str, int]) -> Any:
    """The same with places asked for what contacts said; what says nothing of them is the very same object."""
    if isinstance(value, Position):
        if value.name not in number:
            return value
        there = _either([Position(place, frozenset({number[value.name]})) for place in places])
        return {frozenset({ON}): there, frozenset({1 - ON}): Not(there)}[value.indices]
    if isinstance(value, tuple):
        parts = tuple(_rewritten(each, places, number) for each in value)
        return parts if any(a is not b for a, b in zip(parts, value, strict=True)) else value
    if is_dataclass(value) and not isinstance(value, type):
        changed = {}
        for each in fields(value):
            old = getattr(value, each.name)
            new = _rewritten(old, places, number)
            if new is not old:
                changed[each.name] = new
        return replace(value, **changed) if changed else value
    return value
