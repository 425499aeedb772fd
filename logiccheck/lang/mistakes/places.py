"""Mistakes about who may name what: the box knows only its senses, copper only copper, the world nobody."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import one_of


@frozen
class CannotSense(Mistake):
    """A rule names something outside the box.

    What it means:
        Rules and outputs name senses, rules and outputs. The world, wires, relays and sources are outside the box;
        it knows of them only through a sense.

    Why it matters:
        What the box cannot sense it cannot know. A rule that knows the world would be proved, and could not be
        built.

    Instead of:
        controller "Box" powered by feed
            rule awake = key is run

    Write:
        controller "Box" powered by feed
            rule awake = key_on
    """

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


@frozen
class ContactOfCopper(Mistake):
    """A `when` of the harness names something that cannot move a contact.

    What it means:
        Behind `when` of a source, a ground, a wire or a join stand facts of the world and relay contacts.

    Why it matters:
        A contact is moved by a hand, by physics, or by the coil of a relay. That a wire is live moves nothing.

    Instead of:
        harness
            wire lamp_wire from plus when key_wire

    Write:
        harness
            relay lamp_relay coil key_wire
            wire lamp_wire from plus when lamp_relay
    """

    word: str
    kind: str

    code, name, title = "E502", "contact-condition", "What cannot move a contact"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}: it cannot move a contact; only the world and relays can."

    def hint(self) -> str:
        return f"Let a relay do it: `relay {self.word}_relay coil {self.word}`, and here `when {self.word}_relay`."


@frozen
class CoilOfBox(Mistake):
    """A relay coil names a thought of the box.

    What it means:
        A coil hangs on copper: it may name wires, sources, contacts of relays, the world, and outputs of the box,
        but no sense and no rule.

    Why it matters:
        Between a rule and a coil stands an output: a stage with a feed, which can be off when the rule is true.

    Instead of:
        harness
            relay lamp_relay coil key_on

    Write:
        harness
            relay lamp_relay coil lamp
    """

    word: str
    kind: str

    code, name, title = "E503", "coil-of-box", "Coil driven by a thought of the box"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}: it exists only inside the box, and no wire leads from it to a coil."

    def hint(self) -> str:
        out = f"{self.word}_out"
        return f"Give the box an output for it: `output {out} when {self.word}`, and here `coil {out}`."


@frozen
class NotOfTheWorld(Mistake):
    """A fact of the world names something that is not of the world.

    What it means:
        `at first` says how switches, contacts and numbers stand at time 0. What copper and the box do follows from
        it.

    Why it matters:
        Time 0 is the battery first connected: memory is empty, relays have dropped, outputs were off.

    Instead of:
        world
            at first wake is live

    Write:
        world
            at first door is open
    """

    word: str
    kind: str
    place: str

    code, name, title = "E504", "not-of-the-world", "Fact that is not of the world"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}; {self.place} speaks of the world only: switches, contacts and numbers."

    def hint(self) -> str:
        return "What copper and the box do follows from the world: say how the switch that moves it stands."


@frozen
class OutputInGiven(Mistake):
    """An assumption depends on copper or the box without giving the world time to follow.

    What it means:
        Assumptions speak of the world. Only the p of `c after p has lasted t` and the y of `x changes only while y`
        may name wires, rules or outputs.

    Why it matters:
        The world is there before the output is. An assumption that ties it to an output at once would take away
        stories that can happen, and prove too much.

    Instead of:
        given
            engine is 0 rpm while not lamp

    Write:
        given
            engine is 0 rpm after not lamp has lasted 3 s
    """

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


@frozen
class MemoryInCopper(Mistake):
    """A contact of the harness has a timer, an edge or a stored state.

    What it means:
        Behind `when` stands a plain condition. What remembers is a relay, and stands in its coil.

    Why it matters:
        A timer in copper is a part that one can hold in the hand, with a supply that can fail.

    Instead of:
        harness
            wire lamp_wire from plus when off_delay(brake, 3 s)

    Write:
        harness
            relay lamp_relay coil off_delay(brake, 3 s)
            wire lamp_wire from plus when lamp_relay
    """

    what: str

    code, name, title = "E506", "memory-in-copper", "Contact with a memory"

    def sentence(self) -> str:
        return f"A contact has no memory: `{self.what}` cannot stand behind `when`."

    def hint(self) -> str:
        return "A timer in copper is a relay: `relay hold coil off_delay(wake, 4 min)`, and here `when hold`."


@frozen
class MemoryInFact(Mistake):
    """A fact of the world has a timer, an edge or a stored state.

    What it means:
        `at first`, `never`, `always` and `lasts` in what is given speak of the world at one instant.

    Why it matters:
        How long something lasts in the world is said by its own forms, which are searched for contradictions.

    Instead of:
        given
            never on_delay(brake, 30 s)

    Write:
        given
            brake lasts at most 30 s
    """

    what: str
    place: str

    code, name, title = "E507", "memory-in-fact", "Fact with a memory"

    def sentence(self) -> str:
        return f"{self.place[0].upper()}{self.place[1:]} speaks of one instant: `{self.what}` cannot stand in it."

    def hint(self) -> str:
        return "In `given`, time has forms of its own: `... lasts at most 60 s`, or `... after ... has lasted 3 s`."


@frozen
class PreviousInCoil(Mistake):
    """A relay coil uses `previous`.

    What it means:
        `previous(x)` is the value that the box had in its reaction before. Copper has no such memory.

    Why it matters:
        What was is kept in copper by a relay that holds itself: its own contact, named in its coil.

    Instead of:
        harness
            relay lamp_relay coil brake or previous(wake)

    Write:
        harness
            relay lamp_relay coil brake or lamp_relay
    """

    code, name, title = "E508", "previous-in-coil", "Coil with `previous`"

    def sentence(self) -> str:
        return "A coil has no `previous`: only the box reacts in steps."

    def hint(self) -> str:
        return "Name the relay itself: its contact already shows the coil of the reaction before."


@frozen
class InstantNeedsPlain(Mistake):
    """`even for an instant` is asked of something with a memory.

    What it means:
        `even for an instant` looks at every single reaction. A timer or an edge of a requirement lives between
        settled values, where a single reaction has no part.

    Why it matters:
        The two do not fit together; an answer would mean nothing.

    Instead of:
        requirements
            danger steady never on_delay(brake, 3 s) even for an instant

    Write:
        requirements
            danger steady never brake even for an instant
    """

    what: str

    code, name, title = "E509", "instant-needs-plain", "`even for an instant` with a memory"

    def sentence(self) -> str:
        return f"`even for an instant` looks at single reactions, where `{self.what}` has no meaning."

    def hint(self) -> str:
        return f"Leave out `even for an instant`, or put `{self.what}` into a rule and name the rule."


@frozen
class EdgeInTimer(Mistake):
    """In a requirement an edge stands inside a timer or another edge.

    What it means:
        `rises`, `falls` and `becomes` are true at their moment only, and a moment lasts no time.

    Why it matters:
        Such a timer would never run, and the requirement would hold for nothing.

    Instead of:
        requirements
            danger steady never on_delay(rises(brake), 3 s)

    Write:
        requirements
            danger steady never on_delay(brake, 3 s)
    """

    what: str

    code, name, title = "E510", "edge-in-timer", "Edge inside a timer"

    def sentence(self) -> str:
        return f"An edge is true at its moment only, and lasts no time: it cannot stand inside {self.what}."

    def hint(self) -> str:
        return "Name the state itself, without `rises`, `falls` or `becomes`."


@frozen
class BecomesHere(Mistake):
    """`becomes` stands outside the requirements.

    What it means:
        `x becomes v` is an edge between settled values, and those are seen by requirements only. The box sees every
        reaction, and has `rises` and `falls`.

    Why it matters:
        The two edges can differ, when a value is there for an instant only.

    Instead of:
        controller "Box" powered by feed
            rule start = one_shot(key_on becomes on, 3 s)

    Write:
        controller "Box" powered by feed
            rule start = one_shot(rises(key_on), 3 s)
    """

    word: str
    value: str

    code, name, title = "E511", "becomes-here", "`becomes` outside the requirements"

    def sentence(self) -> str:
        return "`becomes` is a word of the requirements."

    def hint(self) -> str:
        return f"In a rule write `rises(...)` of what you mean; for the state itself `{self.word} is {self.value}`."


@frozen
class SwitchSensed(Mistake):
    """A sense reads something that is no wire and no number.

    What it means:
        A sense of the box is a terminal with a wire on it, or a number that arrives over a bus.

    Why it matters:
        Between the switch and the box lies copper that can break.

    Instead of:
        controller "Box" powered by feed
            sense door_sensed from door

    Write:
        controller "Box" powered by feed
            sense door_sensed from door_wire grounded
    """

    word: str
    kind: str

    code, name, title = "E512", "switch-sensed", "Sense without a wire"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}: a sense reads a wire, or a number of the world."

    def hint(self) -> str:
        return f"Wire it: `wire {self.word}_wire from plus when ...`, and here `from {self.word}_wire live`."
