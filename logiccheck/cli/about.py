"""`about NAME`: the long text of a message or of a word that a check prints."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules

from logiccheck.base.diagnostic import Message, Mistake
from logiccheck.base.suggest import near
from logiccheck.cli.status import GOOD, MISTAKE
from logiccheck.cli.streams import tell
from logiccheck.lang import mistakes
from logiccheck.report.long_texts import LongText, long_texts
from logiccheck.study.findings import MESSAGES


def run(arguments: argparse.Namespace) -> int:
    """Names and codes are both understood, in small or capital letters; without one all names are listed."""
    known = texts()
    if arguments.name is None:
        sys.stdout.write("".join(f"{text.names[0]}\n" for text in known))
        return GOOD
    wanted = arguments.name.casefold().replace("_", "-").replace(" ", "-")
    found = next((text for text in known if wanted in text.names), None)
    if found is not None:
        sys.stdout.write(found.text.rstrip() + "\n")
        return GOOD
    names = [text.names[0] for text in known]
    close = near(wanted, names)
    meant = f" Did you mean {' or '.join(close)}?" if close else ""
    tell(f"There is no message named {arguments.name}.{meant}\nThere are: {', '.join(names)}")
    return MISTAKE


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
