"""Mistakes in scenarios: settings, times and timers that cannot be so."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import begin, listed


@frozen
class NotASetting(Mistake):
    """In a scenario something is set that is no definite state of the world.

    What it means:
        A step of a scenario moves hands and physics: a switch into one position, a number to one value.

    Why it matters:
        A scenario plays in one way only. What copper and the box do follows, and is written behind `expect`.

    Instead of:
        scenario arrival
            at 3 s lamp

    Write:
        scenario arrival
            at 3 s expect not lamp
    """

    what: str

    code, name, title = "E613", "not-a-setting", "Setting that is no state of the world"

    def sentence(self) -> str:
        return f"`{begin(self.what)}` does not put one thing of the world into one state."

    def hint(self) -> str:
        return (
            "Write `key is run`, `engine is 900 rpm`, `brake` or `not brake`; what should follow comes after `expect`."
        )


@frozen
class SetTwice(Mistake):
    """A scenario sets the same thing twice at one time.

    What it means:
        One switch or number is set twice at one instant.

    Why it matters:
        All that falls on one instant is one moment: there is no first and second in it.

    Instead of:
        scenario arrival
            at 3 s door is open
            at 3 s door is closed

    Write:
        scenario arrival
            at 3 s door is open
            at 4 s door is closed
    """

    word: str

    code, name, title = "E614", "set-twice", "Set twice at one time"

    def sentence(self) -> str:
        return f"`{self.word}` is set twice at the same time."

    def hint(self) -> str:
        return "Keep one of the two."

    def second(self) -> str:
        return "the other one"


@frozen
class UnknownTimer(Mistake):
    """A scenario gives the time of a timer that does not exist.

    What it means:
        A timer is called by the name of the line it stands in; what is remembered second in that line is called
        `"name, number 2"`, in quotes, and the two phases of a blinker are `"name.on"` and `"name.off"`.

    Why it matters:
        The time would be given to nobody.

    Instead of:
        scenario arrival
            at 3 s hold lasts 5 s

    Write:
        harness
            relay lamp_relay coil off_delay(brake, from 4 s to 6 s)
        scenario arrival
            at 3 s lamp_relay lasts 5 s
    """

    word: str
    near: tuple[str, ...]

    code, name, title = "E615", "unknown-timer", "Unknown timer"

    def sentence(self) -> str:
        if not self.word.strip():
            return "A timer has a name, and this is none."
        return f"There is no timer `{begin(self.word)}`."

    def hint(self) -> str:
        return (
            f"Timers near it are {listed(self.near)}."
            if self.near
            else "A timer has the name of the line it stands in."
        )


@frozen
class OutsideTolerance(Mistake):
    """A scenario gives a timer a time that it cannot have.

    What it means:
        The time lies outside the tolerance of the timer.

    Why it matters:
        The scenario would show what cannot happen.

    Instead of:
        harness
            relay lamp_relay coil off_delay(brake, from 4 s to 6 s)
        scenario arrival
            at 3 s lamp_relay lasts 7 s

    Write:
        harness
            relay lamp_relay coil off_delay(brake, from 4 s to 6 s)
        scenario arrival
            at 3 s lamp_relay lasts 5 s
    """

    word: str
    low: str
    high: str

    code, name, title = "E616", "outside-tolerance", "Time the timer cannot have"

    def sentence(self) -> str:
        return f"The timer `{self.word}` cannot last that long."

    def hint(self) -> str:
        if self.low == self.high:
            return f"It lasts exactly {self.low}."
        return f"It lasts from {self.low} to {self.high}."


@frozen
class NegativeTime(Mistake):
    """A scenario names a time before its begin, or times that run backwards.

    What it means:
        A scenario begins at 0 s, the moment at which the battery is connected. In `from ... to ...` the later time
        comes second.

    Why it matters:
        Nothing happens before the begin.

    Instead of:
        scenario early
            from 5 s to 3 s expect not wake

    Write:
        scenario early
            from 3 s to 5 s expect not wake
    """

    code, name, title = "E413", "negative-time", "Time before the begin"

    def sentence(self) -> str:
        return "This time lies before the begin."

    def hint(self) -> str:
        return "A scenario begins at 0 s; in `from ... to ...` the later time comes second."
