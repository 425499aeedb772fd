"""Modules and functions stay small, say what they are, and only the shell touches the machine it runs on."""

from __future__ import annotations

import ast
import subprocess

import pytest

from tests.house.house import PACKAGE, ROOT, modules, tree

MODULE_LINES = 400
ONE_TREE = {"logiccheck.lang.program": 750}  # nothing but data, and read as a whole
FUNCTION_LINES = 40

MACHINE = {"os", "sys", "time", "datetime", "socket", "subprocess", "shutil", "tempfile", "random", "signal", "locale"}
CALLS = {"open", "print", "input"}
METHODS = {"read_text", "write_text", "read_bytes", "write_bytes"}

# Who may touch the machine beside `cli/`, and by what.
EXCEPTIONS = {"base/assets.py": {"read_text", "read_bytes"}, "base/budget.py": {"time"}}

SOURCES = [name for name, path in modules().items() if path.name != "__init__.py"]


@pytest.mark.parametrize("module", SOURCES)
def test_module_is_small_and_says_what_it_is(module: str) -> None:
    """A module has at most 400 lines (the resolved tree some more) and begins with one sentence about itself."""
    text = modules()[module].read_text(encoding="utf-8")
    assert len(text.splitlines()) <= ONE_TREE.get(module, MODULE_LINES)
    docstring = ast.get_docstring(tree(module))
    assert docstring, f"{module} has no docstring"
    assert docstring.split("\n\n")[0].rstrip().endswith((".", ":", "?")), (
        f"{module}: the docstring begins with a sentence"
    )


def body_lines(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines from `def` to the end, the docstring not counted."""
    assert node.end_lineno is not None
    lines = node.end_lineno - node.lineno + 1
    first = node.body[0]
    if ast.get_docstring(node) is not None:
        assert first.end_lineno is not None
        lines -= first.end_lineno - first.lineno + 1
    return lines


@pytest.mark.parametrize("module", SOURCES)
def test_functions_fit_a_screen(module: str) -> None:
    """A function has at most 40 lines, its docstring not counted."""
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert body_lines(node) <= FUNCTION_LINES, f"{module}: {node.name} has {body_lines(node)} lines"


def touches(module: str) -> set[str]:
    """By what a module reaches the machine it runs on: file calls and modules of the system."""
    found: set[str] = set()
    for node in ast.walk(tree(module)):
        match node:
            case ast.Call(func=ast.Name(id=name)) if name in CALLS:
                found.add(name)
            case ast.Attribute(attr=name) if name in METHODS:
                found.add(name)
            case ast.Import(names=names):
                found |= {alias.name.split(".")[0] for alias in names} & MACHINE
            case ast.ImportFrom(module=str(name)):
                found |= {name.split(".")[0]} & MACHINE
            case _:
                pass
    return found


@pytest.mark.parametrize("module", SOURCES)
def test_only_the_shell_touches_the_machine(module: str) -> None:
    """Files, clocks, environment and terminal are reached only from `cli/`, with the exceptions listed here."""
    place = modules()[module].relative_to(PACKAGE).as_posix()
    if place.startswith("cli/"):
        return
    assert touches(module) <= EXCEPTIONS.get(place, set()), f"{module} touches {touches(module)}"


def test_top_level() -> None:
    """The top level holds these, dot files, and nothing else."""
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    there = {line.split("/")[0] for line in listed.splitlines() if not line.startswith(".")}
    files = {"README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE"}
    assert there == files | {"logiccheck", "grammar", "rules", "tests", "examples"}
