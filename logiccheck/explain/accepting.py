"""Who accepts what was found: each line under `accepted` held against findings, and requirements that do not hold."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from typing import TypeAlias

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.suggest import near
from logiccheck.explain.finding import Finding
from logiccheck.lang.fingerprint import Marks
from logiccheck.lang.mistakes.accepted import UnknownFinding
from logiccheck.lang.program import Accepted, Program, Requirement
from logiccheck.lang.resolve.accepted import REQUIREMENT

Claim: TypeAlias = tuple[str, str, str]  # a kind of finding, or "requirement"; what it is about; the mark of its logic


@frozen
class Word:
    """The `mark` of what a finding, or a requirement that does not hold, rests on ("" if it cannot be accepted); the
    `line` about it, and whether that `holds`: the logic is still the one that was accepted."""

    mark: str
    line: Accepted | None = None
    holds: bool = False


NO_WORD = Word("")


@frozen
class Accepting:
    """`findings`: a word for each, in their order; `requirements`: for those that do not hold, by name. `vain` lines
    accept what is not so; of what `unseen` ones accept it was not found out this time."""

    findings: tuple[Word, ...] = ()
    requirements: Mapping[str, Word] | None = None
    vain: tuple[Accepted, ...] = ()
    unseen: tuple[Accepted, ...] = ()

    def of_finding(self, at: int) -> Word:
        return self.findings[at] if at < len(self.findings) else NO_WORD

    def of_requirement(self, name: str) -> Word:
        return (self.requirements or {}).get(name, NO_WORD)


def accepting(
    program: Program,
    findings: Sequence[Finding],
    failing: Sequence[Requirement],
    names: Mapping[str, str],
    looked: Collection[str],
    holding: Collection[str],
) -> Accepting:
    """`names`: the name of each kind of finding by its name and its code; `looked`: the kinds that were looked for to
    the end; `failing` are the requirements that do not hold, `holding` the names of those that do."""
    if not (findings or failing or program.accepted):
        return Accepting()
    marks = Marks(program)
    claims = _claims(marks, findings)
    claims += [(REQUIREMENT, each.name, marks.of_requirement(each)) for each in failing]
    lines = {(names.get(each.kind, each.kind), each.about, each.logic): each for each in program.accepted}
    words = [_word(claim, claims, lines) for claim in claims]
    used = {id(word.line) for word in words}
    rest = [(claim, line) for claim, line in lines.items() if id(line) not in used]
    ended = [claim[1] in holding if claim[0] == REQUIREMENT else claim[0] in looked for claim, _ in rest]
    return Accepting(
        tuple(words[: len(findings)]),
        {each.name: word for each, word in zip(failing, words[len(findings) :], strict=True)},
        tuple(line for (_, line), end in zip(rest, ended, strict=True) if end),
        tuple(line for (_, line), end in zip(rest, ended, strict=True) if not end),
    )


def _claims(marks: Marks, findings: Sequence[Finding]) -> list[Claim]:
    """Of several findings of one kind about the same names each has a mark of its own."""
    claims: list[Claim] = []
    seen: Counter[tuple[str, ...]] = Counter()
    for finding in findings:
        kind, signals = finding.message.name, finding.signals
        key = (kind, *sorted(signals))
        mark = marks.of_finding(kind, signals, seen[key]) if signals else ""
        seen[key] += 1
        claims.append((kind, signals[0] if signals else "", mark))
    return claims


def _word(claim: Claim, claims: Sequence[Claim], lines: Mapping[Claim, Accepted]) -> Word:
    kind, about, mark = claim
    exact = lines.get(claim)
    if exact is not None:
        return Word(mark, exact, holds=True)
    taken = set(claims)
    other = (line for key, line in lines.items() if key[:2] == (kind, about) and key not in taken)
    return Word(mark, next(other, None))


def unknown_kinds(program: Program, names: Mapping[str, str]) -> tuple[Diagnostic, ...]:
    """A mistake for each line that accepts what is no kind of finding; `names` as above."""
    strange = [line for line in program.accepted if line.kind not in names and line.kind != REQUIREMENT]
    known = [*names.values(), REQUIREMENT]
    return tuple(Diagnostic(UnknownFinding(line.kind, near(line.kind, known)), line.kind_span) for line in strange)
