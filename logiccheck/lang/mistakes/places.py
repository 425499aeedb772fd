"""Mistakes about who may name what: the box knows only its senses, copper only copper, the world nobody."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.base.diagnostic import Mistake
from logiccheck.lang.mistakes.phrases import one_of


@dataclass(frozen=True, slots=True)
class CannotSense(Mistake):
    """A rule names something outside the box."""

    word: str
    kind: str
    senses: tuple[str, ...]
    example: str  # a sense line that would do, or ""

    code, name, title = "E501", "cannot-sense", "What the box cannot sense it cannot know"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind} outside the box: what the box cannot sense it cannot know."

    def hint(self) -> str:
        if self.senses:
            return f"Name the sense that reads it: {one_of(self.senses)}."
        if self.example:
            return f"Give the box a sense for it and name that: `{self.example}`."
        return "Put it into a wire under `harness`, give the box a sense on that wire, and name the sense."


@dataclass(frozen=True, slots=True)
class ContactOfCopper(Mistake):
    """A `when` of the harness names something that cannot move a contact."""

    word: str
    kind: str

    code, name, title = "E502", "contact-condition", "What cannot move a contact"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}: it cannot move a contact; only the world and relays can."

    def hint(self) -> str:
        return f"Let a relay do it: `relay {self.word}_relay coil {self.word}`, and here `when {self.word}_relay`."


@dataclass(frozen=True, slots=True)
class CoilOfBox(Mistake):
    """A relay coil names a thought of the box."""

    word: str
    kind: str

    code, name, title = "E503", "coil-of-box", "Coil driven by a thought of the box"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}: it exists only inside the box, and no wire leads from it to a coil."

    def hint(self) -> str:
        return f"Give the box an output for it: `output {self.word}_out when {self.word}`, and here `coil {self.word}_out`."


@dataclass(frozen=True, slots=True)
class NotOfTheWorld(Mistake):
    """A fact of the world names something that is not of the world."""

    word: str
    kind: str
    place: str

    code, name, title = "E504", "not-of-the-world", "Fact that is not of the world"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}; {self.place} speaks of the world only: switches, contacts and numbers."

    def hint(self) -> str:
        return "What copper and the box do follows from the world: assume something about what moves it."


@dataclass(frozen=True, slots=True)
class OutputInGiven(Mistake):
    """An assumption names an output, or what depends on one, without giving the world time to follow."""

    word: str
    kind: str

    code, name, title = "E505", "output-in-given", "Assumption that depends on the box at once"

    def sentence(self) -> str:
        return (
            f"`{self.word}` is {self.kind}: the world is there before it, "
            "so an assumption may name it only with `after ... has lasted`."
        )

    def hint(self) -> str:
        return f"Give the world time to follow, for example `engine is 0 rpm after not {self.word} has lasted 3 s`."


@dataclass(frozen=True, slots=True)
class MemoryInCopper(Mistake):
    """A contact of the harness has a timer, an edge or a stored state."""

    what: str

    code, name, title = "E506", "memory-in-copper", "Contact with a memory"

    def sentence(self) -> str:
        return f"A contact has no memory: `{self.what}` cannot stand behind `when`."

    def hint(self) -> str:
        return "A timer in copper is a relay: `relay hold coil off_delay(wake, 4 min)`, and here `when hold`."


@dataclass(frozen=True, slots=True)
class MemoryInFact(Mistake):
    """A fact of the world has a timer, an edge or a stored state."""

    what: str
    place: str

    code, name, title = "E507", "memory-in-fact", "Fact with a memory"

    def sentence(self) -> str:
        return f"{self.place} speaks of one instant: `{self.what}` cannot stand in it."

    def hint(self) -> str:
        return "For how long something lasts, write `... lasts at least 60 s` or `... after ... has lasted 3 s` in `given`."


@dataclass(frozen=True, slots=True)
class PreviousInCoil(Mistake):
    """A relay coil uses `previous`."""

    code, name, title = "E508", "previous-in-coil", "Coil with `previous`"

    def sentence(self) -> str:
        return "A coil has no `previous`: only the box reacts in steps."

    def hint(self) -> str:
        return "Name the relay itself: its contact already shows the coil of the reaction before."


@dataclass(frozen=True, slots=True)
class InstantNeedsPlain(Mistake):
    """`even for an instant` is asked of something with a memory."""

    what: str

    code, name, title = "E509", "instant-needs-plain", "`even for an instant` with a memory"

    def sentence(self) -> str:
        return f"`even for an instant` looks at single reactions, where `{self.what}` has no meaning."

    def hint(self) -> str:
        return f"Leave out `even for an instant`, or put `{self.what}` into a rule and name the rule."


@dataclass(frozen=True, slots=True)
class EdgeInTimer(Mistake):
    """In a requirement an edge stands inside a timer or another edge."""

    what: str

    code, name, title = "E510", "edge-in-timer", "Edge inside a timer"

    def sentence(self) -> str:
        return f"An edge is true at its moment only, and lasts no time: it cannot stand inside {self.what}."

    def hint(self) -> str:
        return "Name the state itself, without `rises`, `falls` or `becomes`."


@dataclass(frozen=True, slots=True)
class BecomesHere(Mistake):
    """`becomes` stands outside the requirements."""

    word: str
    value: str

    code, name, title = "E511", "becomes-here", "`becomes` outside the requirements"

    def sentence(self) -> str:
        return "`becomes` is a word of the requirements."

    def hint(self) -> str:
        return f"In a rule write `rises(...)` of what you mean; for the state itself `{self.word} is {self.value}`."


@dataclass(frozen=True, slots=True)
class SwitchSensed(Mistake):
    """A sense reads a switch itself and not a wire."""

    word: str
    kind: str

    code, name, title = "E512", "switch-sensed", "Sense without a wire"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}: a sense reads a wire, or a number of the world."

    def hint(self) -> str:
        return f"Wire it: `wire {self.word}_wire from plus when ...`, and here `from {self.word}_wire live`."
