"""What stands in the way of every verdict: reactions that never settle, and assumptions that let time go no further."""

from __future__ import annotations

from logiccheck.lang.program import AfterLasting, LastsAtMost, Output, Program, Rule
from tests.oracle.explorer import Explorer, Move, Place, Search, TooBig
from tests.oracle.kernel import Clock
from tests.oracle.making import Making
from tests.oracle.slices import Node

# ------------------------------------------------------------------------------------------------------- settling


def roots(program: Program) -> set[Node]:
    """Everything that the vehicle does by itself: relays, and the rules and outputs of the box."""
    found: set[Node] = {("relay", relay.name) for relay in program.relays}
    for item in program.box.rules if program.box else ():
        found.add(("rule", item.name) if isinstance(item, Rule) else ("command", item.name))
        if isinstance(item, Output):
            found.add(("output", item.name))
    return found


def circles(program: Program, making: Making) -> list[set[Node]]:
    """The nodes of each circle by which something can act on itself; without one, everything settles.

    (What follows from a world that stands still, with nothing due, and not from itself, stands still after finitely
    many reactions: first the nodes that need only the world, then those that need only these, and so on.)
    """
    slicer = making.slicer(program)
    reach = {node: slicer.close(slicer.needs(node)) for node in slicer.close(roots(program))}
    found: list[set[Node]] = []
    for node, others in reach.items():
        if node in others and not any(node in circle for circle in found):
            found.append({other for other in others if node in reach[other]})
    return found


def never_settles(program: Program, limit: int, making: Making) -> bool:
    """Whether at some instant that can be reached the reactions follow one another for ever."""
    if (program, limit) not in making.restless:
        making.restless[program, limit] = any(
            chatters(program, limit, each, making) for each in circles(program, making)
        )
    return making.restless[program, limit]


def chatters(program: Program, limit: int, circle: set[Node], making: Making) -> bool:
    """Whether it does so in this circle."""
    search = Search(Explorer(making.kernel(making.slice(program, circle), None), limit))
    search.run(patient=True)
    return search.unsettled


# ----------------------------------------------------------------------------------------------------------- time


class Graph:
    """All places of a program under what is given, with their moves."""

    def __init__(self, program: Program, limit: int, making: Making) -> None:
        self.explorer = Explorer(making.kernel(program, None), limit)
        self.next: dict[Place, list[Move]] = {}
        todo = [move.place for move in self.explorer.starts() if move.place]
        while todo:
            place = todo.pop()
            if place in self.next:
                continue
            self.next[place] = list(self.explorer.moves(place))
            if len(self.next) > limit:
                raise TooBig(f"more than {limit} states")
            todo += [move.place for move in self.next[place] if move.place]

    def components(self) -> list[set[Place]]:
        """The strongly connected components (R. Tarjan, 1972), without recursion."""
        index: dict[Place, int] = {}
        low: dict[Place, int] = {}
        stack: list[Place] = []
        held: set[Place] = set()
        found: list[set[Place]] = []
        for start in self.next:
            if start in index:
                continue
            work = [(start, iter(self.successors(start)))]
            index[start] = low[start] = len(index)
            stack.append(start)
            held.add(start)
            while work:
                place, rest = work[-1]
                for other in rest:
                    if other not in index:
                        index[other] = low[other] = len(index)
                        stack.append(other)
                        held.add(other)
                        work.append((other, iter(self.successors(other))))
                        break
                    if other in held:
                        low[place] = min(low[place], index[other])
                else:
                    work.pop()
                    if work:
                        low[work[-1][0]] = min(low[work[-1][0]], low[place])
                    if low[place] == index[place]:
                        found.append(self.pop_component(stack, held, place))
        return found

    @staticmethod
    def pop_component(stack: list[Place], held: set[Place], root: Place) -> set[Place]:
        component: set[Place] = set()
        while root not in component:
            component.add(stack.pop())
        held -= component
        return component

    def successors(self, place: Place) -> list[Place]:
        return [move.place for move in self.next[place] if move.place]

    def goes_on(self, component: set[Place]) -> bool:
        """Whether time can pass for ever inside the component.

        It can if every clock is, somewhere in it, not running or just started: then a way round all of it can take its
        time (Alur and Dill 1994: a progressive run of the region automaton).
        """
        some = next(iter(component))
        if len(component) == 1 and some not in self.successors(some):
            return not some[0].clocks  # it can wait for ever where it is
        clocks: set[Clock] = {clock for place in component for clock in place[0].clocks}
        for situation, reading in component:
            running = dict(zip(situation.clocks, reading, strict=True))
            clocks = {clock for clock in clocks if running.get(clock, 0) > 0}
        return not clocks

    def good(self) -> set[Place]:
        """The places from which time can pass for ever, or could if the rules came to rest."""
        found: set[Place] = set()
        for component in self.components():  # each comes after all that it leads to
            ways = [move for place in component for move in self.next[place]]
            if self.goes_on(component) or any(restless(move) or move.place in found for move in ways):
                found |= component
        return found


def restless(move: Move) -> bool:
    """A moment that had to come and never settles is a trouble of the rules, not of what is given. (One that hands could
    as well leave out is no way on.)"""
    return move.place is None and move.must


def time_stops(program: Program, limit: int, making: Making) -> bool:
    """Whether a situation can be reached from which no continuation lets time pass for ever.

    A situation is also the stretch of waiting after an event: the last ways out of it must lead on. Only assumptions
    that end by themselves or come into force with time can force a change that another one forbids.
    """
    if not any(isinstance(given, AfterLasting | LastsAtMost) for given in program.givens):
        return False
    graph = Graph(program, limit, making)
    good = graph.good()
    for place, moves in graph.next.items():
        waits = not place[0].clocks
        if not waits and not any(move.last and (restless(move) or move.place in good) for move in moves):
            return True
    return False
