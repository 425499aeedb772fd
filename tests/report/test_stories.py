"""What a failing requirement shows: its table, its causes, and what it leaves out."""

from __future__ import annotations

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.lang.load import load_text
from logiccheck.report.checked import check_report
from logiccheck.report.report import Cause, Line, Table
from tests.report.vehicles import HEAD, report, verdict

PUMP = "    rule prime = one_shot(key_on, 3 s)\n    output pump when prime or cranking\n"


def rows(table: Table) -> dict[str, tuple[str, ...]]:
    """The cells of every row by its name."""
    return {row.name: row.cells for group in table.groups for row in group.rows}


def marked(cause: Cause) -> list[str]:
    """What is pointed at."""
    assert cause.excerpt is not None
    return [line.text[begin:end] for line in cause.excerpt.lines for begin, end in line.marks]


def test_a_story_is_a_table_of_changes() -> None:
    """One column a moment, one row a signal, grouped, and only what changed or is asked about."""
    part = verdict(PUMP, "    danger a never pump while key is off\n")
    assert part.kind is Kind.FAILS
    assert part.sentence == "At 2 s this happens: pump, while key is off."
    assert part.shown is not None
    table = part.shown.table
    assert table.columns == ("at first", "1 s", "2 s")
    assert [group.title for group in table.groups] == ["hands", "copper", "box"]
    assert rows(table) == {
        "key": ("off", "run", "off"),
        "key_wire": ("dead", "live", "dead"),
        "key_on": ("off", "on", "off"),
        "prime": ("off", "on", ""),
        "pump": ("off", "on", ""),
    }


def test_what_hands_leave_alone_and_what_is_not_involved_is_said_in_a_line() -> None:
    """The door cannot matter and is only counted; a switch that matters and stands still is named."""
    part = verdict(PUMP, "    danger a never pump while key is off\n")
    assert part.shown is not None
    assert part.shown.remarks == ("Signals not involved, and not shown: 3.",)
    both = verdict(PUMP, "    danger a never pump while key is run and door is closed\n")
    assert both.shown is not None
    assert rows(both.shown.table)["door"] == ("closed", "")


def test_the_fewest_facts_lead_and_are_marked() -> None:
    """One sentence; then the output's own line, and the rule that is a fact."""
    part = verdict(PUMP, "    danger a never pump while key is off\n")
    assert part.shown is not None
    (pump,) = part.shown.causes
    assert pump.sentence == "pump is on because prime is on (its time runs since 1 s, 2 s left)."
    assert marked(pump) == ["one_shot(key_on, 3 s)", "prime"]


def test_all_facts_that_are_needed_are_marked() -> None:
    """Also a term that stood all along."""
    part = verdict("    output pump when key_on and not door_open\n", "    danger a never pump while key is run\n")
    assert part.shown is not None
    assert part.shown.causes[0].sentence == "pump is on because key_on is on and door_open is off."
    assert marked(part.shown.causes[0]) == ["key_on", "door_open"]


def test_of_two_alternatives_one_is_enough() -> None:
    """Where no single term decides, the first of those that alone are enough; of it what is behind it."""
    part = verdict("    output pump when key_on or cranking\n", "    danger a never pump while key is start\n")
    assert part.shown is not None
    pump, wire = part.shown.causes
    assert pump.sentence == "pump is on because key_on is on."
    assert marked(pump) == ["key_on"]
    assert wire.sentence == "key_wire is live because key is start."


def test_a_wire_is_explained_by_what_is_closed() -> None:
    """For a wire the contact that lets it through is marked."""
    part = verdict(PUMP, "    danger a never key_wire while key is run\n")
    assert part.shown is not None
    (cause,) = part.shown.causes
    assert cause.sentence == "key_wire is live because key is run."
    assert marked(cause) == ["key in {run, start}"]


def test_something_overdue_is_shown_just_after() -> None:
    """The moment of being overdue is a column of its own that changes nothing."""
    part = verdict("    output pump when off_delay(key_on, 3 s)\n", "    damage a never pump for longer than 5 s\n")
    assert part.shown is not None
    assert part.shown.table.columns[-1] == "just after 6 s"
    assert part.sentence == "Unbroken since 1 s, and so for longer than 5 s: pump."


def test_the_last_column_is_of_the_instant_it_names() -> None:
    """What hands and timers do later, as far as the story had to go to be sure, is not shown in it."""
    relays = (
        "harness\n"
        "    relay long coil off_delay(door_wire, 10 s +- 10 %) supply plus\n"
        "    relay short coil off_delay(door_wire, from 8 s to 15 s) supply plus\n"
    )
    part = verdict("", "    damage a never long and not short for longer than 2 s\n", relays)
    assert part.sentence == "Unbroken since 10 s, and so for longer than 2 s: long and not short."
    assert part.shown is not None
    assert part.shown.table.columns[-2:] == ("10 s", "just after 12 s")
    copper, timers = ({row.name: row.cells for row in group.rows} for group in part.shown.table.groups[1:])
    assert copper["long"][1:] == ("closed", "", "", "")
    assert copper["short"][-2:] == ("open", "")
    assert timers["long"][-2:] == ("", "")
    assert [cause.sentence.split(" because")[0] for cause in part.shown.causes] == [
        "long is closed",
        "short is open",
        "door_wire is not live",
    ]


def test_an_instant_is_shown_as_one() -> None:
    """`even for an instant` ends in the reaction in which it happens, not in the settled one."""
    rules = "    rule fresh = key_on and not previous(key_on)\n    output pump when fresh\n"
    part = verdict(rules, "    danger a never pump even for an instant\n")
    assert part.shown is not None
    assert part.shown.table.columns[-1] == "1 h, for an instant"
    assert rows(part.shown.table)["pump"][-1] == "on"


def test_a_timer_run_within_its_tolerance_is_shown() -> None:
    """The duration that the story needs stands in the row of the timer."""
    rules = "    output pump when off_delay(key_on, 10 s +- 10 %)\n"
    part = verdict(rules, "    damage a never pump while key is off for longer than 10.5 s\n")
    assert part.shown is not None
    assert part.shown.table.groups[-1].title == "timers"
    (cell,) = filter(None, rows(part.shown.table)["pump"])
    assert cell.startswith("runs 1")


def test_one_story_is_shown_once() -> None:
    """Two requirements with the same story: the second refers to the first."""
    found = report(PUMP, "    danger a never pump while key is off\n    danger b never key is off while pump\n")
    first, second = found.verdicts
    assert (first.shown is None) != (second.shown is None) or first.shown is not None
    assert second.shown is None
    assert second.remarks == ("The story is the one shown for a.",)


def test_one_story_that_shows_two_things_is_shown_twice() -> None:
    """What hands do is the same; what is seen of it in another output, or for an instant, is not."""
    rules = PUMP + "    output fan when rises(key_on)\n    output lamp when key_on\n"
    requirements = (
        "    danger a never pump while key is off\n"
        "    danger b never lamp\n"
        "    danger c never fan even for an instant\n"
        "    danger d never pump\n"
    )
    parts = {part.name: part for part in report(rules, requirements).verdicts}
    for name, asked, last in (("b", "lamp", "1 h"), ("c", "fan", "1 h, for an instant"), ("d", "pump", "1 h")):
        shown = parts[name].shown
        assert shown is not None
        assert rows(shown.table)[asked] == ("off", "on")
        assert shown.table.columns[-1] == last


def test_worst_first() -> None:
    """Danger before damage before function, and what fails before what holds."""
    requirements = (
        "    danger holds never pump and not pump\n"
        "    function second never pump while key is off\n"
        "    danger worst never pump while key is run\n"
    )
    assert [part.name for part in report(PUMP, requirements).verdicts] == ["worst", "second", "holds"]


def test_what_contradicts_itself_is_named_with_its_lines() -> None:
    """No verdict is green or red, and the lines stand where they can be found."""
    found = report(PUMP, "    danger a never pump while key is off\n", "given\n    never key is off\n")
    assert {part.kind for part in found.verdicts} == {Kind.BLOCKED}
    assert found.troubles[0].givens == (
        "at first key is off  [bench.circuit:5]",
        "never key is off  [bench.circuit:21]",
    )


def test_rules_that_chase_each_other_are_shown_round_by_round() -> None:
    """The story ends in the rounds that follow one another for ever."""
    found = report("    rule flip = not previous(flip)\n    output pump when flip\n", "    danger a never pump\n")
    trouble = found.troubles[0]
    assert trouble.title == "RULES OR RELAYS CHASE EACH OTHER FOR EVER"
    assert trouble.shown is not None
    assert trouble.shown.table.columns == ("at first, round 1", "at first, round 2")
    assert set(rows(trouble.shown.table)["flip"]) == {"on", "off"}
    cause = trouble.shown.causes[0]
    assert cause.sentence == "flip changes for ever:"
    assert cause.excerpt is not None
    assert cause.excerpt.lines[0].text == "    rule flip = not previous(flip)"
    assert found.notes[-1].endswith("--save stories")


def test_lines_are_those_of_the_file() -> None:
    """Number and text as in the user's editor."""
    part = verdict(PUMP, "    danger a never pump while key is off\n")
    assert part.place == "bench.circuit:19"
    assert part.shown is not None
    cause = part.shown.causes[0]
    assert cause.excerpt is not None
    assert cause.excerpt.lines == (
        Line(16, "    rule prime = one_shot(key_on, 3 s)", ((17, 38),)),
        Line(17, "    output pump when prime or cranking", ((21, 26),)),
    )


def test_what_let_something_change_is_shown() -> None:
    """What changes only while a motor runs: the motor has a row, though the requirement does not speak of it."""
    step = "world\n    step out | in\n    at first step is out\ngiven\n    step changes only while pump\n"
    moved = verdict("    output pump when key_on\n", "    danger a never step is in\n", step)
    assert moved.shown is not None
    assert rows(moved.shown.table) == {
        "key": ("off", "run", ""),
        "step": ("out", "", "in"),
        "pump": ("off", "on", ""),
    }
    still = verdict("    output pump when key_on\n", "    danger a never door is open\n", step)
    assert still.shown is not None
    assert "pump" not in rows(still.shown.table)


def test_a_box_that_never_wakes_is_told_of() -> None:
    """What never changes has no row; that the box has no power is said where it can matter, and only there."""
    rules = "    output pump when key_on\n"
    asked = "    function a door is open calls for pump no later than 1 s\n"
    asleep = "All along the box is without power."
    feed = "    wire box_feed from plus"
    text = f"{HEAD}{rules}requirements\n{asked}".replace(feed, f"{feed} when key is run")
    found = load_text(text, "bench.circuit")
    assert found.program is not None
    part = check_report(found.program, found.files, check_program(found.program)).verdicts[0]
    assert part.shown is not None
    assert asleep in part.shown.remarks
    awake = verdict(rules, asked)
    assert awake.shown is not None
    assert asleep not in awake.shown.remarks


def test_two_things_at_one_instant_are_said_and_whether_it_takes_them() -> None:
    """The door opens in the very moment in which the pump's run ends: nothing else would do."""
    rules = PUMP + "    output lamp when one_shot(door_open, 3 s)\n"
    part = verdict(rules, "    danger a never falls(prime) and rises(lamp)\n")
    assert part.shown is not None
    assert part.shown.remarks == (
        "At 4 s these fall on the very same instant: door, the end of timer prime.",
        "Without such a coincidence it cannot happen.",
        "Signals not involved, and not shown: 3.",
    )


def test_a_longer_story_without_a_coincidence() -> None:
    """The shortest story moves key and door together; one after the other they do as well, in one moment more."""
    part = verdict(PUMP, "    danger a never key is run and door is open\n")
    assert part.shown is not None
    assert part.shown.remarks[:2] == (
        "At 1 h these fall on the very same instant: door, key.",
        "It can also happen without any such coincidence, in a longer story. Its moments: 3.",
    )


def test_timers_that_fall_due_together_are_no_coincidence() -> None:
    """Both were started at once and last the same: that is how it is built."""
    rules = PUMP + "    output lamp when one_shot(key_on, 3 s)\n"
    part = verdict(rules, "    danger a never falls(prime) and falls(lamp)\n")
    assert part.shown is not None
    assert not [remark for remark in part.shown.remarks if "same instant" in remark]


HELD = "    output held when off_delay(key_on, 10 s +- 2 s)\n    output exact when off_delay(key_on, 10 s)\n"


def fixed(rules: str, requirement: str) -> list[str]:
    """What the story says of timers with one and the same time."""
    part = verdict(rules, requirement)
    assert part.shown is not None
    return [remark for remark in part.shown.remarks if "each timer" in remark]


def test_whether_one_time_for_each_timer_would_do() -> None:
    """As it is written; another one; or none, where the same timer has to be now shorter, now longer."""
    assert fixed(HELD, "    danger a never falls(held)\n") == [
        "It also happens when each timer always runs its nominal time: held 10 s."
    ]
    assert fixed(HELD, "    danger a never held and not key_on for longer than 10.5 s\n") == [
        "It also happens when each timer always runs one and the same time: held 11 s."
    ]
    rules = HELD + "    rule early = bistable(set exact and not held)\n"
    assert fixed(rules, "    danger a never early and held and not exact\n") == [
        "When each timer always runs one and the same time, it does not happen like this: held."
    ]
    assert not fixed(PUMP, "    danger a never falls(prime)\n")


def test_what_the_box_believes_is_said() -> None:
    """Where a requirement names senses or rules: beside its verdict, and in the limits, also of what is proved."""
    named = report(PUMP, "    danger a never prime and key_on\n    danger b never prime and not prime\n")
    part = named.verdicts[0]
    assert part.remarks == ("What counts here is what the box believes, whether it is so or not: prime, key_on.",)
    assert named.basis is not None
    assert named.basis.limits[-1] == ("These requirements speak of what the box believes, which need not be so: a, b.")
    rules, world = PUMP + "    sense revs from engine\n", "world\n    engine 0 .. 7000 rpm\n"
    number = report(rules, "    danger a never revs above 300 rpm and engine above 100 rpm\n", world).verdicts[0]
    assert number.remarks == ("What counts here is what the box believes, whether it is so or not: revs.",)
    real = report(PUMP, "    danger a never pump and key is run\n")
    assert real.verdicts[0].remarks == ()
    assert real.basis is not None
    assert not [limit for limit in real.basis.limits if "believes" in limit]


def test_what_chases_itself_only_by_coincidence() -> None:
    """A story that never settles is a story: whether it takes its coincidence is said of it, too."""
    rules = "    rule flip = {} and not previous(flip)\n    output pump when flip\n"
    both = report(rules.format("key_on and door_open"), "    danger a never pump\n").troubles[0]
    assert both.shown is not None
    assert both.shown.remarks[:2] == (
        "At 1 h these fall on the very same instant: door, key.",
        "It can also happen without any such coincidence, in a longer story. Its moments: 3.",
    )
    edges = "    rule at_once = rises(key_on) and rises(door_open)\n    rule flip = at_once xor previous(flip)\n"
    assert not report(edges + "    output pump when flip\n", "    danger a never pump\n").troubles


def test_time_that_stops_by_coincidence() -> None:
    """Key and door move together, by what is given; the one for too long, the other for too short."""
    given = (
        "given\n    never door is open xor key is run\n    door is open lasts at least 60 s\n"
        "    key is run lasts at most 40 s\n"
    )
    found = report(PUMP, "    danger a never pump while key is off\n", given)
    assert [trouble.title for trouble in found.troubles] == ["WHAT IS GIVEN BRINGS TIME TO A STOP"]
    shown = found.troubles[0].shown
    assert shown is not None
    assert shown.remarks[:2] == (
        "At 1 s these fall on the very same instant: door, key.",
        "Without such a coincidence it cannot happen.",
    )
