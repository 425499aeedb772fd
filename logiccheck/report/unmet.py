"""Why an expectation is not met: the signals in it that decide, the fewest facts that force each, the user's lines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logiccheck.base.span import Span
from logiccheck.explain.deciding import deciding
from logiccheck.explain.facts import function
from logiccheck.explain.reasons import Reason, reason
from logiccheck.explain.situation import Situation
from logiccheck.lang.program import Program, Signal, SignalKind
from logiccheck.model.timeline import Timeline
from logiccheck.report import words_played as words
from logiccheck.report.excerpt import excerpt
from logiccheck.report.facts import Teller, state
from logiccheck.report.report import Cause
from logiccheck.report.words_causes import AND_HERE
from logiccheck.study.simulate import Judged

MOST = 3  # signals of one expectation that are explained


def why_not(timeline: Timeline, judged: Judged, files: Mapping[str, str]) -> tuple[Cause, ...]:
    """Why it is not so at the first instant at which it is not; nothing where that was never played, or is up to hands
    alone.
    """
    if judged.breaks is None:
        return ()
    situation = Situation(timeline, judged.breaks.time)
    found = [cause for signal in _signals(situation, judged)[:MOST] for cause in _forced(situation, signal, files)]
    return tuple(found)


def _signals(situation: Situation, judged: Judged) -> list[Signal]:
    """The signals in it that decide; none where the expectation itself remembers, or looks back."""
    try:
        terms = deciding(judged.expectation.p, [situation.values]).terms
    except LookupError:
        return []
    return [term for term in terms if isinstance(term, Signal)]


def _forced(situation: Situation, signal: Signal, files: Mapping[str, str]) -> Iterator[Cause]:
    found = reason(function(situation.program, situation.values, signal))
    load = _load(situation.program, signal, files)
    name, holds = load or signal.name, situation.values.holds(signal)
    teller = Teller(situation, files, name)
    reads = state(Signal(SignalKind.RULE, name) if load else signal, holds)
    sentence = words.because(name, reads, [teller.tell(fact) for fact in found.facts])
    for number, spans in enumerate(_places(found)):
        yield Cause(sentence if number == 0 else AND_HERE, excerpt(spans, files))


def _load(program: Program, signal: Signal, files: Mapping[str, str]) -> str | None:
    """The load as which it is named there, where it is a wire on which one hangs."""
    span = signal.span
    written = files.get(span.file, "")[span.begin : span.end].split()
    loads = [load.name for load in program.loads if load.wire == signal.name and signal.kind is SignalKind.LIVE]
    return next((name for name in loads if name in written[:1]), None)


def _places(found: Reason) -> list[list[Span]]:
    """Where the facts are written, file by file; one without places where there is none."""
    spans: dict[str, list[Span]] = {}
    for fact in found.facts:
        for span in (*fact.via, *fact.spans):
            spans.setdefault(span.file, []).append(span)
    return list(spans.values()) or [[]]
