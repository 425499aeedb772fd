"""What the tests of formats for machines share: reports of every kind, made up and real, and published schemas."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from logiccheck.cli.reader import DiskReader, posix
from logiccheck.report.played import Shape
from logiccheck.report.report import (
    AcceptedPart,
    Cause,
    EditsPart,
    Excerpt,
    ExpectationPart,
    FileRead,
    Level,
    Line,
    Notice,
    Outcome,
    PlayedPart,
    Report,
    ToAccept,
)
from logiccheck.session.checking import check
from logiccheck.session.playing import play
from logiccheck.session.reading import show
from tests.calling import EXAMPLES
from tests.examples.reading import examples
from tests.report.samples import BAD, GOOD

SCHEMAS = Path(__file__).parent / "schemas"

FILES = (FileRead("boat.circuit", "0" * 64), FileRead("lights & more.circuit", "f" * 64))

MET = PlayedPart(
    name="arrival",
    label="Coming aboard",
    sentence="Expectations met: 1 of 2.",
    table=None,
    met=1,
    expectations=(ExpectationPart(True, "At 1 s as expected: lamps, horn", None, ("At 1 s: lamps", "At 1 s: horn")),),
    place="boat.circuit:66",
)

MISTAKEN = Report(
    opening="2 mistakes in boat.circuit; nothing was checked.",
    closing="mistakes 2: nothing was checked",
    outcome=Outcome.MISTAKE,
    notices=(
        Notice(
            level=Level.MISTAKE,
            name="double-name",
            code="E300",
            sentence="The name öl is given twice.",
            excerpts=(
                Excerpt("boat.circuit:20:5", (Line(20, "    wire öl", ((9, 11),)),)),
                Excerpt("lights & more.circuit:7:10", (Line(7, "    wire öl from plus", ((9, 11),)),)),
            ),
            second="the first one",
            advice="Rename one of them.",
        ),
        Notice(Level.MISTAKE, "no-vehicle", "E100", "No vehicle is named.", (), "", ""),
    ),
    files=FILES,
)
UNKNOWN = Report("There is no requirement named x.", "", Outcome.MISTAKE)
INTERRUPTED = replace(GOOD, outcome=Outcome.OPEN, opening="Day boat: NOT ALL DECIDED. This run was interrupted.")
EDITS = EditsPart(
    "It would hold with this edit (a suggestion):",
    ((Excerpt("boat.circuit:31:40", (Line(31, "    output bilge_pump when a and not b", ()),)),),),
)
WHY = Cause(
    "b is on because of the marked term:", Excerpt("boat.circuit:30:14", (Line(30, "    rule b = a", ((13, 14),)),))
)


def _unmet(part: ExpectationPart) -> ExpectationPart:
    """With the reason why it is not met."""
    return part if part.met else replace(part, causes=(WHY,), named=("At 2 s: not bilge_pump",))


BAD_READ = replace(
    BAD,
    files=FILES,
    as_expected=(MET,),
    verdicts=(replace(BAD.verdicts[0], edits=EDITS), *BAD.verdicts[1:]),
    played=tuple(replace(part, expectations=tuple(map(_unmet, part.expectations))) for part in BAD.played),
)
GOOD_READ = replace(GOOD, files=FILES)
WORD = AcceptedPart(
    reason="We live with it.",
    by="R. Brandt",
    on="2026-11-02",
    place="boat.circuit:80",
    sentence="Accepted by R. Brandt on 2026-11-02: We live with it.",
    excuses=True,
    lapsed=False,
)
BACK = replace(
    WORD, sentence="Accepted by R. Brandt on 2026-11-02, but the logic has changed.", excuses=False, lapsed=True
)
TO_ACCEPT = ToAccept("to accept it:", 'requirement lamps "REASON" by "NAME" on YYYY-MM-DD logic 4f1c-9a2e')
ACCEPTED = replace(
    BAD_READ,
    notices=tuple(replace(each, accepted=WORD, about=("horn_key",)) for each in BAD_READ.notices),
    verdicts=(
        replace(BAD_READ.verdicts[0], accepted=WORD),
        replace(BAD_READ.verdicts[1], accepted=BACK, to_accept=TO_ACCEPT),
        *BAD_READ.verdicts[2:],
    ),
)

SAMPLES = {
    "bad": BAD,
    "bad, read": BAD_READ,
    "good": GOOD,
    "good, read": GOOD_READ,
    "mistaken": MISTAKEN,
    "unknown": UNKNOWN,
    "interrupted": INTERRUPTED,
    "accepted": ACCEPTED,
}


MAIN = [example.file for example in examples()]
"""The main file of each example that is one vehicle."""

ALL = [*MAIN, *sorted((EXAMPLES / "planted-mistakes").glob("*.circuit"))[:2]]
"""And two of the planted mistakes, which are all nearly the same van; the first of them never comes to rest."""


@cache
def checked(path: Path, only: tuple[str, ...] = ()) -> Report:
    """A real check, with all that may stand in it."""
    file = posix(str(path))
    return check(file, DiskReader(file), 60.0, only, None, times=True).report


@cache
def mistakes() -> dict[str, dict[str, Any]]:
    """The planted mistakes by their names: what comes of a check of each."""
    text = (EXAMPLES / "planted-mistakes" / "expected.toml").read_text(encoding="utf-8")
    found: dict[str, dict[str, Any]] = tomllib.loads(text)["mistakes"]
    return found


def played(path: Path) -> Report:
    """All scenarios of the file."""
    file = posix(str(path))
    return play(file, DiskReader(file), None, None, Shape()).report


def shown(path: Path) -> Report:
    """All rules of the file."""
    file = posix(str(path))
    return show(file, DiskReader(file), None)
