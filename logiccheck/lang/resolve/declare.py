"""Declares all names of a vehicle before any of them is used."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.span import NOWHERE, Span
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.names import DuplicateName, LongName, ReservedWord
from logiccheck.lang.resolve.scope import Declared, Kind, Scope
from logiccheck.lang.words import RESERVED


def declare(files: Iterable[w.File], found: list[Diagnostic]) -> Scope:
    """The scope of the files; a name declared twice keeps its first meaning."""
    scope = Scope({}, found)
    scope.declared["ground"] = Declared("ground", Kind.GROUND, NOWHERE)
    controller = False
    files = tuple(files)
    for file in files:
        for block in file.blocks:
            controller = controller or isinstance(block.header, w.Controller)
            for name, kind, item in _names(block):
                add(scope, name, kind, item)
    for file in files:
        for lost in file.lost:
            scope.declared.setdefault(lost, Declared(lost, Kind.LOST, NOWHERE))
    _tell_number_senses(scope)
    if controller:
        scope.declared["powered"] = Declared("powered", Kind.POWERED, NOWHERE)
    return scope


def _tell_number_senses(scope: Scope) -> None:
    """A sense is a number sense if what it reads is a number; of what could not be read nobody knows."""
    for name, entry in scope.declared.items():
        if isinstance(entry.item, w.Sense):
            source = scope.declared.get(entry.item.input.text)
            if source is not None and source.kind is Kind.NUMBER:
                scope.declared[name] = replace(entry, kind=Kind.NUMBER_SENSE)
            elif source is not None and source.kind is Kind.LOST:
                scope.declared[name] = replace(entry, kind=Kind.LOST)


def add(scope: Scope, name: w.Name, kind: Kind, item: w.Item | None) -> None:
    """Declares one name, unless it is a word of the language, too long or taken."""
    word = name.text
    if word in RESERVED:
        scope.tell(ReservedWord(word), name.span)
    elif len(word) > limits.NAME_CHARACTERS:
        scope.tell(LongName(len(word), limits.NAME_CHARACTERS), name.span)
    elif (first := scope.declared.get(word)) is not None:
        place: Span | None = first.span if first.span != NOWHERE else None
        scope.tell(DuplicateName(word, first.kind.value, kind.value), name.span, place)
    else:
        scope.declared[word] = Declared(word, kind, name.span, item)


def _names(block: w.Block) -> Iterator[tuple[w.Name, Kind, w.Item | None]]:
    """The names a block declares."""
    if isinstance(block.header, w.ScenarioHead):
        yield block.header.name, Kind.SCENARIO, None
    for item in block.items:
        kind = kind_of(item)
        if kind is not None:
            yield item.name, kind, item  # type: ignore[union-attr]


def kind_of(item: w.Item) -> Kind | None:
    """What the name of an item stands for; None for an item that declares no name."""
    return _KINDS.get(type(item))


_KINDS: dict[type, Kind] = {
    w.Constant: Kind.CONSTANT,
    w.Role: Kind.ROLE,
    w.Switch: Kind.SWITCH,
    w.Number: Kind.NUMBER,
    w.Source: Kind.SOURCE,
    w.Ground: Kind.GROUND,
    w.Wire: Kind.WIRE,
    w.Relay: Kind.RELAY,
    w.Load: Kind.LOAD,
    w.Sense: Kind.SENSE,
    w.Rule: Kind.RULE,
    w.Output: Kind.OUTPUT,
    w.Requirement: Kind.REQUIREMENT,
}
