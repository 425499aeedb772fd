"""Why a signal is as it is where a story ends, by the fewest facts that are enough: what leads under the story."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.behind import follows_input
from logiccheck.explain.facts import BOXED, Fact, function
from logiccheck.explain.history import fed_values, past, reads
from logiccheck.explain.reasons import Reason, forced, reason
from logiccheck.explain.situation import Situation
from logiccheck.lang.program import Blink, Compare, Position, Signal, WireSense
from logiccheck.lang.walk import references
from logiccheck.model.reaction import Values
from logiccheck.model.truth import Node
from logiccheck.report import words_played as words
from logiccheck.report.facts import Teller, state
from logiccheck.report.own import own_line

FEW = 3  # facts up to which it is told of each, too, that it never came on


@frozen
class End:
    """Where a story ends. `number`: which reaction of that moment is looked at; none: what all settles to."""

    situation: Situation
    number: int | None = None

    def values(self, signal: Signal) -> Values:
        """What is read there, in copper or in the box, as far as it makes this signal."""
        if self.number is None:
            return self.situation.values
        if signal.kind not in BOXED:
            return fed_values(self.situation, self.number)
        return self.situation.played.moment.reactions[self.number].values


@frozen
class Lead:
    """Why the signal `name` is as it is, as a sentence with a full stop.

    `spans` are the places of the facts, those in its own line first; `hands` the places of such as only hands and
    physics move, in other lines, where there are others, too; `own` is its line, `about` are names behind the facts.
    """

    name: str
    sentence: str
    spans: tuple[Span, ...]
    hands: tuple[Span, ...] = ()
    own: Span = NOWHERE
    about: frozenset[str] = frozenset()


def lead(end: End, signal: Signal, files: Mapping[str, str]) -> Lead | None:
    """None where that reaction does not show why: its facts have changed already, or the signal follows them later."""
    program, values = end.situation.program, end.values(signal)
    f = function(program, values, signal)
    if f.value != values.holds(signal):
        return None
    found = reason(f) if end.number is None else forced(f)
    if found is None or (end.number is not None and any(fact.leaf == signal for fact in found.facts)):
        return None
    teller = Teller(end.situation, files, signal.name, brief=len(found.facts) > FEW)
    told = [_told(teller, fact) for fact in found.facts]
    sentence = words.because(signal.name, state(signal, f.value), told)
    own = own_line(program, signal.name)
    ends = [*(source.span for source in program.sources), *(ground.span for ground in program.grounds)]
    return Lead(signal.name, sentence, *_places(own, ends, found), own, frozenset(_about(end.situation, found)))


def _about(situation: Situation, found: Reason) -> Iterator[str]:
    """The names in the facts, as far as these are now what they are because of them; of a sense also what it reads.

    Facts that stood all along have done nothing, unless all did.
    """
    box = situation.program.box
    wires = {sense.name: sense.wire for sense in (box.senses if box else ()) if isinstance(sense, WireSense)}
    changed = [fact for fact in found.facts if not past(situation, fact.leaf).from_start]
    for fact in changed or found.facts:
        idle = isinstance(fact.leaf, Blink) and not situation.values.holds(fact.leaf.x)
        if idle or not isinstance(fact.leaf, Node) or follows_input(situation, fact.leaf, fact.value):
            for leaf in references(fact.leaf):
                yield leaf.name
                if leaf.name in wires:
                    yield wires[leaf.name]


def _told(teller: Teller, fact: Fact) -> str:
    """The fact; how it came to be so is known of what settled only."""
    passing = isinstance(fact.leaf, Node) and reads(teller.situation.played, fact.leaf) != fact.value
    return teller.tell(fact, deep=passing)


def _places(own: Span, ends: Sequence[Span], found: Reason) -> tuple[tuple[Span, ...], tuple[Span, ...]]:
    """`ends`: the lines of sources and grounds, which come last."""
    inside: list[Span] = []
    outside: list[Span] = []
    hands: list[Span] = []
    for fact in found.facts:
        moved = isinstance(fact.leaf, Position) or (isinstance(fact.leaf, Compare) and not fact.leaf.sense)
        for span in (*fact.via, *fact.spans):
            if own.file == span.file and own.begin <= span.begin < own.end:
                inside.append(span)
            elif span != NOWHERE:
                (hands if moved else outside).append(span)
    hands.sort(key=lambda span: any(end.file == span.file and end.begin <= span.begin < end.end for end in ends))
    first, last = tuple(dict.fromkeys((*inside, *outside))), tuple(dict.fromkeys(hands))
    return (first, last) if first else (last, ())
