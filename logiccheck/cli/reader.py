"""Reads the files of a vehicle from disk; whatever goes wrong is a value, not an exception."""

from __future__ import annotations

from pathlib import Path


class DiskReader:
    """Called with a path as the language writes it, with `/` between folders."""

    def __call__(self, path: str) -> bytes:
        return Path(path).read_bytes()
