"""Diagnostics as plain lines, everything that is told about them in one text."""

from __future__ import annotations

from collections.abc import Mapping

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.place import place
from logiccheck.lang.load import Loaded, load_text


def show(diagnostic: Diagnostic, texts: Mapping[str, str]) -> str:
    """Place, code, name, the line with carets, the sentence, what to do, and the second place if there is one."""
    spot = place(diagnostic.span, texts.get(diagnostic.span.file, ""))
    lines = [f"{spot} {diagnostic.code} {diagnostic.name}"]
    lines += [f"    {spot.text}", f"    {spot.carets}"]
    lines += [f"  {diagnostic.sentence}", f"  {diagnostic.hint}"]
    if diagnostic.other is not None:
        other = place(diagnostic.other, texts.get(diagnostic.other.file, ""))
        lines += [f"  {other} {diagnostic.message.second()}", f"    {other.text}", f"    {other.carets}"]
    return "\n".join(line.rstrip() for line in lines)


def show_all(loaded: Loaded) -> str:
    """All diagnostics, in their order."""
    return "\n".join(show(diagnostic, loaded.texts) for diagnostic in loaded.diagnostics)


def told(text: str) -> list[str]:
    """The names of the mistakes in a text, in their order."""
    return [diagnostic.name for diagnostic in load_text(text).diagnostics]
