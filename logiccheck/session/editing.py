"""From sources to the edits nobody would notice, and to the same text in its own layout."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from logiccheck.base.bug import Bug, bug_of
from logiccheck.lang.load import Reader, load
from logiccheck.lang.tidy.tidied import Tidied, Unread, Untrue, tidied
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.tidied import tidied_report
from logiccheck.session.answer import Answer


def unguarded(
    path: str,
    reader: Reader,
    names: tuple[str, ...],
    budget: float,
    stories: bool,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Answer:
    """Which small edits no requirement would notice: of all lines, or those on which these outputs, relays or loads
    hang. One question of an edit takes `budget` seconds at most; `stories`: that of each edit is told."""
    from logiccheck.engine.check import check_program  # loads sympy, as what follows
    from logiccheck.explain.guarding.guarding import guard
    from logiccheck.explain.guarding.unlike import watched
    from logiccheck.report.guarded import blocked_report, guarded_report

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    known = [name for name, _ in watched(program)]
    if strange := [name for name in names if name not in known]:
        return Answer(unknown("output, relay or load", strange[0], known))
    found = check_program(program, budget, progress)
    if found.troubles:
        return Answer(blocked_report(program, loaded.files, found.troubles), bugs=found.bugs)
    guarded = guard(program, loaded.files[0].path, loaded.texts, found, names, budget, progress)
    decided()
    return Answer(guarded_report(program, loaded.files, found.verdicts, guarded, stories), bugs=guarded.bugs)


def tidy(files: Sequence[str], reader: Reader, check: bool, write: Callable[[str, bytes], bool] | None) -> Answer:
    """Lay out each of the files anew. `check`: that one should change is a fault. `write` says whether it could write
    a file; without it nothing is written. A file that would no longer say the same is left alone, which is a bug.
    """
    found: dict[str, Tidied | Unread] = {}
    bugs: list[Bug] = []
    for path in files:
        try:
            found[path] = tidied(path, reader)
        except Untrue as untrue:
            bugs.append(bug_of(untrue, path))
    lost = [path for path, each in found.items() if write and isinstance(each, Tidied) and not _kept(path, each, write)]
    done = {path: each for path, each in found.items() if path not in lost}
    return Answer(tidied_report(done, len(files), written=write is not None, check=check), bugs=tuple(bugs))


def _kept(path: str, each: Tidied, write: Callable[[str, bytes], bool]) -> bool:
    return not each.changed or write(path, each.raw)
