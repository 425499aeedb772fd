"""A story as a scenario file: text that a person can read and change, and that `play` plays again on any machine."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logiccheck.base.frozen import frozen
from logiccheck.base.units import show_quantity
from logiccheck.base.version import LANGUAGE
from logiccheck.engine.verdict import Check, Kind, Verdict
from logiccheck.lang.program import Edge, Expr, Never, Previous, Program
from logiccheck.lang.walk import subexpressions
from logiccheck.model.interpreter import Machine
from logiccheck.model.story import Step, Story
from logiccheck.report.durations import written
from logiccheck.report.excerpt import as_written
from logiccheck.report.plain import printable, typed
from logiccheck.report.values import things

EXPLAINED = """\
# {title}
# {text}
# A story that logiccheck found in {file}. Play it again, also after changing it or the rules:
#   logiccheck play {typed} --scenario-file """


@frozen
class Saved:
    """A file to write: its name, without a folder, and its text before and after the place where it says its path."""

    name: str
    before: str
    after: str

    def text(self, path: str) -> str:
        """The whole text of the file at `path`, with `/` between folders."""
        return f"{self.before}{typed(path)}{self.after}"


def saved(program: Program, check: Check, files: Mapping[str, str]) -> tuple[Saved, ...]:
    """One file for each story that a verdict or an obstacle has."""
    found = [_verdict(program, verdict, files) for verdict in check.verdicts if verdict.story is not None]
    for number, trouble in enumerate(check.troubles, start=1):
        if trouble.story is not None:
            name = f"{trouble.obstacle.value.replace(' ', '_')}_{number}"
            found.append(
                kept_story(program, trouble.story, name, f"How it comes to this: {trouble.obstacle.value}", "", files)
            )
    return tuple(found)


def _verdict(program: Program, verdict: Verdict, files: Mapping[str, str]) -> Saved:
    assert verdict.story is not None
    requirement = verdict.requirement
    fails = verdict.kind is Kind.FAILS
    title = f"How {requirement.name} {'fails' if fails else 'can happen'}: {requirement.label or requirement.name}"
    form = requirement.form
    wanted = _wanted(form, files) if fails and not verdict.builtin and isinstance(form, Never) else ""
    return kept_story(program, verdict.story, requirement.name, title, requirement.text, files, wanted)


def _wanted(form: Never, files: Mapping[str, str]) -> str:
    """What the end of the story would have to be like: met once the rules are mended. Nothing where an instant counts,
    or what looks back at the moment before: scenarios expect what is settled.
    """
    parts: list[Expr] = [form.p] if form.r is None else [form.p, form.r]
    if form.instant or any(isinstance(each, Edge | Previous) for part in parts for each in subexpressions(part)):
        return ""
    return f"not ({' and '.join(f'({as_written(part, files)})' for part in parts)})"


def kept_story(
    program: Program, story: Story, name: str, title: str, text: str, files: Mapping[str, str], wanted: str = ""
) -> Saved:
    """One story as a file of this name, without its ending; `title` and `text` say what it is, `wanted` is expected at
    its end."""
    file = printable(next(iter(files)))
    head = EXPLAINED.format(title=title, text=text, file=file, typed=typed(file)).replace("# \n", "")
    lines = ["", "", f"scenario {free(program, name, '_story')}", *_lines(program, story)]
    end = story.steps[-1].time
    if wanted:
        lines.append(f"    at {written(end)}  expect {wanted}")
    lines.append(f"    until {written(end)}")
    return Saved(f"{name}.circuit", f"language {LANGUAGE}\n\n{head}", "\n".join(lines) + "\n")


def free(program: Program, name: str, ending: str) -> str:
    """A name for the scenario that the vehicle has not given to anything; `ending` is put to it until that is so."""
    taken = {thing.name for thing in things(program)} | {requirement.name for requirement in program.requirements}
    taken |= {load.name for load in program.loads} | {scenario.name for scenario in program.scenarios}
    while name in taken:
        name += ending
    return name


def _lines(program: Program, story: Story) -> Iterator[str]:
    """What hands do at each step, and every timer run that does not last its nominal time."""
    windows = Machine(program).windows
    before: Step | None = None
    for step in story.steps:
        if new := facts(program, step, before):
            yield f"    {'at first' if step.time == 0 else f'at {written(step.time)}'}  {', '.join(new)}"
        before = step
    for run in story.runs:
        if run.key in windows and run.duration != windows[run.key].nominal:
            key = run.key if run.key.isidentifier() else f'"{run.key}"'
            yield f"    at {written(run.start)}  {key} lasts {written(run.duration)}"


def facts(program: Program, step: Step, before: Step | None) -> list[str]:
    """The facts of the world that are new in this step."""
    old = dict(before.world) if before is not None else {}
    positions = {switch.name: switch.positions for switch in program.switches}
    units = {number.name: number.unit for number in program.numbers}
    found = []
    for name, value in step.world:
        if old.get(name) != value:
            said = positions[name][int(value)] if name in positions else show_quantity(value, units[name])
            found.append(f"{name} is {said}")
    return found
