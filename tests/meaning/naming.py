"""Who may name what, and what may stand where: lines that are right, and lines that are a mistake."""

from __future__ import annotations

from tests.meaning.sentences import Named

VEHICLE = """
world
    x contact
    key off | run
    engine 0 .. 7000 rpm
harness
    source plus
    ground strap
    wire w from plus when x
    wire v
    relay k coil x
    load pump on w
{harness}
controller powered by plus
    sense s from w live
    sense revs from engine
    output o when s feeds v
    rule r = s
{controller}
given
    never x and engine above 6000 rpm
{given}
requirements
    danger d never x
{requirements}
"""


def line(block: str, text: str) -> str:
    """The vehicle with one more line in this block."""
    blocks = dict.fromkeys(("harness", "controller", "given", "requirements"), "") | {block: f"    {text}"}
    return VEHICLE.format(**blocks)


def named(slug: str, says: str, block: str, text: str, mistake: str = "", wrong: str = "") -> Named:
    return Named(slug, says, line(block, text), mistake, {"language": wrong} if wrong else {})


WORLD_ONLY = "what the box cannot sense it cannot know"
COPPER = "copper is of the world and of relay contacts"
COIL = "a coil may name the world, wires, sources, relay contacts and outputs, and may hold timers and memory"
GIVEN = "assumptions are of the world; outputs only as y of `changes only while` and p of `has lasted`"
INSTANT = "even for an instant: plain conditions only"
EDGE = "an edge inside a timer or an edge is a mistake"
PREVIOUS = "previous inside a timer of a requirement is a mistake"
CIRCLE = "a circle of rules without `previous` is an error, also through a timer or a bistable"

ALL = (
    named("rule-names-senses-rules-outputs", WORLD_ONLY, "controller", "rule q = s and r and o and revs above 5 rpm"),
    named("rule-names-the-world", WORLD_ONLY, "controller", "rule q = x", "CannotSense"),
    named("rule-names-a-position", WORLD_ONLY, "controller", "rule q = key is run", "CannotSense"),
    named("rule-names-a-number", WORLD_ONLY, "controller", "rule q = engine above 5 rpm", "CannotSense"),
    named("rule-names-a-wire", WORLD_ONLY, "controller", "rule q = w", "CannotSense"),
    named("rule-names-ground", WORLD_ONLY, "controller", "rule q = w is grounded", "CannotSense"),
    named("rule-names-a-relay", WORLD_ONLY, "controller", "rule q = k", "CannotSense"),
    named("rule-names-a-source", WORLD_ONLY, "controller", "rule q = plus", "CannotSense"),
    named("rule-names-a-load", WORLD_ONLY, "controller", "rule q = pump", "CannotSense"),
    named("rule-names-its-power", WORLD_ONLY, "controller", "rule q = powered", "CannotSense"),
    named("command-names-the-world", WORLD_ONLY, "controller", "output q when x", "CannotSense"),
    named("rule-with-becomes", "`becomes` is for requirements", "controller", "rule q = s becomes on", "BecomesHere"),
    named("rule-of-an-edge-in-a-timer", "in the box an edge may start a timer", "controller", "rule q = one_shot(rises(s), 2 s)"),
    named("bare-number-sense", "number senses only in comparisons", "controller", "rule q = revs", "NumberAlone"),
    named("sense-of-a-switch", "a sense is of a wire or a number", "controller", "sense q from x", "SwitchSensed"),
    named("sense-of-a-relay", "a sense is of a wire or a number", "controller", "sense q from k live", "SwitchSensed"),
    named("sense-of-an-output", "a sense is of a wire or a number", "controller", "sense q from o live", "WrongKind"),
    named("circle-of-rules", CIRCLE, "controller", "rule q = not q", "RuleCircle"),
    named("circle-through-a-timer", CIRCLE, "controller", "rule q = off_delay(s and not q, 1 s)", "RuleCircle"),
    named("circle-through-a-bistable", CIRCLE, "controller", "rule q = bistable(set s, reset q)", "RuleCircle"),
    named("circle-through-an-impulse-relay", CIRCLE, "controller", "rule q = impulse_relay(s, reset q)", "RuleCircle"),
    named("circle-through-an-edge", CIRCLE, "controller", "rule q = rises(q)", "RuleCircle"),
    named("circle-of-an-output", CIRCLE, "controller", "output q when s or q feeds w", "RuleCircle"),
    named("circle-with-previous", CIRCLE, "controller", "rule q = s or previous(q)"),
    named("circle-with-previous-in-a-timer", CIRCLE, "controller", "rule q = off_delay(s and not previous(q), 1 s)"),
    named("circle-in-previous-of-more", CIRCLE, "controller", "rule q = s or previous(not q and s)"),
    named("contact-of-world-and-relay", COPPER, "harness", "wire q from plus when x and k and engine above 5 rpm"),
    named("contact-of-a-wire", COPPER, "harness", "wire q from plus when w", "ContactOfCopper"),
    named("contact-of-a-source", COPPER, "harness", "wire q from plus when plus", "ContactOfCopper"),
    named("contact-of-an-output", COPPER, "harness", "wire q from plus when o", "ContactOfCopper"),
    named("contact-of-a-rule", COPPER, "harness", "wire q from plus when r", "ContactOfCopper"),
    named("contact-with-a-timer", "a timer in copper is a relay", "harness", "wire q from plus when on_delay(x, 1 s)", "MemoryInCopper"),
    named("contact-with-an-edge", "a timer in copper is a relay", "harness", "wire q from plus when rises(x)", "MemoryInCopper"),
    named("contact-with-thresholds", "a timer in copper is a relay", "harness", "wire q from plus when engine above 5 rpm until below 3 rpm", "MemoryInCopper"),
    named("source-of-a-relay", COPPER, "harness", "source q when k and x"),
    named("source-of-a-wire", COPPER, "harness", "source q when w", "ContactOfCopper"),
    named("ground-of-a-relay", COPPER, "harness", "ground q when not k and x"),
    named("ground-with-a-timer", "a timer in copper is a relay", "harness", "ground q when off_delay(x, 1 s)", "MemoryInCopper"),
    named("coil-of-all-it-may", COIL, "harness", "relay q coil bistable(set x and w and plus, reset k or rises(o)) supply plus"),
    named("coil-with-a-ground-wire", COIL, "harness", "relay q coil on_delay(w is grounded, 2 s +- 10 %) supply w"),
    named("coil-with-thresholds", COIL, "harness", "relay q coil engine above 5 rpm until below 3 rpm"),
    named("coil-of-a-sense", COIL, "harness", "relay q coil s", "CoilOfBox"),
    named("coil-of-a-rule", COIL, "harness", "relay q coil r", "CoilOfBox"),
    named("coil-of-a-number-sense", COIL, "harness", "relay q coil revs above 5 rpm", "CoilOfBox"),
    named("coil-of-power", COIL, "harness", "relay q coil powered", "CoilOfBox"),
    named("coil-with-previous", "a coil has no `previous`", "harness", "relay q coil previous(x)", "PreviousInCoil"),
    named("coil-retained", "a relay without supply forgets", "harness", "relay q coil bistable(set x, retained)", "RetainedInCoil"),
    named("coil-turned-retained", "a relay without supply forgets", "harness", "relay q coil impulse_relay(x, retained)", "RetainedInCoil"),
    named("coil-with-becomes", "`becomes` is for requirements", "harness", "relay q coil x becomes on", "BecomesHere"),
    named("supply-of-an-output", "a supply is a wire or a source", "harness", "relay q coil x supply o", "WrongKind"),
    named("supply-of-a-relay", "a supply is a wire or a source", "harness", "relay q coil x supply k", "WrongKind"),
    named("requirement-of-everything", "requirements name everything", "requirements",
          "danger e never x and w and w is grounded and k and plus and strap and pump and o and r and s and powered and revs above 5 rpm and engine below 9 rpm"),
    named("requirement-with-memory", "timers, bistables and edges may be used", "requirements",
          "danger e never on_delay(s, 1 s) and bistable(set rises(x), reset o) and x becomes off and previous(o)"),
    named("requirement-with-thresholds", "timers, bistables and edges may be used", "requirements", "danger e never engine above 400 rpm until below 300 rpm"),
    named("requirement-edge-in-a-timer", EDGE, "requirements", "danger e never off_delay(rises(x), 1 s)", "EdgeInTimer"),
    named("requirement-becomes-in-a-timer", EDGE, "requirements", "danger e never one_shot(x becomes off, 1 s)", "EdgeInTimer"),
    named("requirement-edge-in-an-edge", EDGE, "requirements", "danger e never falls(rises(x))", "EdgeInTimer"),
    named("requirement-edge-in-a-blinker", EDGE, "requirements", "danger e never blink(rises(x), on 1 s, off 1 s)", "EdgeInTimer"),
    named("requirement-edge-that-lasts", "has lasted is an on-delay everywhere", "requirements", "danger e o only after rises(x) has lasted 1 s", "EdgeInTimer"),
    named("given-edge-that-lasts", "has lasted is an on-delay everywhere", "given", "x is on after rises(o) has lasted 1 s", "EdgeInTimer"),
    named("requirement-edge-for-longer", "under `for longer than` an edge is a mistake", "requirements",
          "danger e never not rises(x) for longer than 1 s", "EdgeInTimer"),
    named("requirement-previous-in-a-timer", PREVIOUS, "requirements", "danger e never one_shot(x and previous(o), 1 s)", "PreviousInTimer"),
    named("requirement-previous-in-a-blinker", PREVIOUS, "requirements", "danger e never blink(previous(x), on 1 s, off 1 s)", "PreviousInTimer"),
    named("requirement-previous-stored-in-a-timer", PREVIOUS, "requirements",
          "danger e never off_delay(impulse_relay(x, reset previous(o)), 1 s)", "PreviousInTimer"),
    named("requirement-previous-that-lasts", PREVIOUS, "requirements", "danger e o only after previous(x) has lasted 1 s", "PreviousInTimer"),
    named("given-previous-that-lasts", PREVIOUS, "given", "x is on after previous(o) has lasted 1 s", "PreviousInTimer"),
    named("requirement-previous-of-a-timer", "nothing counts from it", "requirements", "danger e never previous(on_delay(x, 1 s)) and o"),
    named("requirement-previous-for-longer", "what is so just after moments counts", "requirements",
          "danger e never previous(x) for longer than 1 s"),
    named("rule-of-a-timer-of-previous", "in the box previous looks at the reaction before", "controller", "rule q = on_delay(previous(s), 2 s)"),
    named("requirement-edge-that-calls", "edges may be used", "requirements", "danger e x becomes on calls for o becomes on no later than 1 s, excused by s becomes off"),
    named("instant-of-plain", INSTANT, "requirements", "danger e never o and w and r and revs above 5 rpm while k even for an instant"),
    named("instant-with-a-timer", INSTANT, "requirements", "danger e never on_delay(x, 1 s) even for an instant", "InstantNeedsPlain"),
    named("instant-with-an-edge", INSTANT, "requirements", "danger e never x becomes on even for an instant", "InstantNeedsPlain"),
    named("instant-with-a-bistable", INSTANT, "requirements", "danger e always bistable(set x) even for an instant", "InstantNeedsPlain"),
    named("instant-with-previous", INSTANT, "requirements", "danger e never previous(x) even for an instant", "InstantNeedsPlain"),
    named("instant-with-thresholds", INSTANT, "requirements", "danger e never engine above 400 rpm until below 300 rpm even for an instant", "InstantNeedsPlain"),
    named("while-with-calls", "`while` belongs to never and always", "requirements", "danger e x calls for o no later than 1 s while k", "syntax"),
    named("calls-mixed", "no later than and lasting are not mixed", "requirements", "danger e x calls for o no later than 1 s lasting 2 s", "syntax"),
    named("always-for-longer", "for longer than belongs to never", "requirements", "danger e always x for longer than 1 s", "syntax"),
    named("given-of-the-world", GIVEN, "given", "never x and key is run"),
    named("given-of-a-wire", GIVEN, "given", "never w", "OutputInGiven"),
    named("given-of-a-relay", GIVEN, "given", "never k", "OutputInGiven"),
    named("given-of-an-output", GIVEN, "given", "never o and x", "OutputInGiven"),
    named("given-of-a-sense", GIVEN, "given", "never s", "OutputInGiven"),
    named("given-while-an-output", GIVEN, "given", "never x while o", "OutputInGiven"),
    named("given-output-lasts", GIVEN, "given", "o lasts at least 1 s", "OutputInGiven"),
    named("given-wire-lasts", GIVEN, "given", "w lasts at most 1 s", "OutputInGiven"),
    named("given-c-of-an-output", GIVEN, "given", "o is on after x has lasted 1 s", "OutputInGiven"),
    named("given-p-of-anything", GIVEN, "given", "x is off after o and w and r and powered and not k has lasted 1 s"),
    named("given-y-of-anything", GIVEN, "given", "x changes only while o or w or off_delay(k, 1 s) or previous(s)"),
    named("given-y-of-an-output-that-changes", "x is of the world", "given", "o changes only while x", "WrongKind"),
    named("given-with-a-timer", "exclusions are of the world as it is", "given", "never on_delay(x, 1 s)", "MemoryInFact"),
    named("given-jumps-of-a-switch", "without jumps is for a number", "given", "x without jumps", "WrongKind"),
    named("thresholds-crossed", "crossed ends are an error", "controller", "rule q = revs above 300 rpm until below 400 rpm", "CrossedThresholds"),
    named("thresholds-crossed-the-other-way", "crossed ends are an error", "controller", "rule q = revs below 400 rpm until above 300 rpm", "CrossedThresholds"),
    named("thresholds-that-meet", "`above` and `below` are strict, so both ends may be one value", "controller", "rule q = revs above 400 rpm until below 400 rpm"),
    named("no-time-in-a-timer", "durations are above 0", "controller", "rule q = off_delay(s, 0 s)", "NotAboveZero"),
    named("no-time-in-a-blinker", "durations are above 0", "controller", "rule q = blink(s, on 1 s, off 0 s)", "NotAboveZero"),
    named("no-time-in-a-tolerance", "durations are above 0, the whole window", "controller", "rule q = off_delay(s, 5 s +- 5 s)", "WideTolerance"),
    named("no-time-in-a-form", "durations are above 0", "requirements", "danger e x calls for o no later than 0 s", "NotAboveZero"),
    named("no-time-given", "durations are above 0", "given", "x lasts at most 0 s", "NotAboveZero"),
    named("no-filter-time", "durations are above 0", "controller", "sense q from w live filter 0 s", "NotAboveZero"),
)  # fmt: skip
