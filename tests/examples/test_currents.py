"""What the examples draw: the clean ones fit, and each planted mistake of that kind is found, and gone when mended."""

from __future__ import annotations

from fractions import Fraction

import pytest

from logiccheck.base.budget import Budget
from logiccheck.cli.main import main
from logiccheck.copper.draws.fitting import unknown
from logiccheck.copper.sizing.sized import Fit
from logiccheck.explain.asking import Seen
from logiccheck.study.currents import Currents, currents
from tests.examples.reading import ROOT, read
from tests.examples.test_copper import FOLDER, MISTAKES, mended

MINE = sorted(name for name, mistake in MISTAKES.items() if mistake["command"] == "currents")
SECONDS = 120.0


def found(text: str) -> Currents:
    return currents(read(text), Budget(SECONDS), lambda _: None)


def failing(answer: Currents) -> set[str]:
    """What does not fit, or comes on too close to something."""
    names = {each.item.name for each in answer.fitted if any(check.fit is Fit.NOT for check in each.checks)}
    met = [pair.meet for pair in answer.pairs if isinstance(pair.answer, Seen)]
    return names | {meet.first.name for meet in met} | {meet.second.name for meet in met}


@pytest.mark.parametrize("name", MINE)
def test_a_planted_mistake_is_found(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """It is about the part that is wrong, in the numbers that are; nothing fails any more once it is mended."""
    path, mistake = FOLDER / f"{name}.circuit", MISTAKES[name]
    assert mistake["part"] in failing(found(path.read_text(encoding="utf-8")))
    assert failing(found(mended(path))) == set()
    capsys.readouterr()
    assert main(["currents", str(path)]) == 1
    said = capsys.readouterr().out.split("\nWhat fails\n")[1].split("\n\n")[0]
    assert mistake["part"] in said
    assert all(number in said for number in mistake["numbers"])


@pytest.mark.parametrize(
    ("example", "source", "most", "together"),
    [
        ("day-boat/boat", "plus", "46.92", "79.72"),
        ("first-steps/van", "plus", "14.4", "14.4"),
        ("relay-only/boat", "battery", "27.69", "28.69"),
    ],
)
def test_a_clean_example_fits(example: str, source: str, most: str, together: str) -> None:
    """The most at once, which is less than all together where something is never on with something else."""
    answer = found((ROOT / "examples" / f"{example}.circuit").read_text(encoding="utf-8"))
    given = {each.supply.feed.name: each for each in answer.given}[source]
    assert (given.worst.least, given.worst.most) == (Fraction(most), Fraction(most))
    assert given.supply.together == Fraction(together)
    assert failing(answer) == set()
    assert not any(unknown(check) for each in answer.fitted for check in each.checks)


def test_nothing_of_the_coffee_van_is_too_small() -> None:
    """In the time that there is, or not: no fuse is too small for what can ever flow, and no wire for its fuse."""
    path = ROOT / "examples" / "coffee-van" / "van.circuit"
    answer = currents(read(path.read_text(encoding="utf-8")), Budget(6.0), lambda _: None)
    assert failing(answer) == set()
    given = {each.supply.feed.name: each for each in answer.given}
    assert given["plus"].worst.least <= 105 <= given["plus"].worst.most


@pytest.mark.long
def test_all_of_the_coffee_van_is_known() -> None:
    """The most of each feed, without inrush and with it: some 20 seconds. That the blower and the fuel pump never both
    come on just while the galley hangs on plus is so because of times alone."""
    path = ROOT / "examples" / "coffee-van" / "van.circuit"
    answer = currents(read(path.read_text(encoding="utf-8")), Budget(300.0), lambda _: None)
    assert {each.supply.feed.name: (each.worst.least, each.worst.most) for each in answer.given} == {
        name: (Fraction(most), Fraction(most))
        for name, most in {
            "plus": "105",
            "leisure": "7",
            "box_supply": "88.65",
            "starter_feed": "12",
            "flash_wire": "7",
            "galley_bus": "7",
            "turn_left": "3.5",
            "turn_right": "3.5",
            "starter_motor": "12",
        }.items()
    }
    rush = {each.supply.feed.name: each.rush for each in answer.given if each.rush is not None}
    assert {name: (each.least, each.most) for name, each in rush.items()} == {
        "plus": (Fraction("216.5"), Fraction("216.5")),
        "box_supply": (Fraction("207.15"), Fraction("207.15")),
    }
    assert answer.left == ()
