"""Small vehicles with one fault each, and what it does, worked out by hand."""

from __future__ import annotations

from dataclasses import dataclass

from tests.oracle.written import program


@dataclass(frozen=True)
class Broken:
    """One fault, named by a part of its name, and what then is so of the only requirement for each `when` that is asked;
    whole, it is proved."""

    fault: str
    start: str
    later: str
    loose: str
    asked: str
    world: tuple[str, ...] = ("a contact", "at first a is off")
    harness: tuple[str, ...] = ()
    box: tuple[str, ...] = ()
    feed: str = "always_on"

    @property
    def text(self) -> str:
        """The vehicle."""
        return program(self.asked, world=self.world, harness=self.harness, box=self.box, feed=self.feed)


OK = "proved"
W = "wire w from plus when a"
SENSED = {"harness": (W,), "box": ("sense s from w live", "output o when s")}
TWICE = "never bistable(set bistable(set powered and not o) and not powered) and powered and not o"
NUMBER = {"world": ("n 0 .. 9 V", "at first n below 5 V"), "box": ("sense s from n", "output o when s above 5 V")}
CASES_BROKEN = [
    Broken("wiresense s: dead", "fails 2", "fails 2", "fails 2", "always o while a", **SENSED),
    Broken("wiresense s: live", "fails 1", "fails 2", "fails 2", "never o while not a", **SENSED),
    Broken("wiresense s: grounded", "no case", OK, OK, "never o while not a", **SENSED),
    Broken("wiresense s: lost", "fails 1", "fails 2", "fails 2", "never o while not a",
           harness=(W,), box=("sense s from w live substitute on", "output o when s")),
    Broken("wiresense s: live", "fails 3", "fails 4", "fails 4", "never o while not a for longer than 1 s",
           harness=(W,), box=("sense s from w live filter 1 s", "output o when s")),
    Broken("wiresense s: grounded", "fails 2", "fails 2", "fails 2", "never o while a",
           harness=("wire w to ground when not a",), box=("sense s from w grounded", "output o when s")),
    Broken("wiresense s: dead", "fails 1", "fails 2", "fails 2", "always o while not a",
           harness=("wire w to ground when not a",), box=("sense s from w grounded", "output o when s")),
    Broken("wire w: open", "fails 2", "fails 2", "fails 2", "always w is live while a", harness=(W,)),
    Broken("wire w: live", "fails 1", "fails 2", "fails 2", "never w is live while not a", harness=(W,)),
    Broken("wire w: grounded", "fails 1", "fails 2", "fails 2", "never w is grounded", harness=(W,)),
    Broken("contact plus-w: closed", "fails 1", "fails 2", "fails 2", "never w while not a", harness=(W,)),
    Broken("contact plus-w: open", "fails 2", "fails 2", "fails 2", "always w while a", harness=(W,)),
    Broken("ground strap: lost", "fails 2", "fails 2", "fails 2", "always w is grounded while a",
           harness=("ground strap", "wire w to strap when a")),
    Broken("ground ground: lost", "fails 2", "fails 2", "fails 2", "always w is grounded while a",
           harness=("wire w to ground when a",)),
    Broken("diode w->v: open", "fails 2", "fails 2", "fails 2", "always v while a",
           harness=(W, "wire v", "diode w -> v")),
    Broken("diode v->w: shorted", "fails 2", "fails 2", "fails 2", "never v while a",
           harness=(W, "wire v", "diode v -> w")),
    Broken("relay k: welded", "fails 1", "fails 2", "fails 2", "never w while not a",
           harness=("relay k coil a", "wire w from plus when k")),
    Broken("relay k: dead", "fails 2", "fails 2", "fails 2", "always w while a",
           harness=("relay k coil a", "wire w from plus when k")),
    Broken("output o: on", "fails 1", "fails 2", "fails 2", "never o while not a", **SENSED),
    Broken("output o: off", "fails 2", "fails 2", "fails 2", "always o while a", **SENSED),
    Broken("output o: tripped", "", "fails 2", "", "always o while a", **SENSED),
    Broken("source plus: dead", "fails 2", "fails 2", "fails 2", "always w while a", harness=(W,)),
    # what is so only for one `when`
    Broken("wire w: live", "fails 1", OK, OK, "w only after not w", harness=(W,)),
    Broken("contact plus-w: closed", OK, "fails 2", "fails 2", "never rises(w) and not a",
           world=("a contact", "at first a is off"), harness=(W,)),
    Broken("contact plus-w: open", OK, OK, "fails 3", "never rises(w) and not rises(a)", harness=(W,),
           world=("a contact", "at first a is on")),
    # numbers
    Broken("numbersense s: high", "fails 1", "fails 2", "fails 2", "never o while n below 5 V", **NUMBER),
    Broken("numbersense s: low", "fails 2", "fails 2", "fails 2", "always o while n above 5 V", **NUMBER),
    Broken("numbersense s: holding", "no case", "fails 3", "fails 3", "never o while n below 5 V", **NUMBER),
    Broken("numbersense s: lost", "fails 1", "fails 2", "fails 2", "never o while n below 5 V",
           world=NUMBER["world"], box=("sense s from n substitute 7 V", "output o when s above 5 V")),
    Broken("numbersense s: lost", "fails 2", "fails 3", "fails 3", "never o while n below 5 V for longer than 1 s",
           world=NUMBER["world"], box=("sense s from n filter 1 s substitute 7 V", "output o when s above 5 V")),
    Broken("numbersense s: high", "fails 3", "fails 4", "fails 4", "never o while n below 5 V for longer than 1 s",
           world=NUMBER["world"], box=("sense s from n filter 1 s", "output o when s above 5 V")),
    # fuses, and what hangs on them
    Broken("wire w: fuse", "fails 2", "fails 2", "fails 2", "always w while a",
           harness=("wire w from plus when a, fuse 5 A",)),
    Broken("wire w: fuse", OK, OK, OK, "always w while a",
           harness=("wire v from plus when a", "wire w from plus when a, fuse 5 A", "join v with w")),
    Broken("load bulb: fuse", "fails 2", "fails 2", "fails 2", "always bulb while a",
           harness=(W, "load bulb on w 1 A, fuse 5 A")),
    Broken("load bulb: fuse", OK, OK, OK, "always w while a", harness=(W, "load bulb on w 1 A, fuse 5 A")),
    Broken("output o: fuse", "fails 2", "fails 2", "fails 2", "always o while a",
           harness=(W,), box=("sense s from w live", "output o when s\n        load 1 A, fuse 5 A")),
    # output stages
    Broken("output o: on", "fails 2", "fails 2", "fails 2", "never o while not powered",
           harness=("wire v from plus", "wire w from plus when not a"), feed="w",
           box=("output o when true fed by v",)),
    Broken("output o: on", OK, OK, OK, "never o while not powered", harness=("wire w from plus when not a",), feed="w",
           box=("output o when true",)),
    Broken("output o: tripped", "", OK, "", TWICE, harness=("wire w from plus when not a",), feed="w",
           box=("output o when true",)),
    Broken("output o: off", "fails 3", "fails 4", "fails 4", TWICE, harness=("wire w from plus when not a",), feed="w",
           box=("output o when true",)),
    Broken("output o: tripped", "", "fails 2", "", "never rises(not o) and powered",
           harness=("wire w from plus when not a",), feed="w", box=("output o when true",)),
    # an open wire tells nobody anything
    Broken("wire v: open", "fails 1", "fails 2", "fails 2", "always o while not a", harness=("wire v from plus", W),
           box=("output o when true fed by v",)),
    Broken("wire v: open", "fails 1", "fails 2", "fails 2", "always u while not a",
           harness=("wire v from plus", W, "wire u", "join v with u")),
    Broken("wire v: open", "fails 2", "fails 2", "fails 2", "always v while a", harness=(W, "wire v", "join v with w")),
    Broken("wire v: open", "fails 1", "fails 2", "fails 2", "always powered", harness=("wire v from plus", W), feed="v",
           box=("output o when true",)),
]  # fmt: skip
