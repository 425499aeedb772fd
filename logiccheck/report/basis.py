"""What the answers of a check rest on, printed with every verdict and not left to the manual."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping

from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.lang.program import Program
from logiccheck.report import words_check as words
from logiccheck.report.excerpt import as_written
from logiccheck.report.report import Basis


def basis(program: Program, files: Mapping[str, str]) -> Basis:
    """Assumptions in the user's own words, limits, and the mark of tool and files."""
    return Basis(
        assumptions=tuple(_assumptions(program, files)) or (words.NO_ASSUMPTION,),
        limits=words.LIMITS,
        caution=words.CAUTION,
        colophon=(colophon(files),),
    )


def colophon(files: Mapping[str, str]) -> str:
    """Which tool read which files."""
    return words.colophon(VERSION, LANGUAGE, tuple(files), fingerprint(files))


def fingerprint(files: Mapping[str, str]) -> str:
    """SHA-256 over the texts of all files, in the order in which they were read; of one file, its own."""
    return hashlib.sha256("".join(files.values()).encode("utf-8")).hexdigest()


def _assumptions(program: Program, files: Mapping[str, str]) -> Iterator[str]:
    for fact in program.at_first:
        yield words.at_first(as_written(fact, files))
    for switch in program.switches:
        if switch.one_by_one:
            yield words.one_by_one(switch.name, switch.positions)
    for given in program.givens:
        yield given.text
    for number in program.numbers:
        if not number.jumps:
            yield words.without_jumps(number.name)
