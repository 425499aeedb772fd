"""What is accepted: whose word it is, since when, and which logic it rests on."""

from __future__ import annotations

import re
from collections.abc import Iterable

from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.accepted import AcceptedTwice, AcceptedWithout, BadDate, BadMark
from logiccheck.lang.resolve.scope import Kind, Scope

REQUIREMENT = "requirement"
REASON, NAME = "REASON", "NAME"  # what stands for them in a line that is ready to be copied
SHORT_CIRCUIT = "no_short_circuit"  # the requirement that nobody has to write
_DATE = re.compile(r"(\d{4})-(\d\d)-(\d\d)", re.ASCII)
_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_MARK = re.compile(r"[0-9a-f]{4}-[0-9a-f]{4}")


def accepted(scope: Scope, items: Iterable[w.Accepted]) -> tuple[p.Accepted, ...]:
    """What is accepted without a mistake, in the order written."""
    found: dict[tuple[str, str, str], p.Accepted] = {}
    for item in items:
        each = _accepted(scope, item)
        if each is None:
            continue
        first = found.setdefault((each.kind, each.about, each.logic), each)
        if first is not each:
            scope.tell(AcceptedTwice(each.kind, each.about), each.span, first.span)
    return tuple(found.values())


def _accepted(scope: Scope, item: w.Accepted) -> p.Accepted | None:
    kind, logic = item.kind.text.lower().replace("_", "-"), item.logic.text.lower()
    told = len(scope.found)
    if kind == REQUIREMENT and item.about.text == SHORT_CIRCUIT:
        pass
    elif kind == REQUIREMENT:
        scope.want(item.about, {Kind.REQUIREMENT}, "a requirement")
    else:
        scope.find(item.about)
    for what, quoted, unfilled in (("a reason", item.reason, REASON), ("a name", item.by, NAME)):
        if quoted.text.strip() in ("", unfilled):
            scope.tell(AcceptedWithout(what), quoted.span)
    if not _is_date(item.on.text):
        scope.tell(BadDate(item.on.text), item.on.span)
    if not _MARK.fullmatch(logic):
        scope.tell(BadMark(item.logic.text), item.logic.span)
    if len(scope.found) > told:
        return None
    reason, by = item.reason.text.strip(), item.by.text.strip()
    return p.Accepted(kind, item.about.text, reason, by, item.on.text, logic, item.span, item.kind.span)


def _is_date(text: str) -> bool:
    """A day that there is, as in ISO 8601."""
    found = _DATE.fullmatch(text)
    if found is None:
        return False
    year, month, day = map(int, found.groups())
    leap = month == 2 and year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return year > 0 and 1 <= month <= 12 and 1 <= day <= _DAYS[month - 1] + leap
