"""Each example reads without a word of complaint, its scenarios hold, and its verdicts are those it promises."""

from __future__ import annotations

import pytest

from logiccheck.cli.main import main
from logiccheck.engine.check import check_program
from logiccheck.study.simulate import simulate
from tests.examples.reading import Example, examples, read

EXAMPLES = [pytest.param(example, id=example.name) for example in examples()]


@pytest.mark.parametrize("example", EXAMPLES)
def test_scenarios_hold(example: Example) -> None:
    """What a scenario of an example expects is so, and the scenario keeps to what is given."""
    program = read(example.file.read_text(encoding="utf-8"))
    assert program.scenarios
    for scenario in program.scenarios:
        played = simulate(program, scenario)
        assert [each.expectation.text for each in played.expectations if not each.held] == [], scenario.name
        assert played.held
        assert played.warnings == (), scenario.name
        assert played.unused == (), scenario.name


@pytest.mark.parametrize("example", EXAMPLES)
def test_verdicts_are_as_promised(example: Example) -> None:
    """`expected.toml` names every requirement with its verdict, and the length of the story where there is one."""
    program = read(example.file.read_text(encoding="utf-8"))
    check = check_program(program, seconds_each=120)
    assert check.troubles == ()
    found: dict[str, dict[str, object]] = {}
    for verdict in check.verdicts:
        found[verdict.requirement.name] = {"verdict": verdict.kind.value}
        if verdict.story is not None:
            found[verdict.requirement.name]["moments"] = verdict.story.moments
    assert found == example.expected["requirements"]


@pytest.mark.parametrize("example", EXAMPLES)
def test_the_command_ends_as_promised(example: Example) -> None:
    """`logiccheck check` on the file ends with the exit status of `expected.toml`."""
    assert main(["check", str(example.file)]) == example.expected["exit"]


@pytest.mark.parametrize("example", EXAMPLES)
def test_a_readme_says_what_it_is(example: Example) -> None:
    """Beside the file stands a README that names it and says what to try."""
    text = (example.file.parent / "README.md").read_text(encoding="utf-8")
    assert example.file.name in text
    assert "## What to try" in text
