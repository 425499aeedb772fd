"""The words of the language: which word opens which block, which item stands where, and which words are reserved."""

from __future__ import annotations

ITEM_WORDS: dict[str, frozenset[str]] = {
    "constants": frozenset(),
    "world": frozenset({"at"}),
    "harness": frozenset({"source", "ground", "wire", "join", "diode", "relay", "load"}),
    "controller": frozenset({"sense", "rule", "output", "draws"}),
    "electrics": frozenset(),
    "given": frozenset({"never", "always"}),
    "requirements": frozenset({"danger", "damage", "function"}),
    "scenario": frozenset({"at", "from", "until"}),
    "roles": frozenset(),
    "accepted": frozenset(),
}
"""Block word -> the words that can only begin an item of it (in some blocks an item begins with a name)."""

SINGLE_LINES = frozenset({"language", "vehicle", "use", "checklist"})
"""Words of lines in column 0 that open no block."""

HEADERS = SINGLE_LINES | frozenset(ITEM_WORDS)

_OTHER_WORDS = """
    above after always an and as at becomes below bistable blink by calls changes coil contact
    even excused expect false falls fed feeds filter first for from fuse grounded has impulse_relay in
    inrush instant is jumps lasted lasting lasts later least live longer most no not of off off_delay on
    on_delay one one_shot only or otherwise over possible powered previous reset retained rises set since
    substitute supply than to true until waits when while wins with within without xor
"""

RESERVED: frozenset[str] = (
    HEADERS
    | frozenset[str]().union(*ITEM_WORDS.values())
    | frozenset(_OTHER_WORDS.split())
    | frozenset({"level", "counter", "cut_out"})
)
"""No declared name may be one of these; the last three are kept for output levels, counters and overload cut-out."""

_FREE_WORDS = """
    ambient apart battery bundle cranks dip drop engine logic loses nominal parked reserve space tell_tale waive
"""

FREE: frozenset[str] = frozenset(_FREE_WORDS.split())
"""Words of the language that stand only where no name could, so that they are free to be names."""
