"""Sentences about the layout of files."""

from __future__ import annotations


def opening(changed: int, files: int, written: bool, mistaken: int) -> str:
    """The first line: how many files there are, and what became of them."""
    if mistaken:
        alone = f"Files left alone because of their mistakes: {mistaken} of {files}."
        return f"{alone} {_changed(changed, files, written)}" if changed else alone
    return _changed(changed, files, written) if changed else f"Everything is laid out as it should be. Files: {files}."


def _changed(changed: int, files: int, written: bool) -> str:
    return f"Files {'laid out anew' if written else 'that would be laid out anew'}: {changed} of {files}."


def laid_out(file: str, written: bool) -> str:
    """One file that is not, or was not, laid out as it should be."""
    return f"{file}: {'laid out anew' if written else 'would be laid out anew'}"


def no_files(folder: str) -> str:
    """A folder in which there is nothing to lay out."""
    return f"There is no .circuit file in {folder}."


def put_right(file: str) -> str:
    """One file of which the spelling or the layout was not as it should be."""
    return f"{file}: spelling and layout put right"
