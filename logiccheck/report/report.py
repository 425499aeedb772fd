"""The one value that every output format is made from: sentences said, tables built, nothing laid out yet."""

from __future__ import annotations

from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Kind
from logiccheck.report.bars import Bars
from logiccheck.report.chart import Chart
from logiccheck.report.currents_part import CurrentsPart
from logiccheck.report.cut_sets_part import CutSetsPart
from logiccheck.report.drawing import Drawing
from logiccheck.report.faults_part import FaultsPart
from logiccheck.report.long_texts import LongText


class Outcome(Enum):
    """What a run comes to as a whole: the first of these that applies."""

    MISTAKE = "mistake"  # the files or the call cannot be read as meant
    FAILS = "fails"  # something fails, is blocked, has no case, an expectation failed, or nothing was asked
    OPEN = "open"  # not decided, or interrupted
    GOOD = "good"  # all asked was proved, all expected was seen


class Level(Enum):
    MISTAKE = "mistake"
    WARNING = "warning"
    NOTE = "note"


@frozen
class Line:
    """One line of a user's file: `number` from 1, `marks` the columns [begin, end) to point at, from 0, rising."""

    number: int
    text: str
    marks: tuple[tuple[int, int], ...]


@frozen
class Excerpt:
    """Lines of one file, in order; `place` is "file:line" or "file:line:column" for an editor to jump to."""

    place: str
    lines: tuple[Line, ...]


@frozen
class Row:
    """One signal: `cells` has one text for each column, empty where nothing changed."""

    name: str
    label: str
    cells: tuple[str, ...]


@frozen
class Group:
    """Rows of one place: hands, copper, box, or the timers."""

    title: str
    rows: tuple[Row, ...]


@frozen
class Table:
    """A story: one column a moment, one row a signal."""

    columns: tuple[str, ...]
    groups: tuple[Group, ...]


@frozen
class Cause:
    """Why a signal is as it is at the end of a story: a sentence, and the user's own line with the term marked."""

    sentence: str
    excerpt: Excerpt | None


@frozen
class Shown:
    """A story as shown: the table, why it ends as it does, and what is worth saying about it."""

    table: Table
    causes: tuple[Cause, ...]
    remarks: tuple[str, ...]


@frozen
class AcceptedPart:
    """Somebody takes responsibility for something: why, who, since when (as in ISO 8601), where that is written, and
    all of it in a sentence. `excuses`: because of it the run does not fail; `lapsed`: the logic has changed since."""

    reason: str
    by: str
    on: str
    place: str
    sentence: str
    excuses: bool
    lapsed: bool


@frozen
class ToAccept:
    """The line that would accept something, and what stands before it."""

    lead: str
    line: str


@frozen
class Notice:
    """Something about the files: a mistake, a finding, or another warning or note.

    Of a finding: `guards` says what may come of it, `shown` is a situation that shows it, `about` the names it rests
    on; `counts`: because of it the run is not good; `to_accept` is the line that would accept it.
    """

    level: Level
    name: str  # what `logiccheck about` takes
    code: str
    sentence: str
    excerpts: tuple[Excerpt, ...]
    second: str  # what the last excerpt shows, where there are two
    advice: str  # what to type or do
    guards: str = ""
    shown: Shown | None = None
    about: tuple[str, ...] = ()
    counts: bool = False
    accepted: AcceptedPart | None = None
    to_accept: ToAccept | None = None


@frozen
class EditsPart:
    """What came of the search for edits that would mend a requirement; each is the user's lines as it makes them."""

    sentence: str
    edits: tuple[tuple[Excerpt, ...], ...] = ()


@frozen
class VerdictPart:
    """One requirement in the user's words, what became of it in one sentence, and its story where there is one.
    `causes`: why it is so, where that is not said with the story; `to_accept`: the line that would accept it."""

    name: str
    label: str
    guards: str
    text: str
    place: str
    kind: Kind
    sentence: str
    shown: Shown | None
    remarks: tuple[str, ...]
    edits: EditsPart | None = None
    causes: tuple[Cause, ...] = ()
    accepted: AcceptedPart | None = None
    to_accept: ToAccept | None = None


@frozen
class WaivedPart:
    """A requirement of a checklist that is not asked: where it is waived, for which reason, and that in a sentence."""

    name: str
    label: str
    guards: str
    text: str
    place: str
    reason: str
    sentence: str


@frozen
class TroublePart:
    """What stands in the way of every verdict that rests on it."""

    title: str
    sentences: tuple[str, ...]
    givens: tuple[str, ...]
    shown: Shown | None
    edits: EditsPart | None = None


@frozen
class ExpectationPart:
    """What was expected at one time, and whether it was so; where it was not, the user's own line, and why.

    `named` calls each expectation in it by a name that is the same whether it is met or not.
    """

    met: bool
    sentence: str
    excerpt: Excerpt | None
    named: tuple[str, ...] = ()
    causes: tuple[Cause, ...] = ()


@frozen
class Breach:
    """A requirement that a played scenario breaks: which, and how; `counts`: what is given does not rule that out."""

    title: str
    sentence: str
    counts: bool


@frozen
class PlayedPart:
    """A scenario, played; `table` is None where only its expectations are of interest, `met` counts those met; `place`
    is where the scenario is written, `chart` all that its signals do, where it is played for itself; `bars` are to be
    drawn instead of the table.
    """

    name: str
    label: str
    sentence: str
    table: Table | None
    met: int
    expectations: tuple[ExpectationPart, ...]
    remarks: tuple[str, ...] = ()
    breaches: tuple[Breach, ...] = ()
    place: str = ""
    chart: Chart | None = None
    bars: Bars | None = None


@frozen
class RulePart:
    """A rule or output in the ways to read it, each with what that way is; ways that say the same stand once.

    `terms`: each alone makes it true, `terms_are` says so, and how many are not shown; none when there is but one.
    """

    name: str
    label: str
    place: str
    ways: tuple[tuple[str, str], ...]
    terms_are: str = ""
    terms: tuple[str, ...] = ()


@frozen
class LinesPart:
    """Something told in lines, each a word and what it stands for, such as how it comes to that.

    `shown`: the whole stories behind the lines that have one, each with its word, where they are asked for.
    """

    name: str
    label: str
    lines: tuple[tuple[str, str], ...]
    shown: tuple[tuple[str, Shown], ...] = ()


@frozen
class Step:
    """One step down to what is behind something, `depth` from 0; `place` is where that is written."""

    depth: int
    sentence: str
    place: str


@frozen
class WhySection:
    """More about a signal under a title of its own: sentences, steps, lines of the user, a story."""

    title: str
    sentences: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    causes: tuple[Cause, ...] = ()
    table: Table | None = None


@frozen
class WhyPart:
    """Why a signal is as it is: what follows the first sentence, which opens the report.

    `answer` and that sentence are three lines at most; `excerpts` are the user's own lines that decide; `sections` what
    else was asked for or found, in the order to be read; `counted` says once what it means that facts are
    enough, or in full which facts are counted, and how.
    """

    answer: tuple[str, ...]
    excerpts: tuple[Excerpt, ...] = ()
    sections: tuple[WhySection, ...] = ()
    counted: str = ""


@frozen
class RecheckedPart:
    """A requirement, or what all rests on, that a certificate does not prove: one word for it, and why."""

    name: str
    label: str
    word: str
    sentences: tuple[str, ...]


@frozen
class TidiedPart:
    """A file and how its layout changes, or would, as a unified diff; empty if it does not."""

    file: str
    diff: str


@frozen
class Basis:
    """What the answers rest on: assumptions used, what a proof does not cover, and which tool read which files."""

    assumptions: tuple[str, ...]
    limits: tuple[str, ...]
    caution: str
    colophon: tuple[str, ...]


@frozen
class FileRead:
    """A file that was read, by its path as called; `sha256` is of its bytes, in hexadecimal."""

    path: str
    sha256: str


@frozen
class Report:
    """`opening` is the first line and `closing` the last; each alone says what the run came to. Both are empty where
    there is nothing but an answer to a question about logiccheck itself.
    """

    opening: str
    closing: str
    outcome: Outcome
    notices: tuple[Notice, ...] = ()
    troubles: tuple[TroublePart, ...] = ()
    verdicts: tuple[VerdictPart, ...] = ()
    played: tuple[PlayedPart, ...] = ()
    rules: tuple[RulePart, ...] = ()
    cases: tuple[LinesPart, ...] = ()  # when each proved requirement decides something, where that was asked for
    tour: tuple[LinesPart, ...] = ()
    why: WhyPart | None = None
    rechecked: tuple[RecheckedPart, ...] = ()
    tidied: tuple[TidiedPart, ...] = ()
    notes: tuple[str, ...] = ()  # what went as it should and needs no part of its own; what to call next
    basis: Basis | None = None
    as_expected: tuple[PlayedPart, ...] = ()  # of a check: what was met, which is not shown but counted in a note
    texts: tuple[LongText, ...] = ()
    files: tuple[FileRead, ...] = ()  # the main file first
    waived: tuple[WaivedPart, ...] = ()
    faults: FaultsPart | None = None
    cut_sets: CutSetsPart | None = None
    drawing: Drawing | None = None
    currents: CurrentsPart | None = None
