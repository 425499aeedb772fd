"""Mistakes about what copper stands and has around it: currents, percentages, batteries, tell-tales."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen


@frozen
class ElectricsTwice(Mistake):
    """A vehicle has two blocks `electrics`.

    What it means:
        What all copper of a vehicle has around it stands in one place: its voltage, its temperatures, its batteries.

    Why it matters:
        Two blocks could say two things, in two files, and nobody would see which one counts.

    Instead of:
        electrics
            nominal 12 V

        electrics
            ambient 40 degC

    Write:
        electrics
            nominal 12 V
            ambient 40 degC
    """

    code, name, title = "E801", "electrics-twice", "Two blocks `electrics`"

    def sentence(self) -> str:
        return "A vehicle has one block `electrics`, and this is a second one."

    def hint(self) -> str:
        return "Put its lines into the first one."

    def second(self) -> str:
        return "the first one"


@frozen
class BatteryTwice(Mistake):
    """Two batteries are behind one source.

    What it means:
        A line `battery` says what is behind a source. Two batteries that are joined for good are one, of what both
        hold together.

    Why it matters:
        How long the parked vehicle lasts could be reckoned from the one or from the other.

    Instead of:
        electrics
            battery plus 70 Ah
            battery plus 90 Ah

    Write:
        electrics
            battery plus 160 Ah
    """

    source: str

    code, name, title = "E802", "battery-twice", "Two batteries for one source"

    def sentence(self) -> str:
        return f"The battery of the source `{self.source}` is said twice."

    def hint(self) -> str:
        return "Keep one of the two lines."

    def second(self) -> str:
        return "the first one"


@frozen
class OutsidePercent(Mistake):
    """A percentage is below 0 or above 100.

    What it means:
        What a battery needs to crank, what it loses, and what voltage may drop are parts of a whole.

    Why it matters:
        No part is larger than the whole.

    Instead of:
        electrics
            battery plus 70 Ah, cranks with 160 %

    Write:
        electrics
            battery plus 70 Ah, cranks with 60 %
    """

    value: str
    subject: str

    code, name, title = "E803", "outside-percent", "Percentage outside 0 to 100"

    def sentence(self) -> str:
        return f"{self.value} cannot be {self.subject}: it is a part of a whole."

    def hint(self) -> str:
        return "Take a value from 0 % to 100 %."


@frozen
class InrushBelow(Mistake):
    """An inrush current is below the current that follows it.

    What it means:
        The inrush is what flows just after switching on, in all; it is not added to the current.

    Why it matters:
        Reckoned so, the load would draw least while it draws most.

    Instead of:
        controller "Box" powered by feed
            output pump when key_on load 8 A, inrush 2 A for 80 ms

    Write:
        controller "Box" powered by feed
            output pump when key_on load 8 A, inrush 22 A for 80 ms
    """

    inrush: str
    current: str

    code, name, title = "E804", "inrush-below", "Inrush below the current"

    def sentence(self) -> str:
        return f"The inrush of {self.inrush} is below the current of {self.current}."

    def hint(self) -> str:
        return "Write the inrush as what flows in all just after switching on, or leave it out."

    def second(self) -> str:
        return "the current"


@frozen
class BundleCount(Mistake):
    """The number of conductors in a bundle is not a whole number from 1 on.

    What it means:
        `bundle of 5` says that five conductors lie together in one tube or tape, this one among them.

    Why it matters:
        The more lie together, the less each may carry.

    Instead of:
        harness
            wire lamp_wire from plus, wire 1 mm2, bundle of 0

    Write:
        harness
            wire lamp_wire from plus, wire 1 mm2, bundle of 5
    """

    most: int

    code, name, title = "E805", "bundle-count", "Not a number of conductors"

    def sentence(self) -> str:
        return f"Behind `bundle of` stands how many conductors lie together: a whole number from 1 to {self.most}."

    def hint(self) -> str:
        return "Count this one too, for example `bundle of 5`; leave it out for a wire that lies alone."


@frozen
class CurrentOfWire(Mistake):
    """A wire is said to draw a current.

    What it means:
        A wire carries what hangs on it. Behind its connections stand its fuse, its size and how it lies.

    Why it matters:
        The current of a load is counted where the load is; said of the wire too, it would be there twice.

    Instead of:
        harness
            wire lamp_wire from plus, 4 A, fuse 10 A

    Write:
        harness
            wire lamp_wire from plus, fuse 10 A
            load horn on lamp_wire 4 A
    """

    wire: str

    code, name, title = "E806", "current-of-wire", "Wire that draws a current"

    def sentence(self) -> str:
        return f"The wire `{self.wire}` draws nothing itself: what hangs on it does."

    def hint(self) -> str:
        return f"Say it of a load: `load {self.wire}_load on {self.wire} 4 A`; here only its fuse and its size."


@frozen
class AwakeOrAsleep(Mistake):
    """What the box draws does not say when.

    What it means:
        A box draws something while it has power and works, and less, but hardly ever nothing, while it sleeps.

    Why it matters:
        The parked battery lives from what the box draws asleep.

    Instead of:
        controller "Box" powered by feed
            draws 120 mA always_on

    Write:
        controller "Box" powered by feed
            draws 120 mA awake
    """

    word: str

    code, name, title = "E807", "awake-or-asleep", "Current of the box that does not say when"

    def sentence(self) -> str:
        return f"The box draws a current `awake` or `asleep`, not `{self.word}`."

    def hint(self) -> str:
        return "Write for example `draws 120 mA awake, 1.5 mA asleep`."


@frozen
class MemoryInElectrics(Mistake):
    """A line of `electrics` has a timer, an edge or a stored state.

    What it means:
        `parked`, the `while` of `dip` and `tell_tale`, and what a tell-tale shows, are so or not so at one instant.

    Why it matters:
        They are held against every instant of a story. For how long is said by the forms themselves, with `within` and
        `for at most`.

    Instead of:
        electrics
            tell_tale on_delay(lamp, 3 s) within 5 s

    Write:
        electrics
            tell_tale lamp within 5 s
    """

    what: str
    place: str

    code, name, title = "E808", "memory-in-electrics", "Line of `electrics` with a memory"

    def sentence(self) -> str:
        return f"{self.place[0].upper()}{self.place[1:]} speaks of one instant: `{self.what}` cannot stand in it."

    def hint(self) -> str:
        return "Name the state itself; where it takes a time, put that into a rule or a relay and name it here."
