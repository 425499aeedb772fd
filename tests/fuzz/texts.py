"""Random files of every kind, good and bad; the same seed gives the same file."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from logiccheck.lang.words import RESERVED
from tests.calling import EXAMPLES
from tests.fuzz.sentences import LABELS, NAMES, NUMBERS, vehicle
from tests.lang.whole import WHOLE_VEHICLE

ODD = (
    *(
        "\x00",
        "\t",
        "\r",
        "\r\n",
        "\n",
        "\n    ",
        "\x1b[2J",
        "\ufeff",
        "\u200b",
        "\u202e",
        "\u2028",
        "\ud800",
        "\u00b5",
    ),
    *("\u00bd", "\u0665", "\u6cf5", "e\u0301", "\U0001f697", "'", '"', "#", "\\", "`", "$", "%", "..", "->", "+-", "="),
    *("(", ")", "[", "]", "{", "}", ",", "|", "/", "-", "--", "9" * 25, "1e9", "0x1F", "1/0", "-0", ".5", "5."),
)
TOKEN = re.compile(r"\w+|\s+|[^\w\s]")


@dataclass(frozen=True)
class Made:
    """A file, and the kind of making that it came from."""

    seed: int
    kind: str
    raw: bytes


@cache
def _good() -> tuple[str, ...]:
    """Good files to spoil; the small ones more often."""
    small = [
        (EXAMPLES / name).read_text(encoding="utf-8") for name in ("first-steps/van.circuit", "relay-only/boat.circuit")
    ]
    large = (EXAMPLES / "coffee-van/van.circuit").read_text(encoding="utf-8")
    return (*small * 4, *(WHOLE_VEHICLE,) * 4, large)


def made(seed: int) -> Made:
    """The file of this seed."""
    chance = random.Random(seed)
    kind, maker = chance.choice(MAKERS)
    text = maker(chance)
    return Made(seed, kind, text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"))


def _bytes(chance: random.Random) -> bytes:
    """Bytes of any kind, alone or in the middle of a good file."""
    noise = chance.randbytes(chance.choice((0, 1, 5, 50, 3_000)))
    if chance.random() < 0.3:
        return noise
    raw = chance.choice(_good()).encode()
    at = chance.randrange(len(raw))
    return raw[:at] + noise + raw[at + chance.randrange(40) :]


def _encoded(chance: random.Random) -> bytes:
    """A good file as another program may save it."""
    text = chance.choice(_good()).replace("Starter", "Anlasser \u00fc")
    if chance.random() < 0.5:
        text = text.replace("\n", chance.choice(("\r\n", "\r", "\n\r", "\n\n", " \n")))
    encoding = chance.choice(("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "latin-1", "cp1252"))
    return text.encode(encoding, "replace")


def _lines(chance: random.Random) -> str:
    """A good file with lines left out, doubled, swapped, joined, moved in or out."""
    lines = chance.choice(_good()).split("\n")
    for _ in range(chance.randint(1, 5)):
        at, other = chance.randrange(len(lines)), chance.randrange(len(lines))
        match chance.randrange(7):
            case 0:
                del lines[at : at + chance.randint(1, 3)]
                lines.append("")
            case 1:
                lines.insert(other, lines[at])
            case 2:
                lines[at], lines[other] = lines[other], lines[at]
            case 3:
                lines[at] = lines[at].lstrip()
            case 4:
                lines[at] = chance.choice(("    ", "\t", " ", "            ")) + lines[at]
            case 5:
                lines[at] = lines[at][: chance.randrange(len(lines[at]) + 1)]
            case _:
                lines[at] += lines[other]
    return "\n".join(lines)


def _tokens(chance: random.Random) -> str:
    """A good file with words replaced, left out, doubled, or by something odd."""
    text = chance.choice(_good())
    tokens = TOKEN.findall(text)
    words = sorted(RESERVED)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(tokens))
        match chance.randrange(6):
            case 0:
                tokens[at] = ""
            case 1:
                tokens[at] = tokens[chance.randrange(len(tokens))]
            case 2:
                tokens[at] = chance.choice(ODD)
            case 3:
                tokens[at] = chance.choice((*words, *NAMES, *LABELS, *NUMBERS))
            case 4:
                tokens[at] += " " + chance.choice((*words, *NAMES, *ODD))
            case _:
                tokens[at] = tokens[at][: len(tokens[at]) // 2]
    return "".join(tokens)


def _cut(chance: random.Random) -> str:
    """A good file that ends in the middle, or begins there."""
    text = chance.choice(_good())
    at = chance.randrange(len(text))
    return text[:at] if chance.random() < 0.7 else text[at:]


def _huge(chance: random.Random) -> str:
    """Something that is far too deep, too long or too many, in a good place."""
    size = chance.choice((10, 59, 61, 200, 999, 1_001, 5_000, 50_000))
    opening, closing = chance.choice(
        (("(", ")"), ("not ", ""), ("rises(", ")"), ("on_delay(", ", 1 s)"), ("{", "}"), ("[", ""))
    )
    size_lines = min(size, 2_000)
    thing = chance.choice(
        (
            opening * size + "key_on" + closing * size,
            "\n            ".join([opening] * size_lines) + "key_on" + "\n            ".join([closing] * size_lines),
            "x" * size,
            "9" * size + " s",
            "0." + "0" * size + "1 s",
            " and ".join(["key_on"] * size),
            "\n        and ".join(["key_on"] * size_lines),
            " xor\n            ".join(["key_on"] * size_lines),
            " " * size + "key_on",
            "#" * size,
            '"' + "l" * size + '"',
            "\n    rule x = key_on" * size_lines,
            "".join(f"\n    rule x{number} = x{number + 1}" for number in range(min(size, 300))),
            ", ".join(["key_on"] * size),
        )
    )
    text = chance.choice(_good())
    places = [found.start() for found in re.finditer(r"(?<== )|(?<=when )|(?<=\n)|(?<=coil )|(?<=\")", text)]
    at = chance.choice(places)
    return text[:at] + thing + text[at + chance.randrange(10) :]


MAKERS: tuple[tuple[str, Callable[[random.Random], str | bytes]], ...] = (
    ("bytes", _bytes),
    ("encoded", _encoded),
    ("lines", _lines),
    ("lines", _lines),
    ("tokens", _tokens),
    ("tokens", _tokens),
    ("tokens", _tokens),
    ("cut", _cut),
    ("huge", _huge),
    ("grammar", vehicle),
    ("grammar", vehicle),
    ("grammar", vehicle),
)
