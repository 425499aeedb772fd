"""The tree as written: what stands in a file, with its places and without any meaning; names are not yet bound."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from logiccheck.base.span import Span


@dataclass(frozen=True, slots=True)
class Name:
    """A word where a name stands; not necessarily a name that exists."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Quoted:
    """What stands between quotes; the span includes the quotes."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number and the unit behind it, if one was written."""

    number: Fraction | None  # None: divided by zero
    digits: int  # how many digits the longest of its numbers has
    unit: str | None
    span: Span


Amount: TypeAlias = Quantity | Name


@dataclass(frozen=True, slots=True)
class Tolerance:
    """`nominal +- margin`, the margin a percentage or a quantity of the same kind."""

    nominal: Amount
    margin: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class Between:
    """`from low to high`"""

    low: Amount
    high: Amount
    span: Span


Window: TypeAlias = Quantity | Name | Tolerance | Between

# ----------------------------------------------------------------------------------------------------- expressions


@dataclass(frozen=True, slots=True)
class Bare:
    name: Name
    span: Span


@dataclass(frozen=True, slots=True)
class Truth:
    value: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Is:
    name: Name
    value: Amount
    negated: bool
    span: Span


@dataclass(frozen=True, slots=True)
class In:
    name: Name
    values: tuple[Amount, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Becomes:
    name: Name
    value: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class Held:
    """`name above amount`; `word` is one of "above", "below", "at least", "at most"."""

    name: Name
    word: str
    amount: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class Thresholds:
    """`name above begin until below end`, or with `rising` false `name below begin until above end`."""

    name: Name
    rising: bool
    begin: Amount
    end: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class Negation:
    x: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Chain:
    """Two or more parts joined by the same `word`: "and", "or", "xor", or "at most one"."""

    word: str
    parts: tuple[Expr, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Timed:
    """`word` is "on_delay", "off_delay" or "one_shot"."""

    word: str
    x: Expr
    window: Window
    span: Span


@dataclass(frozen=True, slots=True)
class Blink:
    x: Expr
    on: Window
    off: Window
    span: Span


@dataclass(frozen=True, slots=True)
class Reset:
    x: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Option:
    """`word` is "set wins", "reset wins" or "retained"."""

    word: str
    span: Span


@dataclass(frozen=True, slots=True)
class Stored:
    """`word` is "bistable" (x sets it) or "impulse_relay" (x turns it over)."""

    word: str
    x: Expr
    parts: tuple[Reset | Option, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Edge:
    rising: bool
    x: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Previous:
    x: Expr
    span: Span


Expr: TypeAlias = (
    Bare | Truth | Is | In | Becomes | Held | Thresholds | Negation | Chain | Timed | Blink | Stored | Edge | Previous
)

# --------------------------------------------------------------------------------------------------------- column 0


@dataclass(frozen=True, slots=True)
class Language:
    version: Quantity
    span: Span


@dataclass(frozen=True, slots=True)
class Vehicle:
    label: Quoted
    span: Span


@dataclass(frozen=True, slots=True)
class UseFile:
    path: Quoted
    span: Span


@dataclass(frozen=True, slots=True)
class Binding:
    role: Name
    value: Expr | Window
    span: Span


@dataclass(frozen=True, slots=True)
class UseChecklist:
    name: Name
    prefix: Name  # its requirements are named prefix_requirement
    bindings: tuple[Binding, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Checklist:
    name: Name
    label: Quoted | None
    span: Span


@dataclass(frozen=True, slots=True)
class Plain:
    """The header of a block that is one word; also stands for a header that could not be read."""

    word: str
    span: Span


@dataclass(frozen=True, slots=True)
class Controller:
    label: Quoted | None
    feed: Name
    delay: Window | None
    span: Span


@dataclass(frozen=True, slots=True)
class ScenarioHead:
    name: Name
    label: Quoted | None
    span: Span


Header: TypeAlias = Language | Vehicle | UseFile | UseChecklist | Checklist | Plain | Controller | ScenarioHead

# ------------------------------------------------------------------------------------------- constants, roles, world


@dataclass(frozen=True, slots=True)
class Constant:
    name: Name
    value: Window
    span: Span


@dataclass(frozen=True, slots=True)
class Role:
    name: Name
    label: Quoted
    span: Span


@dataclass(frozen=True, slots=True)
class First:
    facts: tuple[Expr, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Switch:
    """A `contact` has no positions written."""

    name: Name
    label: Quoted | None
    positions: tuple[Name, ...]
    one_by_one: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Number:
    name: Name
    label: Quoted | None
    low: Quantity
    high: Quantity
    span: Span


# ---------------------------------------------------------------------------------------------------------- harness


@dataclass(frozen=True, slots=True)
class Source:
    name: Name
    label: Quoted | None
    condition: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Ground:
    name: Name
    label: Quoted | None
    condition: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Connection:
    """`otherwise`: closed while none of the connections before it is."""

    end: Name
    condition: Expr | None
    otherwise: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Wire:
    name: Name
    label: Quoted | None
    connections: tuple[Connection, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Join:
    left: Name
    right: Name
    condition: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Diode:
    anode: Name
    cathode: Name
    span: Span


@dataclass(frozen=True, slots=True)
class Relay:
    name: Name
    label: Quoted | None
    coil: Expr
    supply: Name | None
    span: Span


@dataclass(frozen=True, slots=True)
class Draw:
    """One part of what a load draws; `word` is "current", "inrush", "fuse" or "wire"; `second` its time or length."""

    word: str
    amount: Amount
    second: Amount | None
    span: Span


@dataclass(frozen=True, slots=True)
class Load:
    name: Name
    label: Quoted | None
    wire: Name
    draws: tuple[Draw, ...]
    span: Span


# ------------------------------------------------------------------------------------------------------- controller


@dataclass(frozen=True, slots=True)
class Filter:
    window: Window
    span: Span


@dataclass(frozen=True, slots=True)
class Substitute:
    """`value` is a bool for `on` and `off`."""

    value: bool | Amount
    span: Span


@dataclass(frozen=True, slots=True)
class Sense:
    """`reading` is "live" or "grounded", or None if neither was written."""

    name: Name
    label: Quoted | None
    input: Name
    reading: str | None
    parts: tuple[Filter | Substitute, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Rule:
    name: Name
    label: Quoted | None
    expr: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Fed:
    """`fed by wire`, or with `by` false `feeds wire`."""

    by: bool
    wire: Name
    span: Span


@dataclass(frozen=True, slots=True)
class Draws:
    parts: tuple[Draw, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Output:
    name: Name
    label: Quoted | None
    command: Expr
    parts: tuple[Fed | Draws, ...]
    span: Span


# ------------------------------------------------------------------------------------------ given and requirements


@dataclass(frozen=True, slots=True)
class GivenNever:
    p: Expr
    r: Expr | None
    always: bool
    span: Span


@dataclass(frozen=True, slots=True)
class GivenLasts:
    p: Expr
    at_least: bool
    time: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class GivenAfter:
    c: Expr
    p: Expr
    time: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class GivenChanges:
    name: Name
    y: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class GivenNoJumps:
    name: Name
    span: Span


Given: TypeAlias = GivenNever | GivenLasts | GivenAfter | GivenChanges | GivenNoJumps


@dataclass(frozen=True, slots=True)
class Never:
    """`longer` is the time of `for longer than`; `instant`: `even for an instant`."""

    p: Expr
    r: Expr | None
    always: bool
    longer: Amount | None
    instant: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Calls:
    """`lasting` false: `no later than`."""

    p: Expr
    q: Expr
    lasting: bool
    time: Amount
    excused: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class OnlyAfter:
    q: Expr
    p: Expr
    lasted: Amount | None
    since: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class WaitsFor:
    q: Expr
    r: Expr
    after: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Possible:
    q: Expr
    span: Span


Form: TypeAlias = Never | Calls | OnlyAfter | WaitsFor | Possible


@dataclass(frozen=True, slots=True)
class Requirement:
    """`guard` is "danger", "damage" or "function"."""

    guard: str
    name: Name
    label: Quoted | None
    form: Form
    span: Span


# -------------------------------------------------------------------------------------------------------- scenarios


@dataclass(frozen=True, slots=True)
class FactSet:
    fact: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class FactLasts:
    """`timer` is an expression where the key is a name, and quoted where it is more than a name."""

    timer: Expr | Quoted
    time: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class Scene:
    """`begin` is None for `at first`; `end` is the end of `from ... to ...`, None for `at`."""

    begin: Amount | None
    end: Amount | None
    facts: tuple[FactSet | FactLasts, ...]
    expected: tuple[Expr, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Until:
    time: Amount
    span: Span


Item: TypeAlias = (
    Constant
    | Role
    | First
    | Switch
    | Number
    | Source
    | Ground
    | Wire
    | Join
    | Diode
    | Relay
    | Load
    | Sense
    | Rule
    | Output
    | Given
    | Requirement
    | Scene
    | Until
)


@dataclass(frozen=True, slots=True)
class Block:
    """A header in column 0 and the items under it that could be read."""

    header: Header
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class File:
    """`lost` are names that stand where a declaration could not be read: nobody complains that they are unknown.

    `swaps` are the roles of a checklist in use, by rising place, each with the text of what it is bound to.
    """

    path: str
    text: str
    blocks: tuple[Block, ...]
    lost: frozenset[str]
    swaps: tuple[tuple[Span, str], ...] = ()
