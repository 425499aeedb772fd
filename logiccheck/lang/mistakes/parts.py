"""Mistakes about the parts of a line: said twice, missing, or of the wrong kind."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen


@frozen
class SaidTwice(Mistake):
    """A part of a line is written twice.

    What it means:
        A part that can be there once, such as `filter`, `reset` or `fuse`, is there twice.

    Why it matters:
        Only one of the two would count.

    Instead of:
        controller "Box" powered by feed
            sense key_again from key_wire live filter 50 ms filter 80 ms

    Write:
        controller "Box" powered by feed
            sense key_again from key_wire live filter 80 ms
    """

    part: str

    code, name, title = "E607", "said-twice", "Part written twice"

    def sentence(self) -> str:
        return f"`{self.part}` is said twice."

    def hint(self) -> str:
        return "Keep one of the two."

    def second(self) -> str:
        return "the first one"


@frozen
class MissingReading(Mistake):
    """A sense does not say whether it looks for live or grounded.

    What it means:
        A sense on a wire is on while the wire is live, or while it is grounded.

    Why it matters:
        Many old switches switch ground. Read the wrong way round, an open wire means the opposite.

    Instead of:
        controller "Box" powered by feed
            sense door_open from door_wire

    Write:
        controller "Box" powered by feed
            sense door_open from door_wire grounded
    """

    wire: str

    code, name, title = "E608", "missing-reading", "Sense without live or grounded"

    def sentence(self) -> str:
        return f"A sense on the wire `{self.wire}` must say when it is on."

    def hint(self) -> str:
        return f"Write `from {self.wire} live`, or `from {self.wire} grounded` for a switch that switches ground."


@frozen
class ReadingOfNumber(Mistake):
    """A number sense says `live` or `grounded`.

    What it means:
        A sense of a number has a value, not a level.

    Why it matters:
        When it counts as on is said by a comparison, in a rule.

    Instead of:
        controller "Box" powered by feed
            sense speed from engine live

    Write:
        controller "Box" powered by feed
            sense speed from engine
    """

    word: str
    reading: str

    code, name, title = "E609", "reading-of-number", "Number that is live or grounded"

    def sentence(self) -> str:
        return f"`{self.word}` is a number: it is neither live nor grounded."

    def hint(self) -> str:
        return f"Write `from {self.word}` without `{self.reading}`."


@frozen
class WrongSubstitute(Mistake):
    """A substitute value is not of the kind of its sense.

    What it means:
        The substitute of a sense on a wire is `on` or `off`; that of a number is a quantity.

    Why it matters:
        It is what the box reads when the value is lost.

    Instead of:
        controller "Box" powered by feed
            sense speed from engine substitute off

    Write:
        controller "Box" powered by feed
            sense speed from engine substitute 0 rpm
    """

    wanted: str

    code, name, title = "E610", "wrong-substitute", "Substitute of another kind"

    def sentence(self) -> str:
        return "The substitute is not of the kind of this sense."

    def hint(self) -> str:
        return f"Write {self.wanted}."


@frozen
class OtherwiseAlone(Mistake):
    """`otherwise` has no connection with a condition before it.

    What it means:
        `otherwise` is the rest contact of a change-over: closed while no `when` before it in the same line is so.
        It comes last.

    Why it matters:
        Without a condition before it nothing says when it is closed.

    Instead of:
        harness
            wire lamp_wire from plus, otherwise from feed

    Write:
        harness
            wire lamp_wire from plus when brake, otherwise from feed
    """

    code, name, title = "E611", "otherwise-alone", "`otherwise` with nothing before it"

    def sentence(self) -> str:
        return "`otherwise` needs connections with `when` before it, and is the last one."

    def hint(self) -> str:
        return "Write for example `from main when k, otherwise from reserve`."


@frozen
class JoinedToItself(Mistake):
    """A wire is joined to itself.

    What it means:
        Both ends of a connection are the same.

    Why it matters:
        It would do nothing, so another wire is meant.

    Instead of:
        harness
            join wake with wake

    Write:
        harness
            join wake with key_wire
    """

    word: str

    code, name, title = "E612", "joined-to-itself", "Wire joined to itself"

    def sentence(self) -> str:
        return f"`{self.word}` is joined to itself."

    def hint(self) -> str:
        return "Name two different ends."


@frozen
class RetainedInCoil(Mistake):
    """Something `retained` stands in the coil of a relay.

    What it means:
        A relay keeps what its coil remembers while its supply is live. Without supply it drops and forgets.

    Why it matters:
        Only the box has a store that outlives its supply. A proof about a relay that remembers without supply would
        be about another relay.

    Instead of:
        harness
            relay lamp_relay coil bistable(set brake, retained) supply plus

    Write:
        harness
            relay lamp_relay coil bistable(set brake) supply plus
    """

    code, name, title = "E617", "retained-in-coil", "Coil with something retained"

    def sentence(self) -> str:
        return "Nothing is `retained` in a coil: a relay without supply drops and forgets."

    def hint(self) -> str:
        return "Leave `retained` away; what has to outlive the supply is a rule of the box."
