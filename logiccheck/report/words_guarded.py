"""Sentences about small edits of the rules: which of them no requirement would notice."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.base.frozen import frozen
from logiccheck.explain.guarding.small import Does

NO_EFFECT = "Edits without any effect"
NOT_DECIDED = "Not decided"
BUILT_IN = (
    "What is asked of every vehicle notices, too: that all comes to rest, that no wire is live and grounded at once, "
    "and that what is given contradicts nothing and lets time go on."
)
SCENARIOS = "What scenarios expect counts as no requirement here."
INTERRUPTED = "The run was interrupted: what was not tried is not known."
BLOCKED = "No answer: `check` finds what blocks requirements in this file. Mend that first."
NOT_SETTLED = (
    "No answer: whether the rules and relays always come to rest was not decided in time, so no requirement counts as "
    "proved. More time: --budget SECONDS."
)
NONE_SUGGESTED = "No requirement to suggest."
STORIES = "The story of each: --stories."
COUNTED = (
    "An edit is noticed if a requirement that is proved as it is would fail, be blocked or have no case, or if one "
    "that has no case as it is would fail. Of the others those have no effect of which it is proved that no output, "
    "relay or load, nor the power of the box, ever comes to rest otherwise. With the rest one of these does, in the "
    "story of the edit, all that is proved stays proved, and what has no case does not fail."
)


@frozen
class Tally:
    """How many edits came to what; all were tried but those `skipped`, which cannot be read, and those `left`."""

    noticed: int
    no_effect: int
    unnoticed: int
    undecided: int
    skipped: int
    left: int

    @property
    def tried(self) -> int:
        return self.noticed + self.no_effect + self.unnoticed + self.undecided


def opening(tally: Tally) -> str:
    """The first line."""
    some = f"Small edits that no requirement would notice: {tally.unnoticed} of {tally.tried}."
    return f"{some} {INTERRUPTED}" if tally.left else some


def closing(tally: Tally) -> str:
    """The last line."""
    counts = (
        f"tried {tally.tried}, noticed {tally.noticed}, no effect {tally.no_effect}, "
        f"nobody would notice {tally.unnoticed}, not decided {tally.undecided}, skipped {tally.skipped}"
    )
    if tally.left:
        return f"{counts}, interrupted before {tally.left}"
    if tally.unnoticed:
        return f"{counts}: require more"
    return f"{counts}: not all decided" if tally.undecided else f"{counts}: every edit with an effect is noticed"


def skipped(count: int) -> str:
    """Edits that are mistakes."""
    return f"Edits that are mistakes of the language and would be told as such: {count}."


def unproved(names: Sequence[str]) -> str:
    """Requirements that do not hold anyway."""
    return f"Not proved as it is, and so not asked whether they would notice: {', '.join(names)}."


def no_case(names: Sequence[str]) -> str:
    """Requirements that say nothing as it is."""
    return f"No case as it is, and so asked only whether they would fail: {', '.join(names)}."


def group(name: str, label: str) -> str:
    """The title over the edits that show in this output, relay or load first."""
    return name if label in ("", name) else f'{name} "{label}"'


def unnoticed(number: int, does: Does, when: str, on: Sequence[str], off: Sequence[str]) -> str:
    """One edit: what it does and what differs in its story; `on` as it is, `off` as edited, and the other way."""
    told = []
    if on:
        told.append(f"on as it is and off as edited: {', '.join(on)}")
    if off:
        told.append(f"off as it is and on as edited: {', '.join(off)}")
    return f"{number}. {_DONE[does]}, nobody would notice. In its story, {when}, {'; '.join(told)}."


def suggested(text: str, same: int) -> str:
    """A requirement that would notice an edit; `same` is the first edit for which it was found, 0 for this one."""
    if same:
        return f"What is suggested for {same} would notice this, too."
    return f"This would notice, and is proved as it is: {text}"


def kinds_tried(kinds: Sequence[str]) -> str:
    """What it means that there is none to suggest, once for all."""
    tried = "; ".join(f"`{kind}`" for kind in kinds)
    return f"Where there is none to suggest, of those tried none is proved and would notice. Kinds tried: {tried}."


def without_effect(does: Does) -> str:
    """One edit of which it is proved that it changes nothing."""
    what = "the term is without effect" if does is Does.DROPS else "it makes no difference"
    return f"{_DONE[does]}, nothing ever comes to rest otherwise: {what}."


def undecided(does: Does, asked: Sequence[str]) -> str:
    """One edit about which nothing is known."""
    if asked:
        return f"{_DONE[does]}: whether these would notice was not decided: {', '.join(asked)}."
    return f"{_DONE[does]}: all that is asked still holds; whether it has an effect was not decided."


def at_first() -> str:
    """The instant of a story at which all begins."""
    return "at first"


def at(time: str) -> str:
    """An instant of a story."""
    return f"at {time}"


def story(number: int, shortest: bool) -> str:
    """The title over the story of an edit."""
    return f"Story of {number}, as it is" if shortest else f"A story of {number}, as it is (there may be a shorter one)"


_DONE = {
    Does.DROPS: "With this dropped",
    Does.WORD: "With `and` and `or` exchanged here",
    Does.INVERTS: "With this inverted",
    Does.HALF: "With half the time",
    Does.DOUBLE: "With twice the time",
    Does.NO_TIME: "Without the time",
    Does.WINS: "With the other side winning",
    Does.PLAIN: "With nothing stored",
    Does.FORGETS: "Without `retained`",
    Does.DIODE: "Without the diode",
}
