"""A damaged certificate of a real vehicle: it is told, or judged; it never crashes, and never proves more than
before."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from random import Random
from typing import Any

import pytest

from logiccheck.certificate.document import Document
from logiccheck.certificate.reading import Unfit, read
from logiccheck.certificate.written import written
from logiccheck.lang.program import Program
from tests.campaign import seeds
from tests.certificate.making import certified, proved_again, standings
from tests.examples.reading import examples

TIMES = 150
STRANGE = ["", "+", "x", "+begun", 0, 1, -1, 7, 10**7, 1.5, True, None, [], {}, [[]], ["+", "hold", ">", 0, None]]


def places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every place in the whole: what holds it, and the key or number it has there."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in list(items):
        yield value, key
        yield from places(inner)


def damaged(top: Any, random: Random) -> str:
    """A copy with one or two damages: something is taken out, put in twice, replaced, or changes its place."""
    top = json.loads(json.dumps(top))
    for _ in range(random.choice([1, 1, 2])):
        everywhere = list(places(top))
        (holder, key), (other, other_key) = random.choice(everywhere), random.choice(everywhere)
        match random.randrange(4):
            case 0:
                del holder[key]
            case 1:
                holder[key] = random.choice(STRANGE)
            case 2:
                holder[key] = json.loads(json.dumps(other[other_key]))
            case _:
                if isinstance(holder, list):
                    holder.insert(random.randrange(len(holder) + 1), json.loads(json.dumps(holder[key])))
    return json.dumps(top)


def look(program: Program, document: Document, before: dict[str, str], random: Random) -> str:
    """What becomes of one damage; `before` is how all stands without it. Nothing is shown that was not."""
    try:
        again = read(damaged(json.loads(written(document)), random).encode())
    except Unfit as why:
        return "told" if str(why).endswith(".") else str(why)
    after = standings(proved_again(again, program))
    assert after.keys() == before.keys()
    more = [name for name, standing in after.items() if standing == "shown" != before[name]]
    assert more == [], again
    return "same" if before == after else "worse"


def damages(seed: int, times: int) -> Counter[str]:
    example = next(each for each in examples() if each.name == "first-steps")
    program, _, document = certified(example.file.read_text(encoding="utf-8"))
    before = standings(proved_again(document, program))
    return Counter(look(program, document, before, Random(seed + k)) for k in range(times))


def test_damage() -> None:
    """Of every kind, seeded; most of it is seen when it is read or proved."""
    found = damages(1, TIMES)
    print(sorted(found.items()))
    assert set(found) == {"told", "same", "worse"}
    assert found["told"] > TIMES / 3
    assert found["worse"] > TIMES / 20


@pytest.mark.campaign
def test_damage_at_length() -> None:
    """As often as the environment says, from the seed it says."""
    chosen = seeds()
    assert "told" in damages(chosen.start, len(chosen))
