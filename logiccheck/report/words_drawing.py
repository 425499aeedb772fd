"""What stands in the drawing of a harness beside the names."""

from __future__ import annotations

from logiccheck.report.drawing import Symbol

SUBTITLE = "The harness as the file says it: sources on the left, what they reach on the right"
KEY = (
    (Symbol.CONTACT, "contact"),
    (Symbol.DIODE, "diode"),
    (Symbol.FUSE, "fuse"),
    (Symbol.LOAD, "load"),
    (Symbol.COIL, "coil of a relay"),
)
LEGEND = (
    "Each contact is drawn open, also one that is closed at rest. It is closed while what stands above it is so.",
    "What is live passes a diode from its triangle to its bar.",
    "Lines join where there is a dot; where they only cross there is none.",
)
CAUTION = "This shows what the file says, not the vehicle: hold it against the vehicle before anybody relies on it."
POWER = "power"


def when(condition: str) -> str:
    """When a source is live, or a ground good."""
    return f"while {condition}"


def read(state: str) -> str:
    """What a sense looks for."""
    return f"sense: {state}"


def number(name: str) -> str:
    """What a sense of a number follows."""
    return f"sense of {name}"


def coil(text: str) -> str:
    """When a relay pulls in."""
    return f"coil: {text}"


def supply(name: str) -> str:
    """What supplies a relay."""
    return f"supply: {name}"


def coil_of(name: str) -> str:
    """A coil that stands elsewhere looks at this wire, too."""
    return f"to the coil of {name}"


def supply_of(name: str) -> str:
    """This wire supplies a relay that stands elsewhere."""
    return f"supplies {name}"


OUTPUT = "output"


def feeds_output(name: str) -> str:
    """What an output passes on that stands elsewhere."""
    return f"feeds {name}"
