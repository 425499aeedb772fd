"""`about NAME`: the long text of a message or of a word that a check prints."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules

from logiccheck.base.assets import report_schema
from logiccheck.base.diagnostic import Message, Mistake
from logiccheck.base.suggest import near
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.status import GOOD
from logiccheck.cli.streams import put
from logiccheck.lang import mistakes
from logiccheck.report.long_texts import LongText, long_texts
from logiccheck.report.report import Outcome, Report
from logiccheck.study.findings import MESSAGES


def run(arguments: argparse.Namespace) -> int:
    """Names and codes are both understood, in small or capital letters; without one all names are listed."""
    if arguments.schema:
        put(report_schema())
        return GOOD
    known = texts()
    if arguments.name is None:
        return printed(Report("", "", Outcome.GOOD, notes=tuple(text.names[0] for text in known)), arguments)
    wanted = arguments.name.casefold().replace("_", "-").replace(" ", "-")
    found = next((text for text in known if wanted in text.names), None)
    if found is not None:
        return printed(Report("", "", Outcome.GOOD, texts=(found,)), arguments)
    names = [text.names[0] for text in known]
    close = near(wanted, names)
    meant = f" Did you mean {' or '.join(close)}?" if close else ""
    return refused(f"There is no message named {arguments.name}.{meant}\nThere are: {', '.join(names)}", arguments)


def texts() -> tuple[LongText, ...]:
    """Every text there is; the messages of the front end are those of the modules in its folder of mistakes."""
    for module in iter_modules(mistakes.__path__):
        import_module(f"{mistakes.__name__}.{module.name}")
    front_end = _concrete(Mistake)  # type: ignore[type-abstract]
    by_code = {message.code: message for message in (*front_end, *MESSAGES)}
    return long_texts(tuple(by_code.values()))


def _concrete(kind: type[Message]) -> Iterator[type[Message]]:
    """The message classes under `kind` that have a code; one with slots may come twice, as two classes."""
    for each in kind.__subclasses__():
        yield from _concrete(each)
        if "code" in vars(each):
            yield each
