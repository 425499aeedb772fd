"""Findings: when they speak, and when they are silent."""

from __future__ import annotations

from logiccheck.lang.load import load_text
from logiccheck.study.findings import linted

HEAD = """\
vehicle "Bench"
world
    key "Key" off | run
harness
    source plus
    wire box_feed from plus
    wire key_wire from plus when key is run
    wire lamp_wire
    load bulb on lamp_wire
{harness}controller "Box" powered by box_feed
    sense key_on from key_wire live
{controller}requirements
{requirements}"""

ASKED_FOR = {"unused-name", "unasked-output"}
PUMP = "    output pump when key_on\n"
ASKED = "    danger a never pump while key is off\n"


def found(controller: str, requirements: str, harness: str = "") -> list[str]:
    """The sentences of all findings."""
    loaded = load_text(HEAD.format(controller=controller, requirements=requirements, harness=harness))
    assert loaded.program is not None, [diagnostic.sentence for diagnostic in loaded.diagnostics]
    return [finding.diagnostic.sentence for finding in linted(loaded.program, None, ASKED_FOR).findings]


def test_silence() -> None:
    """A sense that is used and an output that is asked about are nothing to speak of."""
    assert found(PUMP, ASKED) == []


def test_unused_sense_and_rule() -> None:
    """A sense or rule that nothing reads; a rule is read by a requirement as well."""
    rule = "    rule on_for_long = on_delay(key_on, 3 s)\n"
    assert found(rule + PUMP, ASKED) == ["Nothing depends on the rule `on_for_long`."]
    assert found(rule + PUMP, ASKED + "    function b possible on_for_long\n") == []
    assert found("    output pump when true\n", ASKED) == ["Nothing depends on the sense `key_on`."]


def test_unused_relay() -> None:
    """A delay relay whose contact is nowhere."""
    relay = "    relay late coil on_delay(key_wire, 3 s +- 10 %)\n"
    assert found(PUMP, ASKED, relay) == ["Nothing depends on the relay `late`."]
    assert found(PUMP, ASKED, relay + "    wire late_wire from plus when late\n") == []


def test_outputs_nobody_asks_about() -> None:
    """One finding names them all; asking about the wire that an output feeds is asking about the output."""
    more = "    output lamp when key_on feeds lamp_wire\n    output horn when key_on\n"
    assert found(PUMP + more, ASKED) == ["No requirement mentions these outputs: `lamp`, `horn`."]
    assert found(PUMP + more, ASKED + "    function b possible lamp_wire and horn\n") == []


def test_who_asks_of_a_relay_asks_of_the_output_of_its_coil() -> None:
    """The coil is fed by the output, or names it; a relay nobody asks about helps nothing."""
    lamp = "    output lamp when key_on feeds lamp_wire\n"
    asked = ASKED + "    function b possible late\n"
    unasked = ["No requirement mentions these outputs: `lamp`."]
    used = "    wire late_wire from plus when late\n"
    assert found(PUMP + lamp, asked, "    relay late coil lamp_wire\n") == []
    assert found(PUMP + lamp, asked, "    relay late coil lamp\n") == []
    assert found(PUMP + lamp, asked, "    relay late coil key_wire\n") == unasked
    assert found(PUMP + lamp, ASKED, "    relay late coil lamp_wire\n" + used) == unasked
