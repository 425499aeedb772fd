"""From a certificate and the sources it speaks of to its proofs, proved again."""

from __future__ import annotations

from collections.abc import Callable

from logiccheck.certificate.document import beside
from logiccheck.certificate.reading import Unfit, read
from logiccheck.lang.load import Reader, Unreadable, load
from logiccheck.report.mistaken import mistaken
from logiccheck.report.rechecked import changed, not_there, rechecked_report, unfit
from logiccheck.report.report import Report


def recheck(
    path: str,
    raw: bytes,
    file: str | None,
    reader_of: Callable[[str], Reader],
    budget: float,
    progress: Callable[[str], None],
) -> Report:
    """Prove the certificate `raw`, read from `path`, again: of the rules in `file`, or where it says that they lie.

    Each proof has `budget` seconds. z3 has to be there.
    """
    from logiccheck.certificate.recheck import recheck as prove_again  # loads z3, which nothing else needs

    try:
        document = read(raw)
    except Unfit as why:
        return unfit(path, str(why))
    main = file if file is not None else beside(path, document)
    first = reader_of(main)(main)
    if isinstance(first, Unreadable):
        return not_there(main, first.value, path)
    loaded = load(main, reader_of(main))
    if loaded.files and (report := changed(path, document, loaded.files)) is not None:
        return report
    if loaded.program is None:
        return mistaken(main, loaded)
    found = prove_again(document, loaded.program, budget, progress)
    return rechecked_report(path, document, loaded.program, loaded.files, found)
