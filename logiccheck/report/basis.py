"""What the answers of a check rest on, printed with every verdict and not left to the manual."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.lang.program import Program
from logiccheck.lang.reading import SourceFile
from logiccheck.report import words_check as words
from logiccheck.report.excerpt import as_written
from logiccheck.report.report import Basis


def basis(program: Program, sources: Iterable[SourceFile]) -> Basis:
    """Assumptions in the user's own words, limits, and the mark of tool and files."""
    read = tuple(sources)
    return Basis(
        assumptions=tuple(_assumptions(program, texts(read))) or (words.NO_ASSUMPTION,),
        limits=words.LIMITS,
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
