"""Mistakes about switches and their positions."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import listed, one_of


@frozen
class UnknownPosition(Mistake):
    """A switch has no position of the name given.

    What it means:
        The word behind `is`, or between `{` and `}`, is not one of the positions of the switch.

    Why it matters:
        The switch could never stand so, and a requirement about it would hold for nothing.

    Instead of:
        harness
            wire lamp_wire from plus when door is opened

    Write:
        harness
            wire lamp_wire from plus when door is open
    """

    switch: str
    word: str
    positions: tuple[str, ...]
    elsewhere: tuple[str, ...]  # other switches that have it
    near: tuple[str, ...]

    code, name, title = "E305", "unknown-position", "Unknown position"

    def sentence(self) -> str:
        return f"`{self.switch}` has no position `{self.word}`."

    def hint(self) -> str:
        if self.near:
            return f"Did you mean `{self.switch} is {self.near[0]}`?"
        if self.elsewhere:
            return f"`{self.word}` is a position of {one_of(self.elsewhere)}: `{self.elsewhere[0]} is {self.word}`."
        return f"Its positions are {listed(self.positions)}."

    def second(self) -> str:
        return f"the positions of `{self.switch}`"


@frozen
class SwitchAlone(Mistake):
    """A switch with positions stands where something true or false is wanted.

    What it means:
        Only a `contact` is true or false by its bare name. A switch with positions needs one of them.

    Why it matters:
        Which position counts as "on" is for you to say.

    Instead of:
        harness
            wire lamp_wire from plus when door

    Write:
        harness
            wire lamp_wire from plus when door is open
    """

    switch: str
    positions: tuple[str, ...]

    code, name, title = "E306", "switch-alone", "Switch without a position"

    def sentence(self) -> str:
        return f"`{self.switch}` is a switch with positions: by itself it is neither true nor false."

    def hint(self) -> str:
        return f"Say in which position, for example `{self.switch} is {self.positions[-1]}`."

    def second(self) -> str:
        return f"the positions of `{self.switch}`"


@frozen
class SamePosition(Mistake):
    """A switch has two positions of one name.

    What it means:
        One name stands twice among the positions of a switch.

    Why it matters:
        `is` could mean either of them.

    Instead of:
        world
            lever up | down | up

    Write:
        world
            lever up | down | far_up
    """

    word: str

    code, name, title = "E312", "same-position", "Position written twice"

    def sentence(self) -> str:
        return f"The position `{self.word}` is written twice."

    def hint(self) -> str:
        return "Each position of a switch needs a name of its own."

    def second(self) -> str:
        return "the first one"


@frozen
class NoPositions(Mistake):
    """`in { }` stands behind something that has no positions.

    What it means:
        Between `{` and `}` stand positions of a switch, any of which will do.

    Why it matters:
        A number lies in a range, and a wire or a rule is so or not so: there is nothing to choose from.

    Instead of:
        harness
            relay lamp_relay coil wake in {live, grounded}

    Write:
        harness
            relay lamp_relay coil wake is live or wake is grounded
    """

    word: str
    kind: str

    code, name, title = "E313", "no-positions", "Choice of positions without a switch"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind} and has no positions to choose from."

    def hint(self) -> str:
        return f"Say it one by one: `{self.word} is ... or {self.word} is ...`."
