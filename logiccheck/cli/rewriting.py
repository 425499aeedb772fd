"""Files that are there already, written anew whole or not at all."""

from __future__ import annotations

import os
import stat
from contextlib import suppress
from pathlib import Path
from tempfile import mkstemp

from logiccheck.cli.streams import tell


def rewrote(path: str, content: bytes) -> bool:
    """Put this content into the file, whoever may read and write it staying the same; where that cannot be done, say
    why, and leave it as it is. Returns whether it was done."""
    try:
        _rewrite(Path(path).resolve(strict=True), content)
    except OSError as error:
        tell(f"Cannot write {path}: {error.strerror}.")
        return False
    return True


def _rewrite(path: Path, content: bytes) -> None:
    """Write a new file beside it and let that take its place."""
    with path.open("r+b"):  # whoever may not write into it may not replace it either
        mode = stat.S_IMODE(path.stat().st_mode)
    handle, beside = mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with open(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        Path(beside).chmod(mode)
        Path(beside).replace(path)
    except BaseException:
        with suppress(OSError):
            Path(beside).unlink()
        raise
