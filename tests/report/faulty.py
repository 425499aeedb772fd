"""A made-up report of single faults, with everything in it that may stand in one."""

from __future__ import annotations

from logiccheck.engine.verdict import Kind
from logiccheck.report import words_faults as words
from logiccheck.report import words_pairs
from logiccheck.report.faults_part import EffectPart, EndangeredPart, FaultsPart, HitPart, Severity
from logiccheck.report.report import FileRead, Group, Outcome, Report, Row, Table, WhyPart, WhySection
from tests.report.samples import BASIS

PART = FaultsPart(
    answer=(words.KINDS_OF_START, words.unproved([("lamps_lit", Kind.FAILS)])),
    endangered=(
        EndangeredPart(
            name="no_key_no_spark",
            label="No spark <without> a key & hand",
            guards="guards against danger to people",
            severity=Severity.DANGER,
            text="never ignition while key is off",
            place="boat.circuit:40",
            sentence=words.hits(2, 1),
            hits=(
                HitPart("key_wire live", "from the start", "at 0 s key is off", "hidden", True, 1),
                HitPart(
                    "hold welded", "if it breaks later", "at 4 min 2 s hold breaks", "noticed: lamp within 5 s", False
                ),
            ),
            open=(words.unanswered(["wake live", "wake open"], "not decided: the time ran out"),),
        ),
        EndangeredPart(
            name="starts",
            label="",
            guards="guards a function",
            severity=Severity.FUNCTION,
            text="possible ignition",
            place="",
            sentence=words.hits(3, 1),
            hits=(
                HitPart("key_wire open", "from the start", "", "noticed: lamp within 5 s", False),
                HitPart("main dead", "from the start", "", "noticed: lamp within 5 s", False),
                HitPart("wake open", "if it breaks later", "at 7 s wake opens", "hidden", True),
            ),
            brief=True,
        ),
    ),
    effects=(
        EffectPart(
            "key_wire",
            "=Zündung",
            "wire",
            "boat.circuit:12",
            "open",
            "what hangs on it reads neither live nor grounded",
            ("starts fails from the start",),
            Severity.FUNCTION,
            "noticed: lamp within 5 s",
            False,
        ),
        EffectPart(
            "key_wire",
            "=Zündung",
            "wire",
            "boat.circuit:12",
            "live",
            "it is live whenever any source is live",
            ("no_key_no_spark fails from the start", "starts: not decided"),
            Severity.DANGER,
            "hidden",
            True,
        ),
        EffectPart("wake", "", "wire", "", "live", "it is live", ("not decided",), Severity.OPEN, "hidden", True),
        EffectPart("wake", "", "wire", "", "open", "nothing", (words.NO_END,), Severity.NONE, "hidden", True),
        EffectPart("wake", "", "wire", "", "grounded", "shorted", ("x fails",), Severity.SHORT, "hidden", True),
        EffectPart("main", "", "source", "", "dead", "it is dead", ("x fails",), Severity.DAMAGE, "hidden", True),
    ),
    cautions=(words.LISTED, *words.HANDS_ON),
    pairs=(
        EndangeredPart(
            name="no_key_no_spark",
            label="",
            guards="guards against danger to people",
            severity=Severity.DANGER,
            text="never ignition while key is off",
            place="boat.circuit:40",
            sentence=words_pairs.hits(1, 1, 0, words_pairs.standing(1, True, False, None)),
            hits=(
                HitPart(words_pairs.pair("wake open", "hold dead"), words.BOTH_SOMETIME, "at 1 s", "both hidden", True),
            ),
        ),
    ),
)

FAULTY = Report(
    opening="Day boat: Single faults that can let something dangerous happen: 1 of 6. Hidden of these: 1.",
    closing="faults 6, danger 1: one fault is enough for danger",
    outcome=Outcome.FAILS,
    why=WhyPart(
        answer=(),
        sections=(
            WhySection(
                "Story 1: no_key_no_spark fails with key_wire live, from the start",
                ("Signals not involved, and not shown: 12.",),
                table=Table(
                    ("at first", "1 s"),
                    (Group("hands", (Row("key", "Schlüssel", ("off", "")), Row("w", "", ("", "x")))),),
                ),
            ),
        ),
    ),
    basis=BASIS,
    files=(FileRead("boat.circuit", "0" * 64),),
    faults=PART,
)
