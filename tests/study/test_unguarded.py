"""What becomes of small edits: noticed, without effect, or nobody would notice, with what would have noticed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import pytest

from logiccheck.engine.check import check_program
from logiccheck.explain.edit import edited
from logiccheck.explain.guarding.deciding import NoEffect, Unnoticed
from logiccheck.explain.guarding.guarding import Guarded, Tried, guard
from logiccheck.explain.guarding.noticing import Noticed
from logiccheck.explain.guarding.small import Does
from logiccheck.explain.guarding.suggesting import Suggested, Suggesting
from logiccheck.explain.guarding.unlike import Difference
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Program
from tests.calling import EXAMPLES

FILE = "test.circuit"
VEHICLE = """\
vehicle "Bench"
world
    a contact
    b contact
    key off | run | start one by one
    n 0 .. 100 rpm
    at first a is off, b is off, key is off, n is 0 rpm
harness
    source plus
    wire a_wire from plus when a
    wire b_wire from plus when b
    wire wake
    diode a_wire -> wake
    diode b_wire -> wake
    relay hold coil off_delay(wake, 4 min +- 10 %) supply plus
    wire feed from plus when hold
{harness}
controller "Box" powered by {feed}
    sense a_on from a_wire live
    sense b_on from b_wire live
    sense v from n
{box}
requirements
    function asked {asked}
"""


@dataclass(frozen=True)
class Bench:
    """A vehicle with these lines, and what became of the edits of all its lines."""

    text: str
    guarded: Guarded

    def of(self, does: Does, line: str) -> Tried:
        """What became of the edit that makes this line."""
        found = [t for t in self.guarded.tried if t.small.does is does and line in _lines(t, self.text)]
        assert len(found) == 1, (line, [_lines(t, self.text) for t in self.guarded.tried if t.small.does is does])
        return found[0]


def _lines(tried: Tried, text: str) -> list[str]:
    after = edited(tried.small.edit, {FILE: text}).files[FILE]
    return [" ".join(line.split()) for line in after.splitlines() if line not in text.splitlines()]


def bench(box: str, asked: str, harness: str = "", feed: str = "plus", names: tuple[str, ...] = ()) -> Bench:
    indented = [str.join("\n", (f"    {line}" for line in each.splitlines())) for each in (box, harness)]
    text = VEHICLE.format(box=indented[0], harness=indented[1], feed=feed, asked=asked)
    return Bench(text, guarded_text(text, names))


def guarded_text(text: str, names: tuple[str, ...] = ()) -> Guarded:
    loaded = load_text(text, FILE)
    assert loaded.program is not None, [each.sentence for each in loaded.diagnostics]
    found = check_program(loaded.program, 10)
    guarded = guard(loaded.program, FILE, {FILE: text}, found, names, 10, lambda _: None)
    assert guarded.bugs == ()
    return guarded


def suggestion(tried: Tried) -> str:
    assert isinstance(tried.decision, Unnoticed), tried
    assert tried.suggested is not None
    return tried.suggested.text


# --------------------------------------------------------------------------------------------------------- decisions


def test_noticed() -> None:
    """By the requirement that fails then."""
    on = bench("output lamp when a_on and b_on", "never lamp while not b", names=("lamp",))
    assert on.of(Does.DROPS, "output lamp when a_on").decision == Noticed("asked")
    assert on.of(Does.WORD, "output lamp when a_on or b_on").decision == Noticed("asked")


def test_noticed_without_a_case() -> None:
    """An output that can no longer be on leaves its requirement without a case."""
    on = bench("output lamp when a_on and v above 3 rpm", "never lamp while not a", names=("lamp",))
    assert on.of(Does.INVERTS, "sense a_on from a_wire grounded").decision == Noticed("asked")


def test_noticed_by_what_has_no_case_yet() -> None:
    """It fails then; an edit after which it still has no case is not noticed by it."""
    on = bench("output lamp when a_on and not a_on and b_on\noutput horn when b_on", "never lamp")
    assert on.of(Does.DROPS, "output lamp when a_on and b_on").decision == Noticed("asked")
    assert on.of(Does.DROPS, "output lamp when a_on and not a_on").decision == NoEffect()
    assert isinstance(on.of(Does.INVERTS, "output horn when not b_on").decision, Unnoticed)
    assert isinstance(on.of(Does.INVERTS, "sense b_on from b_wire grounded").decision, Unnoticed)


def test_noticed_by_what_is_asked_of_every_vehicle() -> None:
    """What never comes to rest."""
    rules = "rule tick = previous(tock)\nrule tock = a_on and not tick and false\noutput lamp when tock or a_on"
    on = bench(rules, "never lamp while not a", names=("lamp",))
    assert on.of(Does.DROPS, "rule tock = a_on and not tick").decision == Noticed("all comes to rest")


def test_a_term_without_effect() -> None:
    """What another term says already; what is stored says already; what only another road leads to."""
    on = bench("output lamp when a_on and (a_on or b_on)", "possible lamp", names=("lamp",))
    assert on.of(Does.DROPS, "output lamp when a_on").decision == NoEffect()
    on = bench("rule kept = bistable(set a_on)\noutput lamp when kept or a_on", "possible lamp", names=("lamp",))
    assert on.of(Does.DROPS, "output lamp when kept").decision == NoEffect()
    assert isinstance(on.of(Does.DROPS, "output lamp when a_on").decision, Unnoticed)


def test_a_timer_with_a_tolerance() -> None:
    """Where its operand never differs it may be taken as the same one in both, whatever its runs last; else not."""
    rules = "rule late = on_delay(a_on and (a_on or b_on), 4 s +- 10 %)\noutput lamp when late and not b_on"
    on = bench(rules, "possible lamp", names=("lamp",))
    assert on.of(Does.DROPS, "rule late = on_delay(a_on, 4 s +- 10 %)").decision == NoEffect()
    found = on.of(Does.WORD, "rule late = on_delay(a_on or (a_on or b_on), 4 s +- 10 %)").decision
    assert isinstance(found, Unnoticed)  # it has run already when b goes off and a comes on
    assert found.difference.off == ("lamp",)
    rules = "rule late = on_delay(a_on and b_on, 4 s +- 10 %)\noutput lamp when late"
    on = bench(rules, "possible lamp", names=("lamp",))
    found = on.of(Does.DROPS, "rule late = on_delay(a_on, 4 s +- 10 %)").decision
    assert isinstance(found, Unnoticed)
    assert found.difference.off == ("lamp",)


def test_the_power_differs() -> None:
    """Then all that the box does differs, too, and is told; where it never does both are on the same power."""
    harness = "wire supply_wire from plus when a or b"
    on = bench("output lamp when b_on", "possible lamp", harness, "supply_wire")
    found = on.of(Does.DROPS, "wire supply_wire from plus when a").decision
    assert isinstance(found, Unnoticed)
    assert found.difference.on == ("powered", "lamp")
    harness = "wire supply_wire from plus when a or a and b"
    on = bench("output lamp when b_on", "possible lamp", harness, "supply_wire")
    assert on.of(Does.DROPS, "wire supply_wire from plus when a").decision == NoEffect()


def test_what_is_given_names_the_power() -> None:
    """It is that of both: what feeds the box never differs."""
    harness = "wire supply_wire from plus when a or a and b"
    asked = "possible lamp\ngiven\n    b changes only while powered"
    on = bench("output lamp when b_on", asked, harness, "supply_wire")
    assert on.of(Does.DROPS, "wire supply_wire from plus when a").decision == NoEffect()


def test_a_load_alone() -> None:
    """What hangs on a wire, and on no output."""
    harness = "wire lit from plus when a and b\nload lantern on lit"
    on = bench("output lamp when a_on", "possible lamp", harness, names=("lantern",))
    found = on.of(Does.DROPS, "wire lit from plus when b").decision
    assert isinstance(found, Unnoticed)
    assert found.difference.off == ("lantern",)


def test_nothing_hangs_on_it() -> None:
    """A rule that leads nowhere."""
    on = bench("rule idle = a_on and b_on\noutput lamp when a_on", "possible lamp")
    assert on.of(Does.DROPS, "rule idle = a_on").decision == NoEffect()


def test_the_shortest_story() -> None:
    """It ends where an output, a relay or a load first comes to rest otherwise."""
    on = bench("output lamp when a_on and v above 3 rpm", "never lamp while not a", names=("lamp",))
    found = on.of(Does.DROPS, "output lamp when a_on").decision
    assert isinstance(found, Unnoticed)
    assert found.shortest
    assert (found.difference.on, found.difference.off) == ((), ("lamp",))
    assert len(found.difference.story.steps) == 2
    on = bench("output lamp when on_delay(a_on, 3 s)", "never lamp while not a", names=("lamp",))
    found = on.of(Does.HALF, "output lamp when on_delay(a_on, 1.5 s)").decision
    assert isinstance(found, Unnoticed)
    assert [step.due for step in found.difference.story.steps] == [(), (), ()]
    assert found.difference.story.steps[2].time - found.difference.story.steps[1].time == 1_500_000


def test_only_lines_on_which_a_name_hangs() -> None:
    """Of two outputs."""
    on = bench("output lamp when a_on\noutput horn when b_on", "possible lamp and horn", names=("horn",))
    touched = {name for tried in on.guarded.tried for name in tried.small.names}
    assert touched == {"plus", "b_wire", "wake", "b_on", "horn"}  # a diode has two ends


# ------------------------------------------------------------------------------------------------------- suggestions


def test_while() -> None:
    """The fewest facts."""
    on = bench("output lamp when a_on and v above 3 rpm", "possible lamp", names=("lamp",))
    assert suggestion(on.of(Does.DROPS, "output lamp when a_on")) == "never lamp while n at most 3 rpm"
    assert suggestion(on.of(Does.DROPS, "output lamp when v above 3 rpm")) == "never lamp while not a"
    on = bench("output lamp when a_on or b_on", "possible lamp", names=("lamp",))
    assert (
        suggestion(on.of(Does.DROPS, "output lamp when a_on")) == "always lamp while b"
        or suggestion(on.of(Does.DROPS, "output lamp when a_on")) == "always lamp while a"
    )


def test_while_in_any_of_several_positions() -> None:
    """Rather where a switch is not than where it is."""
    harness = "wire key_wire from plus when key is start"
    on = bench("sense keyed from key_wire live\noutput lamp when keyed", "possible lamp", harness, names=("lamp",))
    assert suggestion(on.of(Does.DROPS, "wire key_wire from plus")) == "never lamp while key is not start"


def test_longer() -> None:
    """What goes on for ever."""
    on = bench("output lamp when a_on and not on_delay(a_on, 5 s)", "possible lamp", names=("lamp",))
    assert suggestion(on.of(Does.DROPS, "output lamp when a_on")) == "never lamp for longer than 5 s"


def test_only_after() -> None:
    """What comes too soon."""
    on = bench("output lamp when on_delay(a_on, 5 s)", "possible lamp", names=("lamp",))
    assert suggestion(on.of(Does.HALF, "output lamp when on_delay(a_on, 2.5 s)")) == (
        "lamp only after a has lasted 5 s"
    )


def test_lasting() -> None:
    """What ends too soon."""
    on = bench("output lamp when off_delay(a_on, 5 s) and not b_on", "possible lamp", names=("lamp",))
    text = suggestion(on.of(Does.HALF, "output lamp when off_delay(a_on, 2.5 s) and not b_on"))
    assert text == "a becomes off calls for lamp lasting 5 s, excused by b"


def test_waits() -> None:
    """What is no longer remembered."""
    rules = "rule stop = bistable(set a_on, reset b_on, set wins)\noutput lamp when v above 3 rpm and not stop"
    on = bench(rules, "never lamp while a", names=("lamp",))
    text = suggestion(on.of(Does.PLAIN, "rule stop = a_on"))
    assert text == "lamp waits for b after a"


def test_waits_from_the_start() -> None:
    """What can be on only once something has come."""
    on = bench("output lamp when bistable(set a_on, reset b_on)", "possible lamp", names=("lamp",))
    text = suggestion(on.of(Does.INVERTS, "output lamp when bistable(set not a_on, reset b_on)"))
    assert text == "lamp waits for a"
    rules = "rule kept = bistable(set v above 3 rpm)\noutput lamp when kept and (a_on or b_on)"
    on = bench(rules, "never lamp while not a and not b", names=("lamp",))
    assert suggestion(on.of(Does.DROPS, "output lamp when (a_on or b_on)")) == "lamp waits for n above 3 rpm"


def test_possible() -> None:
    """What can never be any more, although nothing says when it has to be."""
    on = bench("output lamp when impulse_relay(a_on) and a_on", "never lamp while not a", names=("lamp",))
    assert suggestion(on.of(Does.DROPS, "output lamp when a_on")) == "possible not lamp and a"


def test_suggested_for_a_later_edit(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is held against the edits before it, too, for which nothing was found."""
    suggest, calls = Suggesting.suggest, list[Difference]()

    def finds_nothing_at_first(
        self: Suggesting, files: Mapping[str, str], edited: Program, difference: Difference
    ) -> Suggested | None:
        calls.append(difference)
        return None if len(calls) == 1 else suggest(self, files, edited, difference)

    monkeypatch.setattr(Suggesting, "suggest", finds_nothing_at_first)
    on = bench("output lamp when a_on and v above 3 rpm", "possible lamp", names=("lamp",))
    first = next(tried for tried in on.guarded.tried if isinstance(tried.decision, Unnoticed))
    assert first.decision == Unnoticed(calls[0], shortest=True)
    assert suggestion(first) in [each.suggested.text for each in on.guarded.tried[1:] if each.suggested is not None]


def test_what_was_suggested_notices() -> None:
    """A second run, with all suggestions added, notices each edit for which there was one."""
    rules = "rule late = on_delay(a_on, 2 s)\noutput lamp when late and v above 3 rpm or b_on\noutput horn when a_on xor b_on"
    on = bench(rules, "possible lamp and horn", names=("lamp", "horn"))
    again(on.text, on.guarded, ("lamp", "horn"))


def again(text: str, guarded: Guarded, names: tuple[str, ...] = ()) -> None:
    found = {t.small: t.suggested for t in guarded.tried if t.suggested is not None}
    assert found
    texts = dict.fromkeys(each.text for each in found.values() if each is not None)
    added = "".join(f"    function more_{number} {each}\n" for number, each in enumerate(texts))
    after = {t.small: t.decision for t in guarded_text(f"{text}\nrequirements\n{added}", names).tried}
    assert all(isinstance(after[small], Noticed) for small in found)


@pytest.mark.slow
def test_what_was_suggested_notices_in_an_example() -> None:
    """The same of the first steps."""
    text = (EXAMPLES / "first-steps" / "van.circuit").read_text(encoding="utf-8")
    again(text, guarded_text(text))


# ------------------------------------------------------------------------------------------------------- interruptions


def test_interrupted() -> None:
    """What was found so far is told, and how much was not tried."""
    text = VEHICLE.format(box="    output lamp when a_on", harness="", feed="plus", asked="never lamp while not a")
    program = load_text(text, FILE).program
    assert program is not None
    said: list[str] = []

    def stops(what: str) -> None:
        said.append(what)
        if len(said) == 4:
            raise KeyboardInterrupt

    guarded = guard(program, FILE, {FILE: text}, check_program(program, 10), (), 10, stops)
    assert len(guarded.tried) == 3
    assert said[0] == f"edit 1 of {3 + guarded.left}"
    assert guarded.left > 0
    found = replace(check_program(program, 10), interrupted=True)
    nothing = guard(program, FILE, {FILE: text}, found, (), 10, said.append)
    assert (nothing.tried, nothing.left) == ((), 3 + guarded.left)
