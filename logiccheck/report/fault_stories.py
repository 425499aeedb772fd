"""Stories of vehicles with faults, in one line and whole, each told of the vehicle that has just these faults."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logiccheck.copper.faults.asked import shown as showing
from logiccheck.copper.faults.changed import read_as, together
from logiccheck.copper.faults.parts import Fault, PartKind, When
from logiccheck.lang.program import And, Form, Never, Or, Program, Requirement, Signal, SignalKind, TellTale
from logiccheck.lang.reading import SourceFile
from logiccheck.lang.walk import timer_windows
from logiccheck.model.story import Story
from logiccheck.report import words_faults as words
from logiccheck.report.basis import texts
from logiccheck.report.happenings import happenings
from logiccheck.report.report import Group, Table, WhySection
from logiccheck.report.stories import replay, shown
from logiccheck.report.values import things


class FaultStories:
    """Numbers the stories that are shown whole, from 1 on, and keeps them in `sections`; none without `whole`."""

    def __init__(self, program: Program, sources: Sequence[SourceFile], whole: bool) -> None:
        self.program, self.whole, self.files = program, whole, texts(sources)
        self.sections: list[WhySection] = []
        self._vehicles: dict[tuple[tuple[str, ...], When], Program] = {}

    def failing(
        self, requirement: Requirement, faults: tuple[Fault, ...], when: When, story: Story | None, told: str
    ) -> tuple[int, str]:
        """The number of the story where it is shown whole, else 0; and the story in one line. `told`: when the faults
        are there; nothing where it is not to be shown whole."""
        if story is None:
            return 0, words.NO_LONGER
        vehicle = self._vehicle(faults, when)
        otherwise = {fault.id: words.comes_and_goes(fault.id) for fault in faults}
        line = "; ".join(happenings(vehicle, vehicle, story, otherwise))
        if not (self.whole and told):
            return 0, line
        form = next((each.form for each in vehicle.requirements if each.name == requirement.name), _shorted(vehicle))
        title = words.story_title(len(self.sections) + 1, requirement.name, " and ".join(otherwise), told)
        return self._kept(title, vehicle, story, form, faults, when), line

    def hiding(self, fault: Fault, when: When, story: Story, by: TellTale, told: str) -> int:
        """The number of the whole story in which that tell-tale does not show the fault, which is there as `told`."""
        asked = showing(1, by).of(fault)
        vehicle = together(replace(self.program, requirements=(asked,)), (fault,), when)
        title = words.hiding_title(len(self.sections) + 1, fault.id, told, by.label or by.text)
        return self._kept(title, vehicle, story, vehicle.requirements[0].form, (fault,), when)

    def _kept(
        self, title: str, vehicle: Program, story: Story, form: Form, faults: tuple[Fault, ...], when: When
    ) -> int:
        whole = shown(vehicle, replay(vehicle, story, form), [fault.id for fault in faults], self.files)
        self.sections.append(WhySection(title, table=self._own(whole.table, faults, when)))
        return len(self.sections)

    def _vehicle(self, faults: tuple[Fault, ...], when: When) -> Program:
        key = (tuple(fault.id for fault in faults), when)
        if key not in self._vehicles:
            self._vehicles[key] = together(self.program, faults, when)
        return self._vehicles[key]

    def _own(self, table: Table, faults: tuple[Fault, ...], when: When) -> Table:
        """The rows of what the user wrote, and of the faults; but not of what they make read otherwise than its line
        says."""
        broken = {fault.id for fault in faults}
        known = {thing.name for thing in things(self.program)} | timer_windows(self.program).keys()
        known -= {name for _, name in read_as(self.program, faults, when)}
        known -= {fault.of for fault in faults if fault.kind is PartKind.NUMBER}
        rows = tuple(row for group in table.groups for row in group.rows if row.name in broken)
        groups = (replace(each, rows=tuple(row for row in each.rows if row.name in known)) for each in table.groups)
        return replace(table, groups=(Group(words.FAULTS, rows), *(each for each in groups if each.rows)))


def _shorted(program: Program) -> Never:
    """No wire is live and grounded: what is asked of every vehicle, of all its wires."""
    both = (And((Signal(SignalKind.LIVE, wire.name), Signal(SignalKind.GROUNDED, wire.name))) for wire in program.wires)
    return Never(Or(tuple(both)), None, always=False, instant=False)
