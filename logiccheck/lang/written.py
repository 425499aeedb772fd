"""The tree as written: what stands in a file, with its places and without any meaning; names are not yet bound."""

from __future__ import annotations

from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.lang.written_conditions import (
    Amount,
    Bare,
    Becomes,
    Between,
    Blink,
    Chain,
    Edge,
    Expr,
    Held,
    In,
    Is,
    Name,
    Negation,
    Option,
    Previous,
    Quantity,
    Quoted,
    Reset,
    Stored,
    Thresholds,
    Timed,
    Tolerance,
    Truth,
    Window,
)
from logiccheck.lang.written_electrics import (
    Battery,
    BatteryPart,
    Dip,
    ElectricsItem,
    Parked,
    Setting,
    TellTale,
)
from logiccheck.lang.written_forms import (
    Calls,
    FactLasts,
    FactSet,
    Form,
    Given,
    GivenAfter,
    GivenChanges,
    GivenLasts,
    GivenNever,
    GivenNoJumps,
    Never,
    OnlyAfter,
    Possible,
    Requirement,
    Scene,
    Until,
    WaitsFor,
)
from logiccheck.lang.written_headers import (
    Binding,
    Checklist,
    Controller,
    Header,
    Language,
    Plain,
    ScenarioHead,
    UseChecklist,
    UseFile,
    Vehicle,
    Waiver,
)
from logiccheck.lang.written_items import (
    Accepted,
    BoxDraw,
    BoxDraws,
    Connection,
    Constant,
    Diode,
    Draw,
    Draws,
    Fed,
    Filter,
    First,
    Ground,
    InEngineSpace,
    Join,
    Load,
    Number,
    Output,
    Relay,
    Role,
    Rule,
    Sense,
    Source,
    Substitute,
    Switch,
    Wire,
)

__all__ = [
    "Accepted",
    "Amount",
    "Bare",
    "Battery",
    "BatteryPart",
    "Becomes",
    "Between",
    "Binding",
    "Blink",
    "Block",
    "BoxDraw",
    "BoxDraws",
    "Calls",
    "Chain",
    "Checklist",
    "Connection",
    "Constant",
    "Controller",
    "Diode",
    "Dip",
    "Draw",
    "Draws",
    "Edge",
    "ElectricsItem",
    "Expr",
    "FactLasts",
    "FactSet",
    "Fed",
    "File",
    "Filter",
    "First",
    "Form",
    "Given",
    "GivenAfter",
    "GivenChanges",
    "GivenLasts",
    "GivenNever",
    "GivenNoJumps",
    "Ground",
    "Header",
    "Held",
    "In",
    "InEngineSpace",
    "Is",
    "Item",
    "Join",
    "Language",
    "Load",
    "Name",
    "Negation",
    "Never",
    "Number",
    "OnlyAfter",
    "Option",
    "Output",
    "Parked",
    "Plain",
    "Possible",
    "Previous",
    "Quantity",
    "Quoted",
    "Relay",
    "Requirement",
    "Reset",
    "Role",
    "Rule",
    "ScenarioHead",
    "Scene",
    "Sense",
    "Setting",
    "Source",
    "Stored",
    "Substitute",
    "Switch",
    "TellTale",
    "Thresholds",
    "Timed",
    "Tolerance",
    "Truth",
    "Until",
    "UseChecklist",
    "UseFile",
    "Vehicle",
    "WaitsFor",
    "Waived",
    "Waiver",
    "Window",
    "Wire",
]

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
    | BoxDraws
    | ElectricsItem
    | Given
    | Requirement
    | Scene
    | Until
    | Accepted
)


@frozen
class Block:
    """A header in column 0 and the items under it that could be read."""

    header: Header
    items: tuple[Item, ...]


@frozen
class Waived:
    """A requirement of a checklist that is not asked; roles in it may be bound to nothing."""

    requirement: Requirement
    waiver: Waiver


@frozen
class File:
    """`lost` are names that stand where a declaration could not be read: nobody complains that they are unknown.

    `idle` are names bound to roles of a checklist of which nothing that is asked speaks.
    """

    path: str
    text: str
    blocks: tuple[Block, ...]
    lost: frozenset[str]
    idle: tuple[Name, ...] = ()
    waived: tuple[Waived, ...] = ()
