"""All mistakes of the language by code, for whoever lists or explains them."""

from __future__ import annotations

from types import ModuleType

from logiccheck.base.diagnostic import Mistake
from logiccheck.lang.mistakes import (
    accepted,
    checklists,
    durations,
    electrics,
    files,
    habits,
    layout,
    names,
    parts,
    places,
    positions,
    quantities,
    scenes,
    structure,
    syntax,
)

_MODULES: tuple[ModuleType, ...] = (
    files,
    checklists,
    layout,
    syntax,
    habits,
    names,
    positions,
    quantities,
    durations,
    places,
    structure,
    parts,
    scenes,
    electrics,
    accepted,
)


def _classes(module: ModuleType) -> list[type[Mistake]]:
    members = vars(module).values()
    return [m for m in members if isinstance(m, type) and issubclass(m, Mistake) and m.__module__ == module.__name__]


MISTAKES: tuple[type[Mistake], ...] = tuple(
    sorted((kind for module in _MODULES for kind in _classes(module)), key=lambda kind: kind.code)
)
