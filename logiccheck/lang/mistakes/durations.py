"""Mistakes about durations: of no time, too fine, with a tolerance that does not fit, or without a begin."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen


@frozen
class NotAboveZero(Mistake):
    """A duration, or what a load draws, is zero or less.

    What it means:
        A duration is above 0, and so are currents, fuse ratings, lengths and cross-sections.

    Why it matters:
        A timer of no time has no meaning: would it be over before it began?

    Instead of:
        harness
            relay lamp_relay coil on_delay(wake, 0 s)

    Write:
        harness
            relay lamp_relay coil on_delay(wake, 0.1 s)
    """

    what: str

    code, name, title = "E404", "not-above-zero", "Quantity that is not above zero"

    def sentence(self) -> str:
        return f"{self.what} must be above 0."

    def hint(self) -> str:
        return "Write a quantity above 0, or leave this part out."


@frozen
class TooFine(Mistake):
    """A duration is finer than one microsecond.

    What it means:
        Durations are counted in whole microseconds.

    Why it matters:
        No relay and no box is so exact; whole numbers keep every proof exact.

    Instead of:
        harness
            relay lamp_relay coil on_delay(wake, 0.0000001 s)

    Write:
        harness
            relay lamp_relay coil on_delay(wake, 0.000001 s)
    """

    time: str

    code, name, title = "E405", "too-fine", "Duration finer than a microsecond"

    def sentence(self) -> str:
        return f"Durations are whole microseconds; {self.time} is not."

    def hint(self) -> str:
        return "Round it to whole microseconds (us)."


@frozen
class WideTolerance(Mistake):
    """A tolerance reaches down to zero or below.

    What it means:
        The nominal duration less its tolerance is not above 0.

    Why it matters:
        A run that lasts no time is no run.

    Instead of:
        harness
            relay lamp_relay coil on_delay(wake, 4 s +- 5 s)

    Write:
        harness
            relay lamp_relay coil on_delay(wake, 4 s +- 1 s)
    """

    code, name, title = "E409", "wide-tolerance", "Tolerance as wide as the duration"

    def sentence(self) -> str:
        return "With this tolerance the duration could be 0 or less."

    def hint(self) -> str:
        return "Write a smaller tolerance, for example `+- 10 %`."


@frozen
class ToleranceHere(Mistake):
    """A duration with a tolerance stands where one exact quantity is wanted.

    What it means:
        Timers have tolerances; limits do not. A constant with a tolerance can only be the time of a timer.

    Why it matters:
        A limit that is now here, now there could not be proved or broken.

    Instead of:
        constants
            hold_time = 4 min +- 10 %
        requirements
            danger short never wake for longer than hold_time

    Write:
        constants
            hold_time = 4 min
        requirements
            danger short never wake for longer than hold_time
    """

    code, name, title = "E410", "tolerance-here", "Tolerance where an exact quantity is wanted"

    def sentence(self) -> str:
        return "Here one exact quantity is wanted, not one with a tolerance."

    def hint(self) -> str:
        return "Write the exact quantity itself, for example `4 min`."


@frozen
class PreviousInTimer(Mistake):
    """In a requirement, or in what is given, `previous` stands inside a timer.

    What it means:
        There `previous` is what was so just before: it becomes true just after the moment at which the thing itself
        does, so that there is no first instant at which it is.

    Why it matters:
        A timer counts from the first instant on. Whether its time is over at an instant, or only just after it, would
        be anybody's guess.

    Instead of:
        requirements
            danger steady never on_delay(previous(brake), 3 s)

    Write:
        requirements
            danger steady never on_delay(brake, 3 s)
    """

    what: str

    code, name, title = "E415", "previous-in-timer", "`previous` inside a timer"

    def sentence(self) -> str:
        return f"What was so just before has no first instant for a time to count from: no `previous` in {self.what}."

    def hint(self) -> str:
        return "Name the state itself, or put the timer into a rule of the box and name the rule."
