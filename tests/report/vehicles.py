"""Small vehicles for the report tests, read by the front end and checked by the engine."""

from __future__ import annotations

from logiccheck.engine.check import check_program
from logiccheck.lang.load import Loaded, load_text
from logiccheck.lang.program import Program
from logiccheck.report.checked import check_report
from logiccheck.report.report import Report, VerdictPart

HEAD = """\
vehicle "Bench"
world
    key "Key" off | run | start one by one
    door "Door" closed | open
    at first key is off, door is closed
harness
    source plus
    wire box_feed from plus
    wire key_wire from plus when key in {run, start}
    wire start_wire from plus when key is start
    wire door_wire from plus when door is open
controller "Box" powered by box_feed
    sense key_on from key_wire live
    sense cranking from start_wire live
    sense door_open from door_wire live
"""


def loaded(rules: str, requirements: str, more: str = "") -> Loaded:
    """The bench with these rules, requirements and further blocks; a mistake in them fails the test."""
    found = load_text(f"{HEAD}{rules}requirements\n{requirements}{more}", "bench.circuit")
    assert not found.diagnostics, [diagnostic.sentence for diagnostic in found.diagnostics]
    return found


def program(rules: str, requirements: str, more: str = "") -> Program:
    """The resolved program of the same."""
    resolved = loaded(rules, requirements, more).program
    assert resolved is not None
    return resolved


def report(rules: str, requirements: str, more: str = "") -> Report:
    """The report of checking it."""
    found = loaded(rules, requirements, more)
    assert found.program is not None
    return check_report(found.program, found.files, check_program(found.program))


def verdict(rules: str, requirement: str, more: str = "") -> VerdictPart:
    """The first verdict of the report."""
    return report(rules, requirement, more).verdicts[0]
