"""Finds what ships beside the code: grammar, checklists, first example; in a checkout and in an installed wheel."""

from __future__ import annotations

import re
from importlib import resources
from importlib.resources.abc import Traversable


def _folder(name: str) -> Traversable:
    """The folder `name` inside the installed package, or else at the top level of the source checkout."""
    inside = resources.files("logiccheck").joinpath("_assets", name)
    if inside.is_dir():
        return inside
    return resources.files("logiccheck").joinpath("..", name)


def grammar_text() -> str:
    """The Lark grammar of the language."""
    return _folder("grammar").joinpath("circuit.lark").read_text(encoding="utf-8")


def grammar_tables() -> bytes:
    """What Lark made of the grammar (see `lang.parse.tables`); empty if it does not ship."""
    file = _folder("grammar").joinpath("circuit.tables")
    return file.read_bytes() if file.is_file() else b""


def report_schema() -> str:
    """The JSON Schema of a report as JSON; see `render.as_json`."""
    return _folder("grammar").joinpath("report.schema.json").read_text(encoding="utf-8")


def checklist_names() -> tuple[str, ...]:
    """The names of all checklists, in alphabetical order."""
    folder = _folder("rules")
    if not folder.is_dir():
        return ()
    found = (entry.name.removesuffix(".circuit") for entry in folder.iterdir() if entry.name.endswith(".circuit"))
    return tuple(sorted(found))


def checklist_bytes(name: str) -> bytes | None:
    """The bytes of a checklist; None if there is none of that name."""
    if not re.fullmatch(r"\w+", name) or name not in checklist_names():
        return None
    return _folder("rules").joinpath(f"{name}.circuit").read_bytes()


def copper_table(name: str) -> str:
    """The published table of this name, as TOML."""
    return resources.files("logiccheck").joinpath("copper", "tables", f"{name}.toml").read_text(encoding="utf-8")


def first_steps() -> tuple[tuple[str, bytes], ...]:
    """The files of the example that people start from: name and content, in alphabetical order."""
    folder = _folder("first-steps")
    if not folder.is_dir():
        folder = _folder("examples").joinpath("first-steps")
    files = [entry for entry in folder.iterdir() if entry.name.endswith(".circuit")]
    return tuple(sorted((entry.name, entry.read_bytes()) for entry in files))
