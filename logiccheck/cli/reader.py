"""Reads the files of a vehicle from disk; whatever goes wrong is a value, not an exception."""

from __future__ import annotations

import errno
import stat
from pathlib import Path

from logiccheck.base.limits import FILE_BYTES
from logiccheck.lang.reading import Unreadable

WHY = {
    errno.ENOENT: Unreadable.MISSING,
    errno.ENOTDIR: Unreadable.MISSING,
    errno.EISDIR: Unreadable.FOLDER,
    errno.EACCES: Unreadable.FORBIDDEN,
    errno.EPERM: Unreadable.FORBIDDEN,
    errno.ELOOP: Unreadable.LOOP,
}


class DiskReader:
    """Called with a path with `/` between folders.

    The files that the call names may lie anywhere; every other file lies in the folder of the main file, also after
    its links are followed. Of a file at most one byte more than `most` is read.
    """

    def __init__(self, main: str, *also: str, most: int = FILE_BYTES) -> None:
        self._named = {main, *also}
        self._most = most
        self._folder = Path(main).parent

    def __call__(self, path: str) -> bytes | Unreadable:
        try:
            if path not in self._named and not Path(path).resolve().is_relative_to(self._folder.resolve()):
                return Unreadable.OUTSIDE
            kind = Path(path).stat().st_mode
            if stat.S_ISDIR(kind):  # Windows would say that reading it is forbidden
                return Unreadable.FOLDER
            if not stat.S_ISREG(kind):  # a pipe that nobody writes to would be waited for without an end
                return Unreadable.NO_FILE
            with Path(path).open("rb") as stream:
                return stream.read(self._most + 1)
        except OSError as error:
            return WHY.get(error.errno or 0, Unreadable.BROKEN)
        except RuntimeError:  # how Python before 3.13 says that links lead in a circle
            return Unreadable.LOOP
        except ValueError:  # no file system has such a name
            return Unreadable.MISSING


def posix(path: str) -> str:
    """A path as the user typed it, with `/` between folders."""
    return Path(path).as_posix()
