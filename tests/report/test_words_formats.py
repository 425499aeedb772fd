"""The sentences that stand only in files for machines, whole."""

from __future__ import annotations

from logiccheck.report import words_formats as words


def test_what_waveforms_say() -> None:
    """What their values mean, and which times are not exact."""
    assert words.VALUES == (
        "Values are those that a moment settles to; what comes and goes within one moment is not shown.",
        "A wire reads 1 live, 0 grounded, z dead (neither), x SHORT (both).",
        "A number sense reads nan while the box is without power.",
    )
    assert words.EXACT == "All times are exact."
    assert words.rounded([("1/3 us", 0), ("1/2 us", 1)]) == (
        "Times are exact but for these, which stand at the whole microsecond before, yet after each moment before them: "
        "1/3 us at 0 us, 1/2 us at 1 us."
    )
    assert words.BEYOND_ASCII == (
        "Letters beyond ASCII stand as numbers: \\x and two hexadecimal digits, \\u and four, \\U and eight."
    )
    assert words.never_settles("3 s") == (
        "At 3 s the rules or relays chase each other for ever: what goes on changing reads x, or nan if a number."
    )


def test_what_a_signal_is() -> None:
    """Its label only where it says more than the name."""
    assert words.signal("key", "Ignition key", "0 off, 1 run") == "key: Ignition key (0 off, 1 run)"
    assert words.signal("key", "key", "") == "key"
    assert words.signal("engine", "", "rpm") == "engine (rpm)"


def test_which_scenario() -> None:
    """Its name is asked for; or there is none."""
    assert words.one_scenario(["a", "b"]) == "Waveforms are those of one scenario. Name one of these: a, b."
    assert words.one_scenario([]) == "Waveforms are those of one scenario. There is none."


def test_what_was_read() -> None:
    """Each file by its hash; a checklist is no file of the user."""
    assert words.hashed("van.circuit", "00ff") == "van.circuit: sha-256 00ff"
    assert words.CHECKLISTS == (
        "Checklists that ship with logiccheck, here as they read with their roles bound to names of the vehicle."
    )
