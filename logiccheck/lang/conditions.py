"""Conditions that come with a call instead of a file, read as if a scenario of the vehicle expected them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import count

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.load import Loaded, load
from logiccheck.lang.program import Expectation, Program
from logiccheck.lang.reading import Reader, SourceFile

_NAME = "conditions_of_the_call"


@frozen
class Asked:
    """The vehicle, and the conditions, as if one of its scenarios expected each; `program` has no such scenario.

    In `loaded` the text of the call stands last among the files, under the name that was given to it.
    """

    loaded: Loaded
    conditions: tuple[Expectation, ...]

    @property
    def program(self) -> Program | None:
        """None where there are mistakes."""
        return self.loaded.program


def load_with(path: str, reader: Reader, text: str, called: str) -> Asked:
    """Loads the vehicle at `path` with the conditions in `text`, separated by commas; mistakes in them are told of a
    file `called` so that holds only the text."""
    line = " ".join(text.splitlines())
    for name in _names():
        begin = f"scenario {name}\n    at 0 s expect "
        loaded = _load(path, reader, f"{begin}{line}\n", called)
        if not any(name in (line if each.path == called else each.text) for each in loaded.files):
            break
    found = tuple(_moved(each, called, len(begin), len(line)) for each in loaded.diagnostics)
    files = tuple(SourceFile(called, line, each.sha256) if each.path == called else each for each in loaded.files)
    if loaded.program is None:
        return Asked(Loaded(None, found, files), ())
    mine = [scenario for scenario in loaded.program.scenarios if scenario.span.file == called]
    rest = tuple(scenario for scenario in loaded.program.scenarios if scenario.span.file != called)
    conditions = tuple(
        replace(each, span=_shifted(each.span, called, len(begin), len(line)))
        for scenario in mine
        for each in scenario.expectations
    )
    return Asked(Loaded(replace(loaded.program, scenarios=rest), found, files), conditions)


def _names() -> Iterator[str]:
    """What the scenario may be called; one that the user writes anywhere is not free."""
    return (_NAME if number == 1 else f"{_NAME}_{number}" for number in count(1))


def _load(path: str, reader: Reader, text: str, called: str) -> Loaded:
    """The vehicle, with this text as one of its files."""
    raw = text.encode(errors="surrogatepass")
    return load(path, lambda asked: raw if asked == called else reader(asked), (called,))


def _moved(found: Diagnostic, called: str, begin: int, width: int) -> Diagnostic:
    other = None if found.other is None else _shifted(found.other, called, begin, width)
    return replace(found, span=_shifted(found.span, called, begin, width), other=other)


def _shifted(span: Span, called: str, begin: int, width: int) -> Span:
    """Where the span stands in the text of the call."""
    if span.file != called:
        return span
    return Span(called, *(min(max(0, offset - begin), width) for offset in (span.begin, span.end)))
