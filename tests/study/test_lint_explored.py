"""Findings about what never changes, what is alike and what has no end, held against exploring random small vehicles."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.finding import Finding
from logiccheck.explain.inside import POWERED
from logiccheck.explain.surveyed.alike import alike, outputs_alike
from logiccheck.explain.surveyed.held import held_for_ever
from logiccheck.explain.surveyed.idle import difference, never_so
from logiccheck.explain.surveyed.leading import Lines
from logiccheck.explain.surveyed.parked import endless, told_elsewhere
from logiccheck.explain.surveyed.steady import changeless, live_at_first, steady
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    And,
    ChangesOnlyWhile,
    Load,
    Output,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    WireSense,
    WorldSet,
)
from logiccheck.lang.walk import Memory, condition_of, references, timer_windows
from logiccheck.model.judge import broken
from logiccheck.model.memory import Time
from logiccheck.model.play import first_world, play, play_story
from logiccheck.model.reaction import World
from logiccheck.model.timeline import Played
from logiccheck.study.findings import SITUATIONS
from tests.campaign import seeds
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.making import Making
from tests.oracle.obstacles import never_settles, time_stops
from tests.oracle.programs import random_program
from tests.study.explored_lines import Everything, signal, stays_on
from tests.study.random_lines import random_lines

LIMIT = 500
MINE = {message.code: find for message, find in SITUATIONS if "W120" <= message.code <= "W139"}
SHORT = range(40)


class Held:
    """The findings of one vehicle, held against all of its reactions."""

    def __init__(self, program: Program, everything: Everything) -> None:
        self.program, self.all = program, everything
        self.survey = Survey(program, Budget(120.0))
        self.constant = live_at_first(program)
        self.findings: list[Finding] = [each for find in MINE.values() for each in find(program, self.survey)]

    def complaints(self) -> Iterator[str]:
        yield from self.about_changes()
        yield from self.about_terms()
        yield from self.about_alike()
        yield from self.about_pairs()
        yield from self.about_relays()
        yield from self.about_parking()
        yield from self.about_flicker()
        yield from self.about_stories()

    # ------------------------------------------------------------------------------------- what never changes

    def about_changes(self) -> Iterator[str]:
        found = {each.name: each for each in changeless(self.survey) if not isinstance(each.item, Memory)}
        for name, due in self.changes().items():
            said = found[name].change.value if name in found else ""
            if said != due:
                yield f"{name} is said to be {said!r}, and is {due!r}"
        for root in steady(self.survey):
            for name, value in root.follow:
                if found[name].value != value:
                    yield f"{name} follows from {root.name} as {value}"

    def changes(self) -> dict[str, str]:
        """What each thing is always, by its name; empty for what changes."""
        box = self.program.box
        items: list[Relay | Load | WireSense | Rule | Output] = [*self.program.relays, *self.program.loads]
        if box is not None:
            items += [*box.rules, *(each for each in box.senses if isinstance(each, WireSense))]
        due = {each.name: self.change(each) for each in items}
        if box is not None:
            due["powered"] = "" if self.all.ever(POWERED, passing=True) else "never"
            while meant := [rule.name for rule in box.rules if due[rule.name] == "always" and self.meant(rule, due)]:
                due |= dict.fromkeys(meant, "awake")
        return due

    @staticmethod
    def meant(rule: Rule | Output, due: dict[str, str]) -> bool:
        """Its line names nothing but what is on whenever the box is awake."""
        line = condition_of(rule)
        parts = line.parts if isinstance(line, And) else (line,)
        return all(isinstance(part, Signal) and due.get(part.name) == "awake" for part in parts)

    def change(self, item: Relay | Load | WireSense | Rule | Output) -> str:
        on = signal(item)
        if not self.all.ever(on):
            if not self.all.ever(on, passing=True):
                return "never"
            return "instant" if isinstance(item, Output | Relay | Load) else ""
        while_ = self.constant if isinstance(item, Relay) else (POWERED,)
        if isinstance(item, Load) or self.all.off(item, while_):
            return ""
        items = Names(self.program).matter([POWERED]).items
        kind = SignalKind.OUTPUT if isinstance(item, Output) else SignalKind.RULE
        match item:
            case WireSense(wire=wire, grounded=grounded):
                state = Signal(SignalKind.GROUNDED if grounded else SignalKind.LIVE, wire)
                told = all(each.holds(state) for each in self.all.settled if all(map(each.holds, self.constant)))
            case Rule():
                told = not self.all.off(item, while_, passing=True) and (kind.value, item.name) not in items
            case Output():
                told = (kind.value, item.name) not in items
            case _:
                told = True
        return "always" if told else "awake"

    # -------------------------------------------------------------------------------------------------- terms

    def about_terms(self) -> Iterator[str]:
        lines = Lines(self.program)
        idle = set()
        for part in (*lines.parts, *lines.coils):
            for term in lines.terms(part):
                differs = difference(lines, term)
                if differs is None:
                    continue
                matters = self.all.matters(part.line, term.leaf)
                if not matters:
                    idle.add(part.line)
                if never_so(self.survey, *differs) == matters:
                    yield f"in {part.line} {term.leaf} matters: {matters}"
        for finding in self.findings:
            if finding.message.code == "W120" and finding.signals[0] not in idle:
                yield f"nothing is idle in {finding.signals[0]}"

    # -------------------------------------------------------------------------------------------------- alike

    def about_alike(self) -> Iterator[str]:
        box = self.program.box
        if box is None:
            return
        still = {name for each in steady(self.survey) for name in each.names}
        groups = [{each.name for each in group} for group in (*alike(self.survey), *outputs_alike(self.survey))]
        names = {each.name for each in box.rules if isinstance(each, Rule) and self.renames(each)}
        written = {each.name for group in groups for each in box.outputs if each.name in group}
        for kind in (Rule, WireSense, Output):
            those = [each for each in (*box.senses, *box.rules) if isinstance(each, kind)]
            for one, two in combinations(those, 2):
                same = not self.all.apart(signal(one), signal(two))
                together = any({one.name, two.name} <= group for group in groups)
                if together and not same:
                    yield f"{one.name} and {two.name} are not alike"
                meant = bool({one.name, two.name} & (still | names)) or (kind is Output and one.name not in written)
                if same and not together and not meant:
                    yield f"{one.name} and {two.name} are alike"

    @staticmethod
    def renames(rule: Rule) -> bool:
        return isinstance(rule.expr, Signal) and rule.expr.kind in (SignalKind.RULE, SignalKind.COMMAND)

    # ------------------------------------------------------------------------------------ pairs, relays, parking

    def about_pairs(self) -> Iterator[str]:
        outputs = self.program.box.outputs if self.program.box is not None else ()
        movers = {leaf.name for g in self.program.givens if isinstance(g, ChangesOnlyWhile) for leaf in references(g.y)}
        for one, two in combinations(outputs, 2):
            both = self.all.ever(signal(one), signal(two))
            pair = (one.name, two.name)
            due = {"W130"} if both and {*pair} <= movers else set()
            due |= {"W131"} if both and one.feeds is not None and one.feeds == two.feeds else set()
            said = {each.message.code for each in self.findings if {*each.signals} == {*pair}} & {"W130", "W131"}
            if said != due:
                yield f"{pair}: found {said}, due {due}"

    def about_relays(self) -> Iterator[str]:
        still = {name for each in steady(self.survey) for name in each.names}
        found = {relay.name for relay in held_for_ever(self.survey)}
        for relay in self.program.relays:
            due = self.all.ever(signal(relay)) and not self.all.drops(relay, self.constant)
            if relay.name not in still and due != (relay.name in found):
                yield f"{relay.name} is held for ever: {due}"

    def about_parking(self) -> Iterator[str]:
        long = 2 * sum(window.hi for window in timer_windows(self.program).values())
        start = play(self.program, (), (), long, first_world(self.program, {}, self.program.at_first))
        items = self.switched()
        silent, names = told_elsewhere(self.program, self.survey), Names(self.program)
        asked = [
            each
            for each in items
            if not start.settled[-1].moment.settled.holds(signal(each))
            and not names.matter([signal(each)]).items & silent
        ]
        due = stays_on(self.program, asked, LIMIT)
        found = {item.name for each in endless(self.program, self.survey) for item in each.items}
        if found != due:
            yield f"on without an end: found {sorted(found)}, due {sorted(due)}"

    def about_flicker(self) -> Iterator[str]:
        """What flickers in a story played at random has to be found, unless something that it hangs on is."""
        found = {each.signals[0] for each in self.findings if each.message.code == "W128"}
        items = self.switched()
        names = Names(self.program)
        for number in range(6 if any(window.lo < 200_000 for window in timer_windows(self.program).values()) else 0):
            played = restless(self.program, Random(number))
            for item in items:
                behind = {name for _, name in names.matter([signal(item)]).items} | {item.name}
                if not behind & found and any(map(fast, triples(changes(played, signal(item))))):
                    yield f"{item.name} flickers"

    # ------------------------------------------------------------------------------------------------ stories

    def about_stories(self) -> Iterator[str]:
        for finding in self.findings:
            if finding.message.code == "W128":
                assert finding.story is not None
                if not self.flickers(finding):
                    yield f"{finding.signals[0]} does not flicker in its story"
            elif finding.message.code in ("W123", "W129", "W130", "W131", "W132") and finding.story is None:
                yield f"{finding.message.name} of {finding.signals} has no story"

    def switched(self) -> list[Output | Relay]:
        return [*(self.program.box.outputs if self.program.box is not None else ()), *self.program.relays]

    def flickers(self, finding: Finding) -> bool:
        """The last three changes are fast, and the world is as it was before the first of them."""
        assert finding.story is not None
        items = self.switched()
        on = next(signal(each) for each in items if each.name == finding.signals[0])
        last = changes(play_story(self.program, finding.story).settled, on)[-3:]
        return len(last) == 3 and fast((last[0], last[1], last[2]))


Flip = tuple[World, World, Time]  # the world just before it, that from it on, and when


def changes(played: tuple[Played, ...], on: Signal) -> list[Flip]:
    """Each change of the signal."""
    return [
        (one.world, two.world, two.time)
        for one, two in pairwise(played)
        if one.moment.settled.holds(on) != two.moment.settled.holds(on)
    ]


def triples(flips: list[Flip]) -> Iterator[tuple[Flip, Flip, Flip]]:
    """Each change with the two after it."""
    return zip(flips, flips[1:], flips[2:], strict=False)


def fast(three: tuple[Flip, Flip, Flip]) -> bool:
    """Each of them comes less than 100 ms after the one before, and the world is the same all the while."""
    worlds = [dict(world) for one, two, _ in three for world in (one, two)]
    return all(two - one < 100_000 for one, two in pairwise(time for _, _, time in three)) and all(
        world == worlds[0] for world in worlds
    )


def restless(program: Program, random: Random) -> tuple[Played, ...]:
    """What comes of moving hands at random for two seconds; nothing where what is given is not kept to."""
    moved = []
    for _ in range(8):
        switch = random.choice(program.switches)
        moved.append(WorldSet(random.randrange(200) * 10_000, switch.name, random.randrange(len(switch.positions))))
    timeline = play(program, moved, (), 2_000_000, first_world(program, {}, program.at_first))
    return () if broken(timeline) else timeline.settled


def held(mix: Counter[str], name: str, text: str) -> list[str]:
    """What is wrong with the findings in one vehicle; `mix` counts them."""
    program = replace(loaded(text), requirements=(), scenarios=())
    try:
        making = Making()
        if never_settles(program, LIMIT, making) or time_stops(program, LIMIT, making):
            mix["in the way"] += 1
            return []
        everything = Everything(program, LIMIT)
        case = Held(program, everything)
        wrong = list(case.complaints())
    except TooBig:
        mix["too big"] += 1
        return []
    mix["vehicles"] += 1
    mix.update(each.message.code for each in case.findings)
    if case.survey.undecided:
        mix["open"] += case.survey.undecided
        return []
    return [f"{name}: {line}" for line in wrong]


def vehicle(seed: int) -> str:
    """Four of five are made for these findings, and of these some for a box that never wakes; the others for
    everything else."""
    return random_program(seed).text if seed % 5 == 0 else random_lines(seed, asleep=seed % 50 == 1)


def compared(numbers: range, capsys: pytest.CaptureFixture[str]) -> Counter[str]:
    """One vehicle for each seed."""
    mix: Counter[str] = Counter()
    wrong = [line for seed in numbers for line in held(mix, str(seed), vehicle(seed))]
    with capsys.disabled():
        print(f"\n{dict(sorted(mix.items()))}")
    assert not wrong, "\n".join(wrong)
    return mix


def test_findings_agree_with_the_explorer(capsys: pytest.CaptureFixture[str]) -> None:
    """What never changes, is alike, or has no end is so in all reactions; and what is so is found."""
    mix = compared(SHORT, capsys)
    assert mix["vehicles"] > 30
    assert not mix["open"]


@pytest.mark.campaign
def test_findings_agree_with_the_explorer_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many seeds as CAMPAIGN_COUNT says."""
    compared(seeds(), capsys)
