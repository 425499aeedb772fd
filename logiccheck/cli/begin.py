"""`begin`: write a small working example to start from, into places where nothing stands yet."""

from __future__ import annotations

import argparse
from pathlib import Path

from logiccheck.base.assets import first_steps
from logiccheck.cli.newfile import write_new
from logiccheck.cli.printing import printed, refused
from logiccheck.report.plain import typed
from logiccheck.report.report import Outcome, Report


def run(arguments: argparse.Namespace) -> int:
    """Write all files of the example or none; an existing file is never touched."""
    folder = Path(arguments.folder)
    files = [(folder / name, content) for name, content in first_steps()]
    standing = [path for path, _ in files if path.exists()]
    if standing:
        return refused(f"{standing[0]} is there already. Nothing was written; name another folder.", arguments)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path, content in files:
            write_new(path, content)
    except FileExistsError as error:
        return refused(f"Cannot write into {error.filename}: it is there already.", arguments)
    except OSError as error:
        return refused(f"Cannot write {error.filename}: {error.strerror}.", arguments)
    written = tuple(f"written: {path}" for path, _ in files)
    following = f"Next:    logiccheck check {typed(str(files[0][0]))}"
    return printed(Report("", "", Outcome.GOOD, notes=(*written, following)), arguments)
