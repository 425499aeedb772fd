"""What the answers of a check rest on, printed with every verdict and not left to the manual."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.lang.program import Compare, Form, Position, Program, Signal, SignalKind
from logiccheck.lang.reading import SourceFile
from logiccheck.lang.walk import Leaf, form_expressions, references
from logiccheck.report import words_check as words
from logiccheck.report.excerpt import as_written
from logiccheck.report.report import Basis, FileRead


def basis(program: Program, sources: Iterable[SourceFile]) -> Basis:
    """Assumptions in the user's own words, limits, and the mark of tool and files."""
    read = tuple(sources)
    return Basis(
        assumptions=tuple(_assumptions(program, texts(read))) or (words.NO_ASSUMPTION,),
        limits=(*words.LIMITS, *_beliefs(program)),
        caution=words.CAUTION,
        colophon=colophon(read),
    )


def texts(sources: Iterable[SourceFile]) -> dict[str, str]:
    """The text of each file by its path, the main file first."""
    return {source.path: source.text for source in sources}


def colophon(sources: Iterable[SourceFile]) -> tuple[str, ...]:
    """Which tool read which files."""
    read = [words.read(source.path, source.sha256) for source in sources]
    return (words.tool(VERSION, LANGUAGE), *read)


def files_read(sources: Iterable[SourceFile]) -> tuple[FileRead, ...]:
    """The files themselves, each marked by what is in it."""
    return tuple(FileRead(source.path, source.sha256) for source in sources)


def believed(form: Form) -> tuple[str, ...]:
    """The senses and rules that a requirement names, each once, in the order written."""
    leaves = (leaf for expr in form_expressions(form) for leaf in references(expr))
    return tuple(dict.fromkeys(leaf.name for leaf in leaves if _is_belief(leaf)))


def _is_belief(leaf: Leaf) -> bool:
    match leaf:
        case Signal(kind=kind):
            return kind in (SignalKind.SENSE, SignalKind.RULE)
        case Compare(sense=sense):
            return sense
        case Position():
            return False


def _beliefs(program: Program) -> Iterator[str]:
    names = [requirement.name for requirement in program.requirements if believed(requirement.form)]
    if names:
        yield words.believing(names)


def _assumptions(program: Program, files: Mapping[str, str]) -> Iterator[str]:
    if program.at_first:
        yield words.at_first([as_written(fact, files) for fact in program.at_first])
    for switch in program.switches:
        if switch.one_by_one:
            yield words.one_by_one(switch.name, switch.positions)
    for given in program.givens:
        yield given.text
    for number in program.numbers:
        if not number.jumps:
            yield words.without_jumps(number.name)
