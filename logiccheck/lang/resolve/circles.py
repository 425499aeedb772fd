"""Rules and outputs in dependency order; a circle of them is a mistake, shown as the circle it is."""

from __future__ import annotations

from collections import deque

from logiccheck.base.span import Span
from logiccheck.lang import program as p
from logiccheck.lang.mistakes.structure import RuleCircle
from logiccheck.lang.resolve.scope import Scope
from logiccheck.lang.walk import children, condition_of

_INSIDE = frozenset({p.SignalKind.RULE, p.SignalKind.COMMAND})


def needs(rule: p.Rule | p.Output) -> dict[str, Span]:
    """The rules and outputs whose value of the same reaction a rule needs, and where it names each first.

    What stands inside `previous` is not needed in the same reaction.
    """
    found: dict[str, Span] = {}
    todo: list[p.Expr] = [condition_of(rule)]
    while todo:
        node = todo.pop()
        if isinstance(node, p.Signal) and node.kind in _INSIDE:
            found.setdefault(node.name, node.span)
        elif not isinstance(node, p.Previous):
            todo.extend(reversed(children(node)))
    return found


def in_dependency_order(scope: Scope, rules: list[p.Rule | p.Output]) -> tuple[p.Rule | p.Output, ...]:
    """Each after all it needs, otherwise in the order written; rules of a circle are told and left out."""
    by_name = {rule.name: rule for rule in rules}
    open_needs = {rule.name: {n: s for n, s in needs(rule).items() if n in by_name} for rule in rules}
    users: dict[str, list[str]] = {name: [] for name in by_name}
    for name, needed in open_needs.items():
        for other in needed:
            users[other].append(name)
    waiting = {name: len(needed) for name, needed in open_needs.items()}
    ready = deque(name for name in by_name if waiting[name] == 0)
    ordered: list[str] = []
    while ready:
        name = ready.popleft()
        ordered.append(name)
        for user in users[name]:
            waiting[user] -= 1
            if waiting[user] == 0:
                ready.append(user)
    stuck = {name: open_needs[name] for name in by_name if waiting[name] > 0}
    _tell_circles(scope, stuck, by_name)
    return tuple(by_name[name] for name in ordered)


def _tell_circles(scope: Scope, stuck: dict[str, dict[str, Span]], rules: dict[str, p.Rule | p.Output]) -> None:
    """Tells one shortest circle for each rule that is not yet part of a circle told."""
    told: set[str] = set()
    for name in stuck:
        circle = _shortest_circle(name, stuck) if name not in told else ()
        if circle and not told & set(circle):
            told |= set(circle)
            scope.tell(RuleCircle(circle), rules[name].span, stuck[circle[-1]][circle[0]])


def _shortest_circle(start: str, graph: dict[str, dict[str, Span]]) -> tuple[str, ...]:
    """The names on a shortest way from `start` back to itself; empty if there is none."""
    came_from: dict[str, str] = {}
    ways = deque([start])
    while ways:
        name = ways.popleft()
        for other in graph[name]:
            if other == start:
                circle = [name]
                while circle[-1] != start:
                    circle.append(came_from[circle[-1]])
                return tuple(reversed(circle))
            if other in graph and other not in came_from:
                came_from[other] = name
                ways.append(other)
    return ()
