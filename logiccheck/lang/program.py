"""The resolved program: every name bound, every quantity exact, every piece of memory with a name of its own.

This is the one tree that the reference interpreter, the boolean forms and the observers read. All names of a vehicle
live in one flat name space, so a name (a string) is a reference. Durations are whole microseconds; other quantities
are `Fraction` in the base unit of their dimension (ampere, volt, rpm, degC, metre, mm2, ohm, percent, km/h, bar, ...).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span

Micros: TypeAlias = int


@frozen
class Window:
    """A duration with tolerance: any value from `lo` to `hi`, both included; 0 < lo <= nominal <= hi (microseconds)."""

    lo: Micros
    hi: Micros
    nominal: Micros


# ----------------------------------------------------------------------------------------------------- expressions


class SignalKind(Enum):
    """What a bare name reads as, in the place where it stands."""

    SOURCE = "source"  # the condition of a source
    GROUND = "ground"  # the condition of a named ground
    LIVE = "live"  # a wire is live (a load: the wire it hangs on)
    GROUNDED = "grounded"  # a wire is grounded
    RELAY = "relay"  # the contact of a relay: closed as its coil was in the reaction before
    SENSE = "sense"  # what the box believes
    RULE = "rule"  # what the box concludes
    COMMAND = "command"  # an output named inside the box: what its rule says
    OUTPUT = "output"  # an output named outside the box: command, and box powered, and its feed live
    POWERED = "powered"  # the box has power

    __hash__ = object.__hash__  # signals are looked up by kind and name all the time; that of Enum hashes a text


@frozen
class Const:
    value: bool
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Signal:
    """`name` is the declared name; for a load (kind LIVE) that of its wire, and `said` that of the load; for POWERED
    the word "powered"."""

    kind: SignalKind
    name: str
    span: Span = field(default=NOWHERE, compare=False)
    said: str = field(default="", compare=False)


@frozen
class Position:
    """The switch `name` (a `Switch` of the world) stands in one of the positions with these indices."""

    name: str
    indices: frozenset[int]
    span: Span = field(default=NOWHERE, compare=False)


class Op(Enum):
    LT = "<"
    LE = "<="
    GT = ">"
    GE = ">="
    EQ = "="
    NE = "!="


@frozen
class Compare:
    """A number of the world, or a number sense of the box (`sense` true), held against a constant in its base unit.

    A comparison on a number sense of a box without power is false, whatever the operator.
    """

    name: str
    sense: bool
    op: Op
    bound: Fraction
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Not:
    x: Expr
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class And:
    parts: tuple[Expr, ...]
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Or:
    parts: tuple[Expr, ...]
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Xor:
    left: Expr
    right: Expr
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class AtMostOne:
    parts: tuple[Expr, ...]
    span: Span = field(default=NOWHERE, compare=False)


class TimerKind(Enum):
    ON_DELAY = "on_delay"
    OFF_DELAY = "off_delay"
    ONE_SHOT = "one_shot"
    FILTER = "filter"  # the filter time of a sense: follows x once x has differed from the value for the window


# `key` of a memory node is unique in the program and stable under reordering of the file: the name of the item that
# holds it, and a number when that item holds several ("prime", "hold", "lamps, number 2"; in a blinker ".on" and ".off"
# are added for its two phases). Timers are chosen, shown and replayed by key.


@frozen
class Timer:
    kind: TimerKind
    x: Expr
    window: Window
    key: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Blink:
    """True for the on-phase, false for the off-phase, and so on while x is true; its timers are key.on and key.off."""

    x: Expr
    on: Window
    off: Window
    key: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Bistable:
    """Also stands for two thresholds ("above a until below b"), whose set and reset can never come together."""

    set: Expr
    reset: Expr
    set_wins: bool
    retained: bool
    key: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Impulse:
    """Each rise of x turns it over; reset (absent: `Const(False)`) wins."""

    x: Expr
    reset: Expr
    retained: bool
    key: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Edge:
    """`rises(x)`, or `falls(x)` with `rising` false; in requirements also `x becomes v`."""

    rising: bool
    x: Expr
    key: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Previous:
    x: Expr
    key: str
    span: Span = field(default=NOWHERE, compare=False)


Expr: TypeAlias = (
    Const
    | Signal
    | Position
    | Compare
    | Not
    | And
    | Or
    | Xor
    | AtMostOne
    | Timer
    | Blink
    | Bistable
    | Impulse
    | Edge
    | Previous
)


# ------------------------------------------------------------------------------------------------------------ world


@frozen
class Switch:
    """Positions in the order written; a `contact` has the positions "off" and "on" and its bare name means on."""

    name: str
    label: str
    positions: tuple[str, ...]
    one_by_one: bool  # each moment it stays or moves to a neighbour in the order written
    contact: bool
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Number:
    """A dense number of the world in [low, high], in base units; `unit` is the unit as written, for people.

    `bounds` are all constants it is compared with anywhere but in scenarios (also through senses), rising, inside
    [low, high]: each is an interval of its own and between two lies one more.
    """

    name: str
    label: str
    low: Fraction
    high: Fraction
    unit: str
    bounds: tuple[Fraction, ...]
    jumps: bool  # false: `without jumps` is given, it passes through each interval on its way
    span: Span = field(default=NOWHERE, compare=False)


# ---------------------------------------------------------------------------------------------------------- harness


@frozen
class Electrical:
    """What a load draws, what protects it, and how its wire lies, as written, exact; None where nothing is said.

    Of a wire of the harness: what protects it at its own `from`, and how it lies; a current is then never said.
    """

    current: Fraction | None = None  # A, while on
    inrush: Fraction | None = None  # A, in all, not above the current
    inrush_time: Micros | None = None
    fuse: Fraction | None = None  # A
    wire_size: str | None = None  # "1.5 mm2", "14 AWG", "14 SAE"
    wire_length: Fraction | None = None  # m, one way
    bundle: int | None = None  # conductors that lie together, this one counted
    engine_space: bool = False
    drop: Fraction | None = None  # percent of the nominal voltage that may be lost, there and back


NO_ELECTRICAL = Electrical()


@frozen
class Source:
    name: str
    label: str
    condition: Expr  # of the world and relay contacts
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Ground:
    """Also the ground that is always there, named "ground", with a condition that is constant true."""

    name: str
    label: str
    condition: Expr
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Wire:
    name: str
    label: str
    span: Span = field(default=NOWHERE, compare=False)
    electrical: Electrical = NO_ELECTRICAL


@frozen
class Contact:
    """Joins two ends (wires, sources or grounds) both ways while its condition (world, relay contacts) is true."""

    left: str
    right: str
    condition: Expr
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Diode:
    """Live passes from `anode` to `cathode`; grounded passes from `cathode` to `anode`."""

    anode: str
    cathode: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Relay:
    """Its contact shows the coil of the reaction before. Without supply the coil is off and all its memory is empty."""

    name: str
    label: str
    coil: Expr  # of the world, wires, relay contacts, true outputs (of the reaction before); timers and memory allowed
    supply: Expr | None  # a wire live or a source, in this reaction; None: always supplied
    span: Span = field(default=NOWHERE, compare=False)
    draws: Fraction | None = None  # A that it draws from its supply while its coil is on


@frozen
class Load:
    """A load that hangs on a wire, with no controller between; its name reads as the wire being live."""

    name: str
    label: str
    wire: str
    electrical: Electrical
    span: Span = field(default=NOWHERE, compare=False)


# ------------------------------------------------------------------------------------------------------- controller


@frozen
class WireSense:
    name: str
    label: str
    wire: str
    grounded: bool  # true when the wire is grounded; else true when it is live
    filter: Timer | None  # kind FILTER, its x is the wire; None: follows at once
    substitute: bool | None  # read only when the value is lost
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class NumberSense:
    """A number sense with a filter time filters each comparison made on it: `filter` is that time."""

    name: str
    label: str
    number: str
    filter: Window | None
    substitute: Fraction | None
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Rule:
    name: str
    label: str
    expr: Expr
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Output:
    name: str
    label: str
    command: Expr
    fed_by: str | None  # the wire that must be live for the output to be true; None: always fed
    feeds: str | None  # the wire it makes live (in the next reaction)
    electrical: Electrical
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Box:
    label: str
    feed: str  # the wire (or source) that powers it
    startup: Timer | None  # ON_DELAY over the feed being live; not cleared by loss of power other than through its x
    senses: tuple[WireSense | NumberSense, ...]
    rules: tuple[Rule | Output, ...]  # in dependency order: each names only rules and outputs before it,
    # save inside `Previous`; `previous` may look at any
    span: Span = field(default=NOWHERE, compare=False)
    awake: Fraction | None = None  # A that the box itself draws from its feed while it is powered
    asleep: Fraction | None = None  # A while its feed is live and it is not powered

    @property
    def outputs(self) -> tuple[Output, ...]:
        return tuple(x for x in self.rules if isinstance(x, Output))


# -------------------------------------------------------------------------------------------------------- electrics


@frozen
class Battery:
    """What is said of the battery behind a source, as written, exact; None where nothing is said."""

    source: str
    capacity: Fraction | None  # Ah, at the rate of twenty hours
    reserve: Fraction | None  # minutes at 25 A
    to_crank: Fraction | None  # percent of the charge with which it still cranks
    loses: Fraction | None  # percent of its charge that it loses by itself in 30 days at 25 degC
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Dip:
    """The voltage of a source may fall too low for anything on it, for `time` at most, while p holds."""

    source: str
    p: Expr  # anything a requirement may name, without timers, memory and edges
    time: Micros
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class TellTale:
    """Somebody notices p, which shows that something is broken, `time` after that at most, counted only while r holds
    all that time."""

    p: Expr  # a condition as requirements have it, without timers, memory and edges
    time: Micros
    r: Expr | None
    text: str  # p as written, for people
    label: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Electrics:
    """What copper has around it; None where nothing is said."""

    nominal: Fraction | None = None  # V
    ambient: Fraction | None = None  # degC
    engine_space: Fraction | None = None  # degC
    apart: Micros | None = None  # two inrushes are to begin at least that far from each other
    parked: Expr | None = None  # of the world
    batteries: tuple[Battery, ...] = ()
    dips: tuple[Dip, ...] = ()
    tell_tales: tuple[TellTale, ...] = ()
    span: Span = field(default=NOWHERE, compare=False)


NO_ELECTRICS = Electrics()


# -------------------------------------------------------------------------------------------- what is given (assumed)


@frozen
class Excluded:
    """`never p`: no instant has p (settled). `always p` arrives here as never not p. p is of the world."""

    p: Expr
    text: str  # as written, for people
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class LastsAtLeast:
    p: Expr
    time: Micros
    text: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class LastsAtMost:
    p: Expr
    time: Micros
    text: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class ChangesOnlyWhile:
    """World variable `name` changes at a moment only if y held (settled) just before that moment."""

    name: str
    y: Expr
    text: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class AfterLasting:
    """`c after p has lasted t`: as long as on_delay(p, t) is true (settled p; a run at time 0 began at 0), c is so."""

    c: Expr
    p: Expr
    time: Micros
    text: str
    span: Span = field(default=NOWHERE, compare=False)


Given: TypeAlias = Excluded | LastsAtLeast | LastsAtMost | ChangesOnlyWhile | AfterLasting
# `one by one` and `without jumps` are fields of Switch and Number; `at first` is a field of Program.


# ----------------------------------------------------------------------------------------------------- requirements


class Guard(Enum):
    DANGER = "danger"
    DAMAGE = "damage"
    FUNCTION = "function"


@frozen
class Never:
    """never (p and r) on settled values; `always p while r` arrives as never (not p) while r."""

    p: Expr
    r: Expr | None  # the `while` part
    always: bool  # written as `always`
    instant: bool  # `even for an instant`: every reaction counts


@frozen
class NeverLonger:
    p: Expr
    r: Expr | None
    time: Micros


@frozen
class CallsWithin:
    """p calls for q no later than t [excused by r]"""

    p: Expr
    q: Expr
    time: Micros
    r: Expr | None


@frozen
class CallsLasting:
    """p calls for q lasting t [excused by r]"""

    p: Expr
    q: Expr
    time: Micros
    r: Expr | None


@frozen
class OnlyAfter:
    """q only after p [has lasted t] [since r]"""

    q: Expr
    p: Expr
    time: Micros | None
    r: Expr | None


@frozen
class WaitsFor:
    """q waits for r [after p]"""

    q: Expr
    r: Expr
    p: Expr | None


@frozen
class Possible:
    q: Expr


Form: TypeAlias = Never | NeverLonger | CallsWithin | CallsLasting | OnlyAfter | WaitsFor | Possible


@frozen
class Requirement:
    name: str
    label: str
    guard: Guard
    form: Form
    text: str  # the form as written, white space folded
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Waived:
    """A requirement of a checklist that is not asked, and why; in `text` a role that nothing plays keeps its name."""

    name: str
    label: str
    guard: Guard
    text: str
    reason: str
    span: Span = field(default=NOWHERE, compare=False)  # where it is waived


@frozen
class Accepted:
    """A finding that somebody takes responsibility for: its `kind` by name or code, small letters, or "requirement";
    the name it is `about`; the mark of the `logic` that it rests on (`lang/fingerprint.py`)."""

    kind: str
    about: str
    reason: str
    by: str
    on: str  # the date as in ISO 8601: "2026-11-02"
    logic: str  # "4f1c-9a2e"
    span: Span = field(default=NOWHERE, compare=False)
    kind_span: Span = field(default=NOWHERE, compare=False)


# -------------------------------------------------------------------------------------------------------- scenarios


@frozen
class WorldSet:
    """At `time` the switch takes the position with this index, or the number this value."""

    time: Micros | Fraction
    name: str
    value: int | Fraction
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class TimerLasts:
    """The run of timer `key` that starts at `time` falls due `duration` later (inside its window)."""

    time: Micros | Fraction
    key: str
    duration: Micros | Fraction
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Expectation:
    """Settled `p` holds at `time`, or with `until` at every instant from `time` to `until`, both included."""

    time: Micros | Fraction
    until: Micros | Fraction | None
    p: Expr
    text: str
    span: Span = field(default=NOWHERE, compare=False)


@frozen
class Scenario:
    """World changes from time 0; what is not set at time 0 is as `at first` says, else the first position or `low`."""

    name: str
    label: str
    sets: tuple[WorldSet, ...]
    timers: tuple[TimerLasts, ...]  # runs that are not named last their nominal time
    expectations: tuple[Expectation, ...]
    end: Micros | Fraction  # last instant that is played
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True, eq=False)
class Program:
    """A vehicle, resolved. It is equal to itself alone: what is worked out of it once is kept by it."""

    label: str
    switches: tuple[Switch, ...]
    numbers: tuple[Number, ...]
    at_first: tuple[Expr, ...]  # each a fact of the world that holds at time 0
    sources: tuple[Source, ...]
    grounds: tuple[Ground, ...]
    wires: tuple[Wire, ...]
    contacts: tuple[Contact, ...]
    diodes: tuple[Diode, ...]
    relays: tuple[Relay, ...]
    loads: tuple[Load, ...]
    box: Box | None
    givens: tuple[Given, ...]
    requirements: tuple[Requirement, ...]
    scenarios: tuple[Scenario, ...]
    waived: tuple[Waived, ...] = ()
    accepted: tuple[Accepted, ...] = ()
    electrics: Electrics = NO_ELECTRICS
