"""Courses of the world that what is given allows, and those that it cuts off, with the instant at which."""

from __future__ import annotations

from tests.meaning.courses_box import dip, sensing
from tests.meaning.sentences import Lawful, block, contacts

# o is on with x, through a wire that is dead for one reaction when m turns on.
DIPPING = dip("output o when s", names="x m y")


def two(given: str) -> str:
    """Contacts x and y, and one assumption."""
    return block("world", contacts("x y")) + block("given", given)


def moved(given: str) -> str:
    """A limit switch x, and an output o that is on with the button b."""
    return sensing("output o when sb", "b", world="x contact") + block("given", given)


LAWFUL = (
    Lawful(
        "output-falls-as-it-moves",
        "y held just before the moment",
        moved("x changes only while o"),
        "0 b on, x off; 2 b off, x on",
        "holds",
    ),
    Lawful(
        "output-fell-before-it-moves",
        "y that held earlier is not enough",
        moved("x changes only while o"),
        "0 b on, x off; 2 b off; 3 x on",
        "at 3",
    ),
    Lawful(
        "output-rises-as-it-moves",
        "y that begins at the moment is not enough",
        moved("x changes only while o"),
        "0 b off, x off; 2 b on, x on",
        "at 2",
    ),
    Lawful(
        "stays-still-without-y",
        "not to change needs nothing",
        moved("x changes only while o"),
        "0 b off, x on; 2 b on; 3 b off",
        "holds",
    ),
    Lawful(
        "a-timer-as-y",
        "y may hold a timer, which is nobody's memory",
        moved("x changes only while off_delay(o, 2 s)"),
        "0 b on, x off; 2 b off; 4 x on; 5 x off",
        "at 5",
    ),
    Lawful(
        "an-instant-is-no-break-of-given",
        "assumptions are of settled values: a break of one reaction is none",
        DIPPING + block("given", "y is on after o has lasted 3 s"),
        "0 x on, m off, y off; 2 m on",
        "at 3",
    ),
    Lawful(
        "after-from-time-0",
        "a run under way at time 0 began at 0",
        two("y is on after x has lasted 3 s"),
        "0 x on, y off; 3 y on; 4 y off",
        "at 4",
    ),
    Lawful(
        "after-as-it-ends",
        "p that ends exactly at t has not lasted",
        two("y is on after x has lasted 3 s"),
        "0 x on, y off; 3 x off",
        "holds",
    ),
    Lawful(
        "after-no-longer",
        "as long as on_delay(p, t) is true, and no longer",
        two("y is on after x has lasted 3 s"),
        "0 x on, y on; 4 x off, y off",
        "holds",
    ),
    Lawful(
        "shortest-time-of-not",
        "lasts at least, of what is not",
        two("not x lasts at least 2 s"),
        "0 x on, y off; 1 x off; 2 x on",
        "at 2",
    ),
    Lawful(
        "shortest-time-under-way",
        "a run under way at time 0 is free of a lower bound",
        two("not x lasts at least 5 s\nx lasts at least 2 s"),
        "0 x off, y off; 1 x on; 3 x off; 8 x on",
        "holds",
    ),
    Lawful(
        "shortest-time-exactly",
        "exactly the shortest time is not too short",
        two("x or y lasts at least 2 s"),
        "0 x off, y off; 1 x on; 2 x off, y on; 3 y off",
        "holds",
    ),
    Lawful(
        "longest-time-exactly",
        "at most t: over at begin + t",
        two("x lasts at most 2 s"),
        "0 x off, y off; 1 x on; 3 x off; 4 x on; 6.1 x off",
        "at 6",
    ),
    Lawful(
        "longest-time-of-both",
        "unbroken runs of the whole condition",
        two("x or y lasts at most 2 s"),
        "0 x off, y off; 1 x on; 2 x off, y on; 3.5 y off",
        "at 3",
    ),
    Lawful(
        "never-while",
        "never p while r of the world, at time 0 too",
        two("never x while y"),
        "0 x on, y on; 1 x off",
        "at 0",
    ),
    Lawful(
        "always-while",
        "always p while r of the world",
        two("always x while y"),
        "0 x off, y off; 1 x on, y on; 2 x off",
        "at 2",
    ),
    Lawful(
        "one-by-one-skips-nothing",
        "one by one: a neighbour at each moment, either way",
        "world\n    key off | accessory | run | start one by one\n",
        "0 key run; 1 key start; 2 key run; 3 key accessory; 4 key start",
        "at 4",
    ),
)
