"""What becomes of each part as CSV (RFC 4180): one row a part and failure mode, then what stands with every output."""

from __future__ import annotations

import csv
import io

from logiccheck.report import words_faults as words
from logiccheck.report.plain import printable
from logiccheck.report.report import Report
from logiccheck.report.words_check import TAKEN_AS_GIVEN

HEADS = (
    words.PART,
    words.LABEL,
    words.KIND,
    words.PLACE,
    words.MODE,
    words.LOCAL,
    words.END,
    words.SEVERITY,
    words.NOTICED,
)
COMPUTED = ("=", "+", "-", "@")  # a table program takes a text that begins so for something to compute


def render(report: Report) -> str:
    """The table with its heads. Its last rows are of the kind "note": what it came to, cautions, versions, files."""
    stream = io.StringIO()
    rows = csv.writer(stream, lineterminator="\r\n")
    rows.writerow(HEADS)
    part = report.faults
    for row in part.effects if part is not None else ():
        ends = "; ".join(row.ends)
        cells = (row.part, row.label, row.kind, row.place, row.mode, row.local, ends, row.severity.value, row.noticed)
        rows.writerow([_cell(cell) for cell in cells])
    for line in _said(report):
        rows.writerow(["", "", words.NOTE, "", "", _cell(line), "", "", ""])
    return stream.getvalue()


def _said(report: Report) -> list[str]:
    cautions = report.faults.cautions if report.faults is not None else ()
    colophon = report.basis.colophon if report.basis is not None else ()
    given = report.basis.assumptions if report.basis is not None else ()
    return [report.opening, *cautions, *(f"{TAKEN_AS_GIVEN}: {line}" for line in given), *colophon]


def _cell(text: str) -> str:
    safe = printable(text)
    return f"'{safe}" if safe.startswith(COMPUTED) else safe
