"""What the house tests share: where the repository stands, its modules, and what each of them imports."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "logiccheck"


@cache
def modules() -> dict[str, Path]:
    """Every module of the package by its dotted name; a package is named like its folder."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(ROOT).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


@cache
def tree(name: str) -> ast.Module:
    """The parsed source of the module `name`."""
    return ast.parse(modules()[name].read_text(encoding="utf-8"))


def imported(name: str) -> set[str]:
    """The dotted names that module `name` imports anywhere in it: at the top, inside functions, for typing only."""
    found: set[str] = set()
    for node in ast.walk(tree(name)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name}: imports are written from the root"
            for alias in node.names:
                whole = f"{node.module}.{alias.name}"
                found.add(whole if whole in modules() else str(node.module))
    return found
