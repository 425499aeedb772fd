"""`begin`: write a small working example to start from, into places where nothing stands yet."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from logiccheck.base.assets import first_steps
from logiccheck.cli.newfile import write_new
from logiccheck.cli.status import GOOD, MISTAKE
from logiccheck.cli.streams import tell
from logiccheck.report.plain import typed


def run(arguments: argparse.Namespace) -> int:
    """Write all files of the example or none; an existing file is never touched."""
    folder = Path(arguments.folder)
    files = [(folder / name, content) for name, content in first_steps()]
    standing = [path for path, _ in files if path.exists()]
    if standing:
        tell(f"{standing[0]} is there already. Nothing was written; name another folder.")
        return MISTAKE
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path, content in files:
            write_new(path, content)
    except FileExistsError as error:
        tell(f"Cannot write into {error.filename}: it is there already.")
        return MISTAKE
    except OSError as error:
        tell(f"Cannot write {error.filename}: {error.strerror}.")
        return MISTAKE
    for path, _ in files:
        sys.stdout.write(f"written: {path}\n")
    sys.stdout.write(f"Next:    logiccheck check {typed(str(files[0][0]))}\n")
    return GOOD
