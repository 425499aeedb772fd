"""Checklists: requirements that speak of roles, bound to the names of a vehicle, or waived, by `use checklist`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

from logiccheck.base.diagnostic import Diagnostic, Message
from logiccheck.base.frozen import frozen
from logiccheck.base.place import source_text
from logiccheck.base.span import Span
from logiccheck.base.suggest import near
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.checklists import (
    BlockOfChecklist,
    RoleDoesNotFit,
    RoleTwice,
    UnboundRole,
    UnknownRole,
    UnknownWaiver,
    WaivedTwice,
    WaiverWithoutReason,
)
from logiccheck.lang.mistakes.names import UnknownName
from logiccheck.lang.swapped import swap

_BLOCKS = ("roles", "given", "requirements")


@frozen
class Bound:
    """A checklist in use: its file, and what is wrong with it and with the bindings of its roles."""

    file: w.File
    found: tuple[Diagnostic, ...]


def bind(checklist: w.File, found: list[Diagnostic], use: w.UseChecklist, text: str) -> Bound:
    """The checklist with the bindings of `use` in place of its roles; `text` is the text of the file that uses it.

    Its requirements are named prefix_requirement. Its text says what plays each role instead of the role, so that
    whatever is shown of it speaks of the vehicle; all its places, also those of `found`, move with that text.
    """
    roles = _roles(checklist, found)
    waivers = _waivers(use, _requirements(checklist), found)
    bound = _bindings(use, roles, _spared(checklist, roles, waivers), found)
    binder = _Binder(text, roles, bound, found, {})
    blocks = []
    for block in checklist.blocks:
        if isinstance(block.header, w.Plain) and block.header.word in ("given", "requirements"):
            asked = [item for item in block.items if not _is_waived(item, waivers)]
            blocks.append(w.Block(block.header, tuple(binder.item(item, use.prefix.text) for item in asked)))
    used = {checklist.text[span.begin : span.end] for span in binder.swaps}
    idle = tuple(name for role, value in bound.items() if role not in used for name in _names(value))
    waived = _waived(checklist, waivers, replace(binder, found=[]), use.prefix.text)
    swapped = swap(checklist.path, checklist.text, binder.swaps)
    moved, moved_waived = swapped.moved(tuple(blocks)), swapped.moved(waived)
    lost = checklist.lost | (roles.keys() - bound.keys())  # that nothing plays them is told once
    file = w.File(checklist.path, swapped.text, moved, lost, idle, moved_waived)
    return Bound(file, tuple(swapped.diagnostic(diagnostic) for diagnostic in found))


def _requirements(checklist: w.File) -> dict[str, w.Requirement]:
    """The requirements of a checklist by the names that they have there."""
    items = (item for block in checklist.blocks for item in block.items)
    return {item.name.text: item for item in items if isinstance(item, w.Requirement)}


def _waivers(use: w.UseChecklist, known: dict[str, w.Requirement], found: list[Diagnostic]) -> dict[str, w.Waiver]:
    """What is waived, by the name of the requirement; waivers of nothing, without a reason, or said twice are told."""
    waivers: dict[str, w.Waiver] = {}
    for waiver in use.waivers:
        word = waiver.requirement.text
        first = waivers.setdefault(word, waiver)
        if word not in known:
            meant = near(word.removeprefix(f"{use.prefix.text}_"), known)
            unknown = UnknownWaiver(word, use.name.text, meant, tuple(known))
            found.append(Diagnostic(unknown, waiver.requirement.span))
        elif first is not waiver:
            found.append(Diagnostic(WaivedTwice(word), waiver.requirement.span, first.requirement.span))
        if not waiver.reason.text.strip():
            found.append(Diagnostic(WaiverWithoutReason(word), waiver.reason.span))
    return waivers


def _is_waived(item: w.Item, waivers: dict[str, w.Waiver]) -> bool:
    return isinstance(item, w.Requirement) and item.name.text in waivers


def _spared(checklist: w.File, roles: dict[str, w.Role], waivers: dict[str, w.Waiver]) -> frozenset[str]:
    """The roles that nobody has to play: those of which only waived requirements speak."""
    asked: set[str] = set()
    waived: set[str] = set()
    for item in (item for block in checklist.blocks for item in block.items if not isinstance(item, w.Role)):
        words = {name.text for name in _said(item.form if isinstance(item, w.Requirement) else item)}
        (waived if _is_waived(item, waivers) else asked).update(words & roles.keys())
    return frozenset(waived - asked)


def _waived(checklist: w.File, waivers: dict[str, w.Waiver], binder: _Binder, prefix: str) -> tuple[w.Waived, ...]:
    """The waived requirements, their roles bound as far as anything plays them."""
    bound = []
    for name, requirement in _requirements(checklist).items():
        if name in waivers:
            item = binder.item(requirement, prefix)
            assert isinstance(item, w.Requirement)
            bound.append(w.Waived(item, waivers[name]))
    return tuple(bound)


def _said(node: Any) -> Iterator[w.Name]:
    """Every name in a node."""
    if isinstance(node, w.Name):
        yield node
    elif isinstance(node, tuple):
        for part in node:
            yield from _said(part)
    elif is_dataclass(node):
        for field in fields(node):
            yield from _said(getattr(node, field.name))


def _names(node: Any) -> Iterator[w.Name]:
    """The names that a binding speaks of."""
    if isinstance(node, tuple):
        for part in node:
            yield from _names(part)
    elif is_dataclass(node) and not isinstance(node, w.Name):
        for field in fields(node):
            value = getattr(node, field.name)
            if field.name == "name" and isinstance(value, w.Name):
                yield value
            else:
                yield from _names(value)


def _roles(checklist: w.File, found: list[Diagnostic]) -> dict[str, w.Role]:
    """The roles of a checklist; blocks that have no place in one are told."""
    roles: dict[str, w.Role] = {}
    for block in checklist.blocks:
        word = block.header.word if isinstance(block.header, w.Plain) else type(block.header).__name__.lower()
        if word not in _BLOCKS and not isinstance(block.header, w.Checklist | w.Language):
            found.append(Diagnostic(BlockOfChecklist(word, True), block.header.span))
        roles.update((item.name.text, item) for item in block.items if isinstance(item, w.Role))
    return roles


def _bindings(
    use: w.UseChecklist, roles: dict[str, w.Role], spared: frozenset[str], found: list[Diagnostic]
) -> dict[str, w.Expr | w.Window]:
    """What each role is bound to; roles unknown, bound twice, or unbound and not `spared` are told."""
    bound: dict[str, w.Binding] = {}
    for binding in use.bindings:
        word = binding.role.text
        message: Message | None = None
        if word not in roles:
            message = UnknownRole(word, use.name.text, near(word, roles), tuple(roles))
        elif word in bound:
            message = RoleTwice(word, prefix=False)
        if message is not None:
            found.append(Diagnostic(message, binding.role.span, bound[word].role.span if word in bound else None))
        bound.setdefault(word, binding)
    for role in roles.values():
        if role.name.text not in bound and role.name.text not in spared:
            unbound = UnboundRole(role.name.text, role.label.text, use.name.text)
            found.append(Diagnostic(unbound, use.name.span, role.span))
    return {word: binding.value for word, binding in bound.items()}


@frozen
class _Binder:
    """Puts bindings in place of roles, node by node. `swaps` collects where, and the text of what stands there now."""

    user_text: str
    roles: dict[str, w.Role]
    bound: dict[str, w.Expr | w.Window]
    found: list[Diagnostic]
    swaps: dict[Span, str]

    def item(self, item: w.Item, prefix: str) -> w.Item:
        """A requirement or an assumption with its roles bound."""
        if isinstance(item, w.Requirement):
            name = w.Name(f"{prefix}_{item.name.text}", item.name.span)
            return replace(item, name=name, form=self._node(item.form))
        bound: w.Item = self._node(item)
        return bound

    def _node(self, node: Any) -> Any:
        """The node with its roles bound; a node is a dataclass, a tuple of nodes or a plain value."""
        if isinstance(node, tuple):
            return tuple(self._node(part) for part in node)
        if not is_dataclass(node) or isinstance(node, Span | w.Quoted | w.Quantity):
            return node
        if isinstance(node, w.Bare):
            return self._condition(node)
        if isinstance(node, w.Name):
            return self._quantity(node)
        changed: dict[str, Any] = {}
        for field in fields(node):
            value = getattr(node, field.name)
            if field.name == "name":
                changed["name"] = self._subject(value)
            elif not (isinstance(node, w.Is | w.In | w.Becomes) and isinstance(value, w.Name | tuple)):
                changed[field.name] = self._node(value)
        return replace(node, **changed)

    def _known(self, name: w.Name) -> w.Expr | w.Window | None:
        """What a role is bound to; None, and told, if the name is no role."""
        if name.text not in self.roles:
            self.found.append(Diagnostic(UnknownName(name.text, near(name.text, self.roles), ()), name.span))
        return self.bound.get(name.text)

    def _swap(self, name: w.Name, value: w.Expr | w.Window) -> None:
        text = source_text(value.span, self.user_text)
        joined = isinstance(value, w.Negation) or (isinstance(value, w.Chain) and value.word != "at most one")
        self.swaps[name.span] = f"({text})" if joined else text

    def _misfit(self, name: w.Name, value: w.Expr | w.Window, wanted: str) -> None:
        self.found.append(Diagnostic(RoleDoesNotFit(name.text, wanted), value.span, name.span))

    def _condition(self, bare: w.Bare) -> w.Expr:
        """A role alone is the condition it is bound to."""
        value = self._known(bare.name)
        if isinstance(value, w.Quantity | w.Name | w.Tolerance | w.Between):
            self._misfit(bare.name, value, "a condition")
            return w.Truth(False, bare.span)
        if value is None:
            return w.Truth(False, bare.span)
        self._swap(bare.name, value)
        return value

    def _subject(self, name: w.Name) -> w.Name:
        """A role that something is said of is the name it is bound to."""
        value = self._known(name)
        if isinstance(value, w.Bare):
            self._swap(name, value)
            return value.name
        if value is not None:
            self._misfit(name, value, "a name")
        return name

    def _quantity(self, name: w.Name) -> w.Window:
        """A role in place of a quantity is the quantity, or the constant, it is bound to."""
        value = self._known(name)
        if isinstance(value, w.Bare):
            self._swap(name, value)
            return value.name
        if isinstance(value, w.Quantity | w.Name | w.Tolerance | w.Between):
            self._swap(name, value)
            return value
        if value is not None:
            self._misfit(name, value, "a quantity")
        return name
