"""Builds the tree as written from the pieces of a parsed item: one small function for each rule of the grammar."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any, TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang import written as w


@frozen
class Token:
    """A word of the text; `kind` is the name of its terminal."""

    kind: str
    text: str
    span: Span
    gap: int  # blanks before it


# What the grammar guarantees about the children of a rule is checked by the parser, not by types: they are `Any` here
# and nowhere else.
Children: TypeAlias = list[Any]
Builder: TypeAlias = Callable[[Span, Children], Any]


@frozen
class _When:
    x: w.Expr


@frozen
class _Longer:
    time: w.Amount


@frozen
class _Instant:
    pass


def _name(token: Token) -> w.Name:
    return w.Name(token.text, token.span)


def _quoted(token: Token | None) -> w.Quoted | None:
    return None if token is None else w.Quoted(token.text[1:-1], token.span)


def _plain(children: Children) -> list[Any]:
    """The children without keyword tokens that only mark a place."""
    return [c for c in children if not isinstance(c, Token)]


GAUGES = ("AWG", "SAE")  # whose sizes beyond 0 are counted in noughts: 00 is -1, as it comes after 0


def _quantity(span: Span, c: Children) -> w.Quantity:
    top, bottom, unit = c
    divisor = Fraction(bottom.text) if bottom else Fraction(1)
    number = Fraction(top.text) / divisor if divisor else None
    if unit and unit.text in GAUGES and bottom is None and set(top.text) == {"0"}:
        number = Fraction(1 - len(top.text))
    digits = max(len(t.text) for t in (top, bottom) if t)
    return w.Quantity(number, digits, unit.text if unit else None, span)


def _literal(span: Span, c: Children) -> w.Window:
    parts = _plain(c)
    if len(parts) == 1:
        only: w.Quantity = parts[0]
        return only
    return w.Between(parts[0], parts[1], span) if isinstance(c[0], Token) else w.Tolerance(parts[0], parts[1], span)


def _between(span: Span, c: Children) -> w.Between:
    low, high = _plain(c)
    return w.Between(low, high, span)


def _chain(word: str) -> Builder:
    return lambda span, c: w.Chain(word, tuple(c), span)


def _xor(span: Span, c: Children) -> w.Chain:
    """From the left, two by two: what stands before each further `xor` is one part."""
    chain: w.Expr = c[0]
    for i in range(1, len(c), 2):
        end = c[i + 2].span.begin - c[i + 2].gap if i + 2 < len(c) else span.end
        chain = w.Chain("xor", (chain, c[i + 1]), Span(span.file, span.begin, end))
    assert isinstance(chain, w.Chain)
    return chain


def _held(word: str) -> Builder:
    return lambda span, c: w.Held(_name(c[0]), word, c[-1], span)


def _thresholds(rising: bool) -> Builder:
    def build(span: Span, c: Children) -> w.Thresholds:
        name, _, begin, until, end = c
        return w.Thresholds(_name(name), rising, begin, end, until.span.to(end.span), span)

    return build


def _stored(word: str) -> Builder:
    def build(span: Span, c: Children) -> w.Stored:
        x, *parts = _plain(c)
        return w.Stored(word, x, tuple(parts), span)

    return build


def _blink(span: Span, c: Children) -> w.Blink:
    x, on, off = _plain(c)
    return w.Blink(x, on, off, span)


EXPRESSIONS: dict[str, Builder] = {
    "or_": _chain("or"),
    "xor_": _xor,
    "and_": _chain("and"),
    "at_most_one": _chain("at most one"),
    "negation": lambda span, c: w.Negation(c[0], span),
    "bare": lambda span, c: w.Bare(_name(c[0]), span),
    "truth": lambda span, c: w.Truth(c[0].kind == "TRUE", span),
    "is_": lambda span, c: w.Is(_name(c[0]), c[1], False, span),
    "is_not": lambda span, c: w.Is(_name(c[0]), c[1], True, span),
    "in_": lambda span, c: w.In(_name(c[0]), tuple(c[1:]), span),
    "becomes": lambda span, c: w.Becomes(_name(c[0]), c[1], span),
    "above": _held("above"),
    "below": _held("below"),
    "at_least": _held("at least"),
    "at_most": _held("at most"),
    "above_until_below": _thresholds(True),
    "below_until_above": _thresholds(False),
    "timer": lambda span, c: w.Timed(c[0].text, c[1], c[2], span),
    "blink": _blink,
    "bistable": _stored("bistable"),
    "impulse": _stored("impulse_relay"),
    "reset": lambda span, c: w.Reset(_plain(c)[0], span),
    "wins": lambda span, c: w.Option(f"{c[0].text} wins", span),
    "retained": lambda span, c: w.Option("retained", span),
    "edge": lambda span, c: w.Edge(c[0].kind == "RISES", c[1], span),
    "previous": lambda span, c: w.Previous(c[0], span),
    "word": lambda span, c: _name(c[0]),
    "quantity": _quantity,
    "literal": _literal,
    "tolerance": lambda span, c: w.Tolerance(c[0], c[1], span),
    "between": _between,
}


def _use_checklist(span: Span, c: Children) -> w.UseChecklist:
    name, prefix, bound = c
    bindings = tuple(each for each in bound or () if isinstance(each, w.Binding))
    waivers = tuple(each for each in bound or () if isinstance(each, w.Waiver))
    return w.UseChecklist(_name(name), _name(prefix or name), bindings, waivers, span)


HEADERS: dict[str, Builder] = {
    "language": lambda span, c: w.Language(w.Quantity(Fraction(c[0].text), len(c[0].text), None, c[0].span), span),
    "vehicle": lambda span, c: w.Vehicle(w.Quoted(c[0].text[1:-1], c[0].span), span),
    "use_file": lambda span, c: w.UseFile(w.Quoted(c[0].text[1:-1], c[0].span), span),
    "use_checklist": _use_checklist,
    "bindings": lambda span, c: tuple(c),
    "binding": lambda span, c: w.Binding(_name(c[0]), c[1], span),
    "waiver": lambda span, c: w.Waiver(_name(c[0]), w.Quoted(c[1].text[1:-1], c[1].span), span),
    "checklist": lambda span, c: w.Checklist(_name(c[0]), _quoted(c[1]), span),
    "plain_block": lambda span, c: w.Plain(c[0].text, span),
    "controller": lambda span, c: w.Controller(_quoted(c[0]), _name(c[1]), c[2], span),
    "scenario": lambda span, c: w.ScenarioHead(_name(c[0]), _quoted(c[1]), span),
}


def _switch(span: Span, c: Children) -> w.Switch:
    name, label, *positions, one_by_one = c
    return w.Switch(_name(name), _quoted(label), tuple(map(_name, positions)), bool(one_by_one), span)


def _otherwise(span: Span, c: Children) -> w.Connection:
    return w.Connection(_name(c[1]), None, True, span)


def _connection(span: Span, c: Children) -> w.Connection:
    return w.Connection(_name(c[1]), c[2].x if c[2] else None, False, span)


def _condition(when: _When | None) -> w.Expr | None:
    return when.x if when else None


def _load(span: Span, c: Children) -> w.Load:
    name, label, _, wire, draws = c
    return w.Load(_name(name), _quoted(label), _name(wire), draws or (), span)


def _draw(word: str) -> Builder:
    return lambda span, c: w.Draw(word, c[0], c[1] if len(c) > 1 else None, span)


WORLD_AND_HARNESS: dict[str, Builder] = {
    "constants_item": lambda span, c: w.Constant(_name(c[0]), c[1], span),
    "roles_item": lambda span, c: w.Role(_name(c[0]), w.Quoted(c[1].text[1:-1], c[1].span), span),
    "first": lambda span, c: w.First(tuple(c), span),
    "switch": _switch,
    "one_by_one": lambda span, c: True,
    "contact": lambda span, c: w.Switch(_name(c[0]), _quoted(c[1]), (), False, span),
    "number": lambda span, c: w.Number(_name(c[0]), _quoted(c[1]), c[2], c[3], span),
    "source": lambda span, c: w.Source(_name(c[0]), _quoted(c[1]), _condition(c[2]), span),
    "ground": lambda span, c: w.Ground(_name(c[0]), _quoted(c[1]), _condition(c[2]), span),
    "wire": lambda span, c: w.Wire(_name(c[0]), _quoted(c[1]), c[2] or (), span),
    "wire_parts": lambda span, c: tuple(c),
    "from_": _connection,
    "to_": _connection,
    "otherwise": _otherwise,
    "join": lambda span, c: w.Join(_name(c[0]), _name(c[1]), _condition(c[2]), span),
    "diode": lambda span, c: w.Diode(_name(c[0]), _name(c[1]), span),
    "relay": lambda span, c: w.Relay(_name(c[0]), _quoted(c[1]), c[2], _name(c[3]) if c[3] else None, c[4], span),
    "load": _load,
    "when": lambda span, c: _When(c[0]),
    "electrical": lambda span, c: tuple(c),
    "current": _draw("current"),
    "inrush": _draw("inrush"),
    "fuse": _draw("fuse"),
    "run": _draw("wire"),
    "bundle": _draw("bundle"),
    "drop": _draw("drop"),
    "in_engine_space": lambda span, c: w.InEngineSpace(span),
}


def _sense(span: Span, c: Children) -> w.Sense:
    name, label, _, source, reading, *parts = c
    return w.Sense(_name(name), _quoted(label), _name(source), reading, tuple(parts), span)


def _substitute(span: Span, c: Children) -> w.Substitute:
    value = c[0].kind == "ON" if isinstance(c[0], Token) else c[0]
    return w.Substitute(value, span)


def _output(span: Span, c: Children) -> w.Output:
    name, label, when, *parts = c
    return w.Output(_name(name), _quoted(label), when.x, tuple(parts), span)


CONTROLLER: dict[str, Builder] = {
    "sense": _sense,
    "reading": lambda span, c: c[0].text,
    "filter_": lambda span, c: w.Filter(c[0], span),
    "substitute": _substitute,
    "rule": lambda span, c: w.Rule(_name(c[0]), _quoted(c[1]), c[2], span),
    "output": _output,
    "fed_by": lambda span, c: w.Fed(True, _name(c[0]), span),
    "feeds": lambda span, c: w.Fed(False, _name(c[0]), span),
    "draws": lambda span, c: w.Draws(c[0], span),
    "box_draws": lambda span, c: w.BoxDraws(tuple(c), span),
    "box_draw": lambda span, c: w.BoxDraw(c[0], _name(c[1]), span),
}


def _setting(word: str) -> Builder:
    return lambda span, c: w.Setting(word, c[0], span)


def _battery_part(word: str) -> Builder:
    return lambda span, c: w.BatteryPart(word, c[0], span)


ELECTRICS: dict[str, Builder] = {
    "nominal": _setting("nominal"),
    "ambient": _setting("ambient"),
    "engine_space": _setting("engine space"),
    "apart": _setting("apart"),
    "parked": lambda span, c: w.Parked(c[0].x, span),
    "battery": lambda span, c: w.Battery(_name(c[0]), tuple(c[1:]), span),
    "capacity": _battery_part("capacity"),
    "reserve": _battery_part("reserve"),
    "cranks": _battery_part("cranks"),
    "loses": _battery_part("loses"),
    "dip": lambda span, c: w.Dip(_name(c[0]), c[1], c[2], span),
    "tell_tale": lambda span, c: w.TellTale(c[0], _quoted(c[1]), _condition(c[2]), c[3], span),
}


def _requirement(span: Span, c: Children) -> w.Requirement:
    guard, name, label, form = c
    return w.Requirement(guard.text, _name(name), _quoted(label), form, span)


def _never(always: bool) -> Builder:
    def build(span: Span, c: Children) -> w.Never:
        p, r, tail = c
        longer = tail.time if isinstance(tail, _Longer) else None
        return w.Never(p, _condition(r), always, longer, isinstance(tail, _Instant), span)

    return build


def _given_never(always: bool) -> Builder:
    return lambda span, c: w.GivenNever(c[0], _condition(c[1]), always, span)


def _calls(lasting: bool) -> Builder:
    return lambda span, c: w.Calls(c[0], c[1], lasting, c[2], c[3], span)


REQUIREMENTS: dict[str, Builder] = {
    "given_never": _given_never(False),
    "given_always": _given_never(True),
    "given_while": _given_never(True),
    "given_at_least": lambda span, c: w.GivenLasts(c[0], True, c[1], span),
    "given_at_most": lambda span, c: w.GivenLasts(c[0], False, c[1], span),
    "given_after": lambda span, c: w.GivenAfter(c[0], c[1], c[2], span),
    "given_changes": lambda span, c: w.GivenChanges(_name(c[0]), c[1], span),
    "given_no_jumps": lambda span, c: w.GivenNoJumps(_name(c[0]), span),
    "while_": lambda span, c: _When(c[0]),
    "requirements_item": _requirement,
    "never": _never(False),
    "always": _never(True),
    "longer": lambda span, c: _Longer(c[0]),
    "instant": lambda span, c: _Instant(),
    "calls_within": _calls(False),
    "calls_lasting": _calls(True),
    "excused": lambda span, c: c[0],
    "only_after": lambda span, c: w.OnlyAfter(c[0], c[1], c[2], c[3], span),
    "has_lasted": lambda span, c: c[0],
    "since": lambda span, c: c[0],
    "waits_for": lambda span, c: w.WaitsFor(c[0], c[1], c[2], span),
    "after": lambda span, c: c[0],
    "possible": lambda span, c: w.Possible(c[0], span),
}


def _accepted(span: Span, c: Children) -> w.Accepted:
    kind, about, reason, by, _, on, logic = c
    why, who = (w.Quoted(each.text[1:-1], each.span) for each in (reason, by))
    return w.Accepted(_name(kind), _name(about), why, who, _name(on), _name(logic), span)


def _scene_at(span: Span, c: Children) -> w.Scene:
    begin, *facts, expected = c
    return w.Scene(begin, None, tuple(facts), expected or (), span)


def _scene_during(span: Span, c: Children) -> w.Scene:
    begin, end, expected = _plain(c)
    return w.Scene(begin, end, (), expected, span)


def _fact_lasts(span: Span, c: Children) -> w.FactLasts:
    timer = c[0]
    if isinstance(timer, Token):
        timer = w.Quoted(timer.text[1:-1], timer.span)
    return w.FactLasts(timer, c[1], span)


SCENARIOS: dict[str, Builder] = {
    "scene_first": lambda span, c: w.Scene(None, None, tuple(c), (), span),
    "scene_at": _scene_at,
    "scene_expect": lambda span, c: w.Scene(c[0], None, (), c[1], span),
    "scene_during": _scene_during,
    "scene_until": lambda span, c: w.Until(c[0], span),
    "fact_set": lambda span, c: w.FactSet(c[0], span),
    "fact_lasts": _fact_lasts,
    "expect": lambda span, c: tuple(c),
}

ACCEPTED: dict[str, Builder] = {"accepted_item": _accepted}

BUILDERS: dict[str, Builder] = (
    EXPRESSIONS | HEADERS | WORLD_AND_HARNESS | CONTROLLER | ELECTRICS | REQUIREMENTS | SCENARIOS | ACCEPTED
)
