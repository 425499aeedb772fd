"""Files that did not exist before, written whole or not at all."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from logiccheck.cli.streams import tell


def write_new(path: Path, content: bytes) -> None:
    """Write a new file. Raises FileExistsError if it is there already, else OSError with its name; then it is not."""
    made = False
    try:
        with path.open("xb", buffering=0) as stream:
            made = True
            left = memoryview(content)
            while left:
                left = left[stream.write(left) or 0 :]
    except OSError as error:
        if made:
            with suppress(OSError):
                path.unlink()
        raise type(error)(error.errno, error.strerror, str(path)) from error


def wrote(path: str | Path, content: bytes) -> bool:
    """Write a new file; where that cannot be done, say why. Returns whether it was."""
    try:
        write_new(Path(path), content)
    except FileExistsError:
        tell(f"Cannot write {path}: it is there already.")
        return False
    except OSError as error:
        tell(f"Cannot write {error.filename}: {error.strerror}.")
        return False
    return True
