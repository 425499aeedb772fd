"""The floors of DEVELOPERS.md hold: a file imports from lower floors, or from its own without a circle."""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

import pytest

from tests.house.house import PACKAGE, ROOT, imported, modules, tree


@dataclass(frozen=True)
class Floor:
    """One row of the table: `height` counts from 0 for the lowest; `owners` maps an outside library to its place."""

    name: str
    height: int
    apart: bool
    owners: dict[str, str]


def floors() -> dict[str, Floor]:
    """The table under the heading "Floors" of DEVELOPERS.md, read as it stands."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = text.split("## Floors", 1)[1].split("\n## ", 1)[0]
    rows = [line for line in section.splitlines() if line.startswith("| `")]
    found: dict[str, Floor] = {}
    for height, row in enumerate(rows):
        name, apart, _, libraries = (cell.strip() for cell in row.strip("|").split("|"))
        owners = dict(re.findall(r"`(\w+)` in `([\w/.]+)`", libraries))
        found[name.strip("`")] = Floor(name.strip("`"), height, apart == "*", owners)
    return found


FLOORS = floors()


def floor_of(module: str) -> Floor:
    """The floor on which a module of the package stands: the first folder (or file) below the package."""
    return FLOORS[module.split(".")[1]]


def folder_of(module: str) -> str:
    """The dotted name of the folder that holds the module."""
    return module.rpartition(".")[0]


def inside(module: str) -> set[str]:
    """The modules of the package that `module` imports."""
    return {name for name in imported(module) if name in modules() and name != "logiccheck"}


def test_the_table_is_there() -> None:
    """The table names the floors this test relies on, lowest first."""
    assert list(FLOORS)[:3] == ["base", "lang", "logic"]
    assert len(FLOORS) >= 10


def test_each_folder_and_file_has_a_floor() -> None:
    """Nothing stands below the package that the table does not name, and the table names nothing that is not there."""
    there = {path.stem for path in PACKAGE.iterdir() if path.suffix == ".py" or (path / "__init__.py").exists()}
    assert there - {"__init__"} == set(FLOORS)


@pytest.mark.parametrize("module", [name for name in modules() if name != "logiccheck"])
def test_no_import_goes_up(module: str) -> None:
    """A module imports nothing from a higher floor; and where siblings stand apart, nothing from its own folder."""
    here = floor_of(module)
    for other in inside(module):
        assert floor_of(other).height <= here.height, f"{module} imports {other}, which stands higher"
        if here.apart and folder_of(other) == folder_of(module):
            pytest.fail(f"{module} imports its sibling {other}; files of this folder stand apart")


def test_no_circle() -> None:
    """No module imports itself by way of others, also not inside a function or for typing only."""
    graph = {name: inside(name) for name in modules()}
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        pytest.fail("circle of imports: " + " -> ".join(error.args[1]))


@pytest.mark.parametrize("module", list(modules()))
def test_outside_libraries_have_one_owner(module: str) -> None:
    """A library from outside is imported only where the table says it is owned."""
    owners = {library: place for floor in FLOORS.values() for library, place in floor.owners.items()}
    place = modules()[module].relative_to(PACKAGE).as_posix()
    for name in imported(module):
        library = name.split(".")[0]
        if library == "logiccheck" or library in sys.stdlib_module_names:
            continue
        assert library in owners, f"{module} imports {library}, which has no owner in the table"
        owner = owners[library]
        assert place == owner or (owner.endswith("/") and place.startswith(owner)), f"{module} imports {library}"


def test_packages_are_empty() -> None:
    """An `__init__.py` holds nothing, so importing a package costs nothing and hides nothing."""
    for name, path in modules().items():
        if path.name == "__init__.py":
            assert not tree(name).body, f"{path} is not empty"
