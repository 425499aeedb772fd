"""The house layout: what it is, that it changes nothing that is said, and that it is there for good once it is there."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from random import Random
from textwrap import dedent
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.base.span import Span
from logiccheck.lang.load import load_text
from logiccheck.lang.reading import Unreadable
from logiccheck.lang.tidy import tidied as tidying
from logiccheck.lang.tidy.rows import comments_of
from logiccheck.lang.tidy.tidied import Tidied, Unread, Untrue, tidied
from tests.calling import EXAMPLES, ROOT
from tests.lang.mangling import mangled
from tests.lang.whole import WHOLE_VEHICLE
from tests.oracle.programs import random_program

FILES = sorted([*EXAMPLES.rglob("*.circuit"), *(ROOT / "rules").glob("*.circuit")])
TEXTS = [WHOLE_VEHICLE, *(path.read_text(encoding="utf-8") for path in FILES if "rules" not in path.parts)]


def laid_out(text: str | bytes) -> Tidied:
    """The text in the house layout; it can be read."""
    raw = text.encode() if isinstance(text, str) else text
    found = tidied("van.circuit", lambda _: raw)
    assert isinstance(found, Tidied), found
    return found


def after(text: str) -> str:
    """A text of this page in the house layout."""
    return laid_out(dedent(text)).after


def without_places(node: Any) -> Any:
    """What a part of the resolved program says, wherever it stands; words of the file without blanks."""
    if isinstance(node, Span):
        return None
    if isinstance(node, str):
        return "".join(node.split())
    if isinstance(node, tuple):
        return tuple(map(without_places, node))
    if is_dataclass(node) and not isinstance(node, type):
        return (type(node), *(without_places(getattr(node, f.name)) for f in fields(node)))
    return node


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32))
def test_any_white_space_and_comments(seed: int) -> None:
    """However a program is laid out and wherever it has comments: the same program, the same comments, and laid out
    anew it stays as it is."""
    chance = Random(seed)
    text = mangled(random_program(seed).text if chance.random() < 0.8 else chance.choice(TEXTS), chance)
    done = laid_out(text)
    assert laid_out(done.raw).after == done.after
    assert comments_of(done.after, "van.circuit") == comments_of(text, "van.circuit")
    before, now = load_text(text), load_text(done.after)
    assert before.program is not None, before.diagnostics
    assert without_places(now.program) == without_places(before.program)
    lines = done.after.split("\n")
    assert all(line == line.rstrip() for line in lines)
    assert "\n\n\n\n" not in done.after
    assert done.after.endswith("\n")
    assert not done.after.endswith("\n\n")
    assert not done.after.startswith("\n")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_what_ships_is_laid_out_so(path: Any) -> None:
    """Examples and checklists are in the house layout."""
    assert not laid_out(path.read_bytes()).changed


def test_indentation_and_blanks() -> None:
    """Four columns a step; one blank between words, none inside brackets, spaces around signs."""
    text = """
        world
          key off|accessory|   run
          engine 0..7000rpm
        controller "Box"   powered by   plus
            rule a=( k   or b )and not(c)   # why
            rule b = on_delay ( k ,3s )
                   or k
        """
    assert after(text) == dedent(
        """\
        world
            key     off | accessory | run
            engine  0 .. 7000 rpm
        controller "Box" powered by plus
            rule a = (k or b) and not (c)   # why
            rule b = on_delay(k, 3 s)
                or k
        """
    )


def test_columns_of_electrics() -> None:
    """How wires lie stands behind their connections, what coils draw behind their supply; `electrics` has two columns."""
    text = """
        harness
            wire feed from plus when hold , fuse 60 A,wire 10 mm2 over 1.5 m
            wire a_longer_name from plus when door is open
            wire either from plus when key is run, from house, in engine space
            wire wake,drop 3 %
            relay hold coil off_delay(wake, 4 min +- 10 %) supply plus, draws 0.15 A
            relay limit coil wake, draws 1/8 A
        controller "Box" powered by feed
            draws   120 mA awake,1.5 mA   asleep
        electrics
            nominal 12 V
            engine   space 80 degC
            battery plus 70 Ah,  reserve 110 min
            dip plus while wake for at most 50 ms
            tell_tale wake "Lamp"   while key is run within 5 s
        """
    assert after(text) == dedent(
        """\
        harness
            wire feed           from plus  when hold,  fuse 60 A, wire 10 mm2 over 1.5 m
            wire a_longer_name  from plus  when door is open
            wire either         from plus when key is run, from house,  in engine space
            wire wake,                                 drop 3 %
            relay hold   coil off_delay(wake, 4 min +- 10 %)  supply plus,  draws 0.15 A
            relay limit  coil wake,                                         draws 1/8 A
        controller "Box" powered by feed
            draws 120 mA awake, 1.5 mA asleep
        electrics
            nominal       12 V
            engine space  80 degC
            battery plus  70 Ah, reserve 110 min
            dip plus      while wake for at most 50 ms
            tell_tale     wake "Lamp" while key is run within 5 s
        """
    )


def test_columns() -> None:
    """What is alike in the lines of a block stands in columns, two blanks behind the longest before it."""
    text = """
        harness
            source plus "Battery plus" when battery is connected
            wire key_wire from plus when key in {run, start}
            wire a_longer_name from plus when door is open
            wire wake
            diode key_wire -> wake
            diode a_longer_name->wake
            relay hold "Hold relay" coil off_delay(wake, 4 min +- 10 %) supply plus
            relay limit "Time limit" coil on_delay(wake, 5 min) supply plus
        """
    assert after(text) == dedent(
        """\
        harness
            source plus         "Battery plus"  when battery is connected
            wire key_wire       from plus  when key in {run, start}
            wire a_longer_name  from plus  when door is open
            wire wake
            diode key_wire      -> wake
            diode a_longer_name -> wake
            relay hold          "Hold relay"  coil off_delay(wake, 4 min +- 10 %)  supply plus
            relay limit         "Time limit"  coil on_delay(wake, 5 min)           supply plus
        """
    )


def test_a_column_stays_where_it_is() -> None:
    """Most lines of a block have it there, so the others join them; a line that is too long for it is none of them."""
    text = """\
        constants
            prime     = 3 s
            idle      = 400 rpm
            stalled   = 300 rpm
            hot = 95 degC
            cooled_down = 80 degC
        """
    assert after(text) == dedent(
        """\
        constants
            prime     = 3 s
            idle      = 400 rpm
            stalled   = 300 rpm
            hot       = 95 degC
            cooled_down = 80 degC
        """
    )


def test_one_long_line_moves_no_other() -> None:
    """A line that is much longer than most does not push the column to the right."""
    text = """
        controller "Box" powered by plus
            rule a = x
            rule bc = x
            rule a_rule_with_a_name_that_goes_on_and_on = x
        """
    assert after(text) == dedent(
        """\
        controller "Box" powered by plus
            rule a  = x
            rule bc = x
            rule a_rule_with_a_name_that_goes_on_and_on = x
        """
    )


def test_comments() -> None:
    """A comment of its own stands at the depth of what it stands among; those behind lines stand in a column."""
    text = """
        # at the top
        world  # hands
        # before an item
          key off | run # of brass
               # deeper
          door closed | open    #of glass
          # still of the world
        # before the next block
        given
          never key is run and
               # in the middle
             door is open
        # at the end
        """
    assert after(text) == dedent(
        """\
        # at the top
        world  # hands
            # before an item
            key   off | run      # of brass
            # deeper
            door  closed | open  #of glass
            # still of the world
        # before the next block
        given
            never key is run and
                # in the middle
                door is open
        # at the end
        """
    ).replace("world  # hands", "world" + " " * 20 + "# hands")


def test_a_comment_without_a_neighbour_stays_where_it_is() -> None:
    """Two blanks away at least."""
    assert after("world            # hands\n\n    key off | run# brass\n") == (
        "world            # hands\n\n    key  off | run  # brass\n"
    )


def test_long_lines() -> None:
    """They are broken before a part of the item if that is enough, else behind a comma, else before `or` or `and`; and
    a line that could be longer is left."""
    name = "an_output_with_quite_a_long_name"
    text = f"""
        controller "Box" powered by plus
            output {name} "A label that says what it is" when k and not c load 3 A, inrush 9 A for 80 ms
            rule a = {" or ".join(f"a_name_that_is_long_{i}" for i in range(6))}
            rule b = k
                or c
        scenario s
            at 1 s expect {", ".join(f"a_name_that_is_long_{i}" for i in range(6))}
        """
    assert after(text) == dedent(
        f"""\
        controller "Box" powered by plus
            output {name}  "A label that says what it is"  when k and not c
                load 3 A, inrush 9 A for 80 ms
            rule a = a_name_that_is_long_0 or a_name_that_is_long_1 or a_name_that_is_long_2 or a_name_that_is_long_3
                or a_name_that_is_long_4 or a_name_that_is_long_5
            rule b = k
                or c
        scenario s
            at 1 s  expect a_name_that_is_long_0, a_name_that_is_long_1, a_name_that_is_long_2, a_name_that_is_long_3,
                a_name_that_is_long_4, a_name_that_is_long_5
        """
    )


def test_roles_of_a_checklist() -> None:
    """Each binding on its line, the signs in a column."""
    text = """
        use checklist starting with
          starter=starter_motor,
             idle = 400 rpm,
          waive no_spark "why not"
        """
    assert after(text) == dedent(
        """\
        use checklist starting with
            starter = starter_motor,
            idle    = 400 rpm,
            waive no_spark  "why not"
        """
    )


def test_blank_lines() -> None:
    """At most two between lines, none before the first and behind the last."""
    assert after("\n\nworld\n\n\n\n\n    key off | run\n   \n\t\n") == "world\n\n\n    key  off | run\n"


@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_ends_and_mark(end: bytes, mark: bytes) -> None:
    """Line ends, and a byte order mark, stay what they are."""
    raw = mark + end.join([b"world", b"  key off|run", b"", b"  door closed | open   "])
    assert laid_out(raw).raw == mark + end.join(
        [b"world", b"    key   off | run", b"", b"    door  closed | open", b""]
    )


def test_nothing_at_all() -> None:
    """An empty file stays empty, and one of blank lines becomes empty."""
    assert after("") == ""
    assert after("\n  \n") == ""
    assert after("# only this") == "# only this\n"


@pytest.mark.parametrize(
    "text", ["world\n    key off |\n", "wordl\n", 'vehicle "A\n', "world\n    key off | run\n  at first key\n"]
)
def test_mistakes(text: str) -> None:
    """A file with mistakes is left alone, and they are told."""
    found = tidied("van.circuit", lambda _: text.encode())
    assert isinstance(found, Unread)
    assert found.diagnostics
    assert found.source is not None
    assert found.source.text == text


def test_no_file() -> None:
    """What cannot be read has no text."""
    found = tidied("van.circuit", lambda _: Unreadable.MISSING)
    assert isinstance(found, Unread)
    assert found.source is None
    assert [each.name for each in found.diagnostics] == ["cannot-open"]


def test_part_of_a_vehicle() -> None:
    """A file that is used by another, or a checklist, needs no vehicle and may name what it does not declare."""
    assert after("harness\n  wire a from plus\n") == "harness\n    wire a  from plus\n"


@pytest.mark.parametrize("spoil", [lambda text: text.replace("run", "runs"), lambda text: text.replace("why", "what")])
def test_it_is_read_again(monkeypatch: pytest.MonkeyPatch, spoil: Any) -> None:
    """Where the new text would mean something else, or have other comments, there is none."""
    right = tidying._text
    monkeypatch.setattr(tidying, "_text", lambda text, path: spoil(right(text, path)))
    with pytest.raises(Untrue):
        laid_out("world\n    key off | run  # why\n")


@pytest.mark.parametrize("mark", ["4f1c9a2e", "4f1c-9a2e", "12345678", "abcdefab", "4min"])
@pytest.mark.parametrize("date", ["2026-11-02", "2Nov2026", "2026.11.2x", "20261102"])
def test_a_wrong_mark_or_date_is_one_word(mark: str, date: str) -> None:
    """What is told of it is told when the file is checked; to lay it out is no reason to part it."""
    line = f'    unused-name  knob  "fine"  by "R. B."  on {date}  logic {mark}\n'
    assert laid_out(f"accepted\n{line}").after.splitlines()[-1].split() == line.split()
