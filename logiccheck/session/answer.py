"""What a step of the program comes to: a report, and what may be written beside it."""

from __future__ import annotations

from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.certificate.document import Document
from logiccheck.report.report import Report
from logiccheck.report.saved import Saved


@frozen
class Answer:
    """A report, and what may be written beside it: its stories, and the certificate of its proofs; and the mistakes in
    this program that were met on the way."""

    report: Report
    stories: tuple[Saved, ...] = ()
    certificate: Document | None = None
    bugs: tuple[Bug, ...] = ()
