"""The sentences about ways through the harness, whole."""

from __future__ import annotations

from logiccheck.report import words_drawing, words_through
from logiccheck.report import words_through as words


def test_a_way() -> None:
    """Where it begins, each part in order, what closes it."""
    parts = [words.begin("Battery plus", "battery is connected"), words.past_contact("key_wire", "key is run")]
    parts += [words.DIODE, words.past_contact("wake", "")]
    assert words.way(parts) == "Battery plus (battery is connected) -> key_wire (key is run) -> diode -> wake"
    assert words.begin("Battery plus", "") == "Battery plus"
    assert words.from_output("radio", "Car radio") == "output radio (Car radio)"
    assert words.from_output("radio", "radio") == "output radio"
    assert words.title(2, "live", "plus -> wake") == "Way 2, live: plus -> wake"


def test_one_wire() -> None:
    """The first line, what ways need, what is left."""
    assert (
        words.opening("wake", 3, 0, 0, 0)
        == "wake: ways by which it can be live: 3; ways by which it can be grounded: 0."
    )
    assert words.opening("wake", 3, 1, 2, 1) == (
        "wake: ways by which it can be live: 3; ways by which it can be grounded: 1; not decided: 2. FOUND WRONG: 1."
    )
    assert words.needs(["a", "b", "c"]) == "Needs: a, b and c."
    assert words.needs([]) == "Needs nothing: it always conducts."
    assert words.never("plus -> wake", ["a", "not a"]) == "plus -> wake. Never so: a and not a."
    assert words.undecided("plus -> wake", "Why.") == "plus -> wake. Why."
    assert words.left_out(7, more=False) == ("Ways left out, the longest: 7. Whether they can conduct was not asked.")
    assert words.left_out(360, more=True) == (
        "Ways left out, the longest: at least 360. Whether they can conduct was not asked."
    )


def test_the_whole_harness() -> None:
    """The first line and the last."""
    assert words.whole_opening("Van", 2, whole=True) == "Van: FOUND WRONG IN THE HARNESS: 2."
    assert words.whole_opening("Van", 0, whole=True) == "Van: NOTHING FOUND."
    assert words.whole_opening("Van", 0, whole=False) == "Van: NOTHING FOUND SO FAR. Not everything was decided."
    assert [words.closing(2, True), words.closing(0, True), words.closing(0, False)] == [
        "found wrong 2",
        "nothing found",
        "not all decided",
    ]
    assert words.too_many(["a", "b"]) == "Not looked at, as too many ways lead there: a and b."
    assert words.how_to_see("my van.circuit", "wake") == (
        'All ways to one wire, also those that a fault opens: logiccheck paths "my van.circuit" wake'
    )


def test_what_is_wrong() -> None:
    """Each in one sentence, with what comes of it."""
    assert words.sneak("key_wire", "live") == "key_wire is live while nothing feeds it by its own line"
    assert words.together("seat", "hood", "wake") == (
        "seat is live from hood, though each leads into wake through a diode of its own"
    )
    assert words.also_apart("seat", "hood", "wake") == (
        "seat and hood lead into wake, each through a diode of its own: they are meant to be apart."
    )
    assert words.further(["lock", "radio"]) == "From there it goes on to: lock and radio."
    assert words.hangs([words.sense("key_on"), words.POWER]) == (
        "What hangs on it: sense key_on and the power of the controller."
    )
    assert words.reads_itself("key_on", "key_wire", ["radio"]) == (
        "The sense key_on reads key_wire, and there it can see nothing but an output of the same box: radio"
    )
    assert words.short("bus") == "bus is live and grounded at once: a short"


def test_faults() -> None:
    """What a fault opens, and how many there are."""
    name = words.broken("Diode key_wire -> wake", "shorted")
    assert words.opens(name, "live", "plus -> wake") == "Diode key_wire -> wake shorted: live over plus -> wake"
    assert words.opens(name, "live", "") == "Diode key_wire -> wake shorted: live"
    assert words.proved_of(name, "live") == "Diode key_wire -> wake shorted: live"
    assert words.stuck_output("radio") == "output radio, stuck on"
    assert words.with_faults(9, 7, 0) == "Faults by which something more might reach it: 9; that do open a way: 7."
    assert words.with_faults(9, 7, 1) == (
        "Faults by which something more might reach it: 9; that do open a way: 7; not decided: 1."
    )
    assert words.faults_left(4) == "Faults not looked at: 4. More time (--budget) may show what they open."


def test_what_is_not_told_is_said() -> None:
    """One way to a wire is told, and a contact is drawn open whatever it is at rest."""
    assert words_through.MEND.endswith(
        "Other ways by which it is reached unmeant may not be told here: ask again once this is mended."
    )
    assert words_drawing.LEGEND[0].startswith("Each contact is drawn open, also one that is closed at rest.")
    assert "nothing switched on" not in words_drawing.SUBTITLE


def test_no_word_is_bent() -> None:
    """What stands in the picture and in fixed sentences ends as sentences do."""
    fixed = (
        words_through.MEANT,
        words_through.MEND,
        words_through.ALL_WAYS,
        words_through.WITH_FAULT_MEANS,
        words_through.BESIDE_MEANS,
    )
    assert all(sentence.endswith(".") for sentence in (*fixed, *words_drawing.LEGEND, words_drawing.CAUTION))
