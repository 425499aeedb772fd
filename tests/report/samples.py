"""Two made-up reports, one bad and one good, that every output format is held against."""

from __future__ import annotations

from logiccheck.engine.verdict import Kind
from logiccheck.report.report import (
    Basis,
    Cause,
    Excerpt,
    ExpectationPart,
    Group,
    Level,
    Line,
    Notice,
    Outcome,
    PlayedPart,
    Report,
    Row,
    Shown,
    Table,
    TroublePart,
    VerdictPart,
    WaivedPart,
)

BASIS = Basis(
    assumptions=("At first key is off.", "engine is 0 rpm after not ignition has lasted 3 s"),
    limits=("Reactions take no time: a pulse shorter than the scan of your box is taken as seen.", "Nothing breaks."),
    caution="This checks what the files say, not the vehicle.",
    colophon=("logiccheck 0.1.0, language 1; read: boat.circuit; sha256 0123456789abcdef",),
)

STORY = Shown(
    table=Table(
        columns=("at first", "1 s", "just after 4 min 2 s"),
        groups=(
            Group("hands", (Row("key", "Ignition key", ("off", "run", "")), Row("engine", "", ("0 rpm", "", "")))),
            Group("copper", (Row("key_wire", "", ("dead", "live", "")),)),
            Group("box", (Row("bilge_pump", "Bilge pump", ("off", "on", "")),)),
            Group("timers", (Row("hold", "", ("", "runs 4 min 1 s", "ends")),)),
        ),
    ),
    causes=(
        Cause(
            "bilge_pump is on because of the marked terms together:",
            Excerpt(
                "boat.circuit:31:40",
                (Line(31, '    output bilge_pump "Lenzpumpe für Öl"  when a or b', ((46, 47), (51, 52))),),
            ),
        ),
    ),
    remarks=("Signals not involved, and not shown: 12.",),
)

BAD = Report(
    opening="Day boat: NOT SAFE TO LOAD. Requirements that fail: 1 of 4.",
    closing="proved 1, fails 1, not decided 1, no case 1, blocked 0, expectations not met 1: not safe to load",
    outcome=Outcome.FAILS,
    notices=(
        Notice(
            level=Level.WARNING,
            name="unused-sense",
            code="L001",
            sentence="Nothing depends on the sense horn_key.",
            excerpts=(
                Excerpt("boat.circuit:20:5", (Line(20, "    sense horn_key from horn_wire live", ((10, 18),)),)),
            ),
            second="",
            advice="Use it in a rule, or take it out.",
        ),
    ),
    troubles=(
        TroublePart(
            title="NOT DECIDED: DO THE RULES AND RELAYS ALWAYS COME TO REST?",
            sentences=("While that is open, no requirement counts as proved.",),
            givens=("never a and b",),
            shown=None,
        ),
    ),
    verdicts=(
        VerdictPart(
            name="no_flat_battery",
            label="The battery lasts",
            guards="guards against damage",
            text="never bilge_pump while key is off for longer than 4 min",
            place="boat.circuit:58",
            kind=Kind.FAILS,
            sentence="Unbroken since 2 s, and so for longer than 4 min: bilge_pump, while key is off.",
            shown=STORY,
            remarks=(),
        ),
        VerdictPart(
            name="no_crank",
            label="",
            guards="guards against danger to people",
            text="never starter while engine above 500 rpm",
            place="boat.circuit:59",
            kind=Kind.NO_CASE,
            sentence="Holds, but says nothing: this can never be so: engine above 500 rpm",
            shown=None,
            remarks=(),
        ),
        VerdictPart(
            name="lamps",
            label="",
            guards="guards a function",
            text="key becomes run calls for lamps no later than 1 s",
            place="boat.circuit:60",
            kind=Kind.NOT_DECIDED,
            sentence="Not decided: the time for it ran out. More time: --budget SECONDS.",
            shown=None,
            remarks=("Covered so far: no story of 7 or fewer moments breaks it.",),
        ),
        VerdictPart(
            name="no_short",
            label="",
            guards="guards against danger to people",
            text="no wire is live and grounded at once",
            place="",
            kind=Kind.PROVED,
            sentence="Proved for all situations, orders and timings.",
            shown=None,
            remarks=(),
        ),
    ),
    played=(
        PlayedPart(
            name="arrival",
            label="Coming aboard",
            sentence="Expectations met: 1 of 2.",
            table=None,
            met=1,
            expectations=(
                ExpectationPart(True, "At 1 s as expected: lamps", None),
                ExpectationPart(
                    False,
                    "At 2 s not as expected: not bilge_pump",
                    Excerpt("boat.circuit:70:27", (Line(70, "        at 2 s expect not bilge_pump", ((22, 36),)),)),
                ),
            ),
        ),
    ),
    notes=("To keep the stories as files: logiccheck check boat.circuit --save stories",),
    basis=BASIS,
    waived=(
        WaivedPart(
            name="boats_blower",
            label="The blower runs first",
            guards="guards against danger to people",
            text="starter only after blower has lasted 4 min",
            place="boat.circuit:5",
            reason='A diesel, so no "petrol" vapour.',
            sentence='Not asked, because it is waived: A diesel, so no "petrol" vapour.',
        ),
    ),
)

GOOD = Report(
    opening="Day boat: ALL PROVED. Requirements that hold in all situations, orders and timings: 2 of 2.",
    closing="proved 2, fails 0, not decided 0, no case 0, blocked 0: all proved",
    outcome=Outcome.GOOD,
    verdicts=(
        VerdictPart(
            name="can_start",
            label="It starts",
            guards="guards a function",
            text="possible starter",
            place="boat.circuit:61",
            kind=Kind.PROVED,
            sentence="It can happen, and this is how:",
            shown=Shown(
                Table(("at first", "1 s"), (Group("hands", (Row("key", "", ("off", "start")),)),)),
                (),
                ("Signals not involved, and not shown: 3.",),
            ),
            remarks=(),
        ),
        VerdictPart(
            name="no_key_no_starter",
            label="",
            guards="guards against danger to people",
            text="never starter while key is off",
            place="boat.circuit:62",
            kind=Kind.PROVED,
            sentence="Proved for all situations, orders and timings.",
            shown=None,
            remarks=(),
        ),
    ),
    basis=BASIS,
)
