"""`tidy FILE..`: the layout of files, written anew where it is not as it should be."""

from __future__ import annotations

import argparse
from pathlib import Path

from logiccheck.cli.ourbug import kept
from logiccheck.cli.printing import STATUS, printed, refused
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.rewriting import rewrote
from logiccheck.cli.status import MISTAKE, OUR_BUG
from logiccheck.cli.streams import put
from logiccheck.report.report import Outcome
from logiccheck.report.words_tidy import no_files
from logiccheck.session.editing import tidy


def run(arguments: argparse.Namespace) -> int:
    """Lay out, write, and print what changed."""
    files: dict[str, None] = {}
    for named in arguments.files:
        there = list(_files(Path(named)))
        if not there:
            return refused(no_files(named), arguments)
        files.update(dict.fromkeys(there))
    lost: list[str] = []

    def write(path: str, content: bytes) -> bool:
        done = rewrote(path, content)
        lost.extend(() if done else (path,))
        return done

    only_shown = arguments.check or arguments.diff
    names = list(files)
    answer = tidy(names, DiskReader(names[0], *names), arguments.check, None if only_shown else write)
    if answer.bugs:
        kept(answer.bugs, arguments.called)
    if arguments.diff and not arguments.json:
        put("".join(part.diff for part in answer.report.tidied))
    quiet = arguments.diff and not arguments.json and answer.report.outcome is not Outcome.MISTAKE
    status = STATUS[answer.report.outcome] if quiet else printed(answer.report, arguments)
    return OUR_BUG if answer.bugs else MISTAKE if lost else status


def _files(path: Path) -> list[str]:
    """The file, or all .circuit files in a folder and the folders inside it."""
    if not path.is_dir():
        return [posix(str(path))]
    return sorted(posix(str(each)) for each in path.rglob("*.circuit") if each.is_file())
