"""A certificate read from its text. Nothing in it is believed; what cannot be read is told in one sentence."""

from __future__ import annotations

import json
import re
from typing import Any, NoReturn, TypeVar

from logiccheck.audit.certificate import Ahead, Certificate, Choice, Clause, Cover, Name, Part
from logiccheck.audit.given import LineName
from logiccheck.audit.stuck import Plan
from logiccheck.base.version import LANGUAGE
from logiccheck.certificate.document import FORMAT, About, Claim, Document, Proof, Subject, Within

MARK = "logiccheck certificate"
KEYS = (MARK, "tool", "language", "file", "files", "repeats", "verdicts", "claims")
OF_SUBJECT = {
    About.UNSETTLED: (),
    About.STUCK: ("plans", "lines"),
    About.BROKEN: ("requirement",),
    About.CASE: ("requirement", "case"),
    About.ON: ("requirement", "output"),
    About.SHORT: (),
}
MOST_REPEATS = 400
MOST_MOMENTS = 400
MOST_MICROS = 10**18

T = TypeVar("T")


class Unfit(Exception):
    """The text is no certificate that can be read; says why, as a sentence."""


def read(raw: bytes) -> Document:
    """The document in the bytes of a file. Raises Unfit."""
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Unfit("It is no text, so it is no certificate.") from None
    if MARK not in text[:200]:
        raise Unfit("It does not begin as a certificate does: `check FILE --certify OUT` writes one.")
    try:
        top = json.loads(text, object_pairs_hook=_once, parse_float=_no_number, parse_constant=_no_number)
    except json.JSONDecodeError as error:
        raise Unfit(f"It is damaged or cut off: it cannot be read on from line {error.lineno}.") from None
    except (ValueError, RecursionError):
        raise Unfit("It is damaged: no certificate has such numbers, or so many brackets.") from None
    return _document(_table(top, "the whole"))


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        twice = next(key for key, _ in pairs if sum(other == key for other, _ in pairs) > 1)
        raise Unfit(f'It is damaged: "{_short(twice)}" stands twice where it may stand once.')
    return found


def _no_number(text: str) -> NoReturn:
    raise Unfit(f"It is damaged: {_short(text)} is no whole number.")


def _document(top: dict[str, Any]) -> Document:
    version = _number(top.get(MARK), MARK)
    tool = _text(top.get("tool", "?"), "tool")
    if version > FORMAT:
        raise Unfit(f"It is of format {version}, written by logiccheck {tool}; this one reads format {FORMAT}. Update.")
    if version < 1:
        raise Unfit(f"It is damaged: there is no format {version}.")
    _exactly(top, KEYS, "the whole")
    language = _number(top["language"], "language")
    if language > LANGUAGE:
        raise Unfit(f"It is about rules in language {language}; this logiccheck reads language {LANGUAGE}. Update.")
    files = [(name, _digest(value)) for name, value in _table(top["files"], "files").items()]
    verdicts = [(name, _text(value, "verdicts")) for name, value in _table(top["verdicts"], "verdicts").items()]
    claims = tuple(_claim(_table(each, "a claim")) for each in _list(top["claims"], "claims"))
    if not files:
        raise Unfit("It is damaged: it names no file of rules.")
    if len({claim.subject.key for claim in claims}) != len(claims):
        raise Unfit("It is damaged: it claims one thing twice.")
    repeats = _number(top["repeats"], "repeats", MOST_REPEATS)
    return Document(_text(top["file"], "file"), tuple(files), tuple(verdicts), repeats, claims, tool, language)


def _claim(each: dict[str, Any]) -> Claim:
    try:
        about = About(_text(each.get("about"), "about"))
    except ValueError:
        raise Unfit(f'It claims something unknown: "{_short(each["about"])}".') from None
    kind = "never" if "never" in each else "happens within"
    _exactly(each, ("about", *OF_SUBJECT[about], kind), f"a claim about {about.value}")
    subject = Subject(
        about,
        requirement=_text(each.get("requirement", ""), "requirement"),
        case=_number(each.get("case", 0), "case"),
        output=_text(each.get("output", ""), "output"),
        plans=tuple(_plan(plan) for plan in _list(each.get("plans", []), "plans")),
        lines=_lines(each.get("lines", []), "lines"),
    )
    return Claim(subject, _proof(kind, each[kind]))


def _proof(kind: str, value: Any) -> Proof:
    if kind == "happens within":
        return Within(_number(value, kind, MOST_MOMENTS))
    table = _table(value, kind)
    _exactly(table, ("given", "clauses", *(("covers",) if "covers" in table else ())), kind)
    clauses = tuple(_clause(each) for each in _list(table["clauses"], "clauses"))
    covers = tuple(_cover(_table(each, "a cover")) for each in _list(table.get("covers", []), "covers"))
    return Certificate(clauses, _lines(table["given"], "given"), covers)


def _cover(table: dict[str, Any]) -> Cover:
    _exactly(table, ("choices", "parts"), "a cover")
    return Cover(
        tuple(_choice(each) for each in _list(table["choices"], "choices")),
        tuple(_part(_list(each, "a part")) for each in _list(table["parts"], "parts")),
    )


def _choice(value: Any) -> Choice:
    match value:
        case [str() as bit, then, other]:
            return Choice(bit, _number(then, "a choice"), _number(other, "a choice"))
        case _:
            raise Unfit(f"It is damaged: {_short(json.dumps(value, ensure_ascii=False))} is no choice.")


def _part(value: list[Any]) -> Part:
    if not value:
        raise Unfit("It is damaged: a part of a cover is empty.")
    apart = []
    for name, so in map(_literal, value[1:]):
        if not isinstance(name, Ahead):
            raise Unfit(f'It is damaged: "{_short(name)}" is no comparison, and a part of a cover names no other.')
        apart.append((name, so))
    return Part(_number(value[0], "a part"), tuple(apart))


def _clause(value: Any) -> Clause:
    return tuple(_literal(each) for each in _list(value, "a clause"))


def _literal(value: Any) -> tuple[Name, bool]:
    match value:
        case str() if value[:1] in ("+", "-"):
            return value[1:], value[0] == "+"
        case ["+" | "-" as sign, str() as timer, ">" | ">=" as op, int() as bound, str() | None as other]:
            if isinstance(bound, bool) or abs(bound) > MOST_MICROS:
                raise Unfit("It is damaged: no certificate has such a bound of time.")
            return Ahead(timer, other, bound, op == ">="), sign == "+"
        case _:
            raise Unfit(f"It is damaged: {_short(json.dumps(value, ensure_ascii=False))} says nothing in a clause.")


def _plan(value: Any) -> Plan:
    """Moment by moment a table of what is moved, and the place it is moved to."""
    moments = [_table(moves, "a moment of a plan") for moves in _list(value, "a plan")]
    return tuple(tuple((name, _number(place, "a place")) for name, place in moves.items()) for moves in moments)


def _lines(value: Any, where: str) -> frozenset[LineName]:
    found = [_line(_text(each, where)) for each in _list(value, where)]
    return frozenset(found)


def _line(text: str) -> LineName:
    kind, _, which = text.rpartition(" ")
    if kind == "steps" and which:
        return kind, which
    if kind in ("given", "at first") and re.fullmatch(r"0|[1-9][0-9]{0,5}", which):
        return kind, int(which)
    raise Unfit(f'It is damaged: "{_short(text)}" names no line of what is given.')


# ------------------------------------------------------------------------------------------------------- plain values


def _exactly(table: dict[str, Any], keys: tuple[str, ...], where: str) -> None:
    for key in keys:
        if key not in table:
            raise Unfit(f'It is damaged: "{key}" is missing in {where}.')
    for key in table:
        if key not in keys:
            raise Unfit(f'It is damaged: "{_short(key)}" has no meaning in {where}.')


def _of(kind: type[T], value: Any, where: str) -> T:
    if not isinstance(value, kind) or isinstance(value, bool):
        raise Unfit(f'It is damaged: what stands at "{where}" is not what belongs there.')
    return value


def _table(value: Any, where: str) -> dict[str, Any]:
    return _of(dict, value, where)


def _list(value: Any, where: str) -> list[Any]:
    return _of(list, value, where)


def _text(value: Any, where: str) -> str:
    return _of(str, value, where)


def _number(value: Any, where: str, most: int = 10**6) -> int:
    number = _of(int, value, where)
    if not 0 <= number <= most:
        raise Unfit(f'It is damaged: {_short(str(number))} is no number for "{where}".')
    return number


def _digest(value: Any) -> str:
    digest = _text(value, "files")
    if not re.fullmatch(r"[0-9a-f]{64}", digest):
        raise Unfit(f'It is damaged: "{_short(digest)}" is no sha256 of a file.')
    return digest


def _short(text: str) -> str:
    return text if len(text) <= 60 else text[:57] + "..."
