"""Every long text that can be asked for: of each message of the front end and the findings, and of the topics."""

from __future__ import annotations

from logiccheck.base.diagnostic import Message, long_text
from logiccheck.base.frozen import frozen
from logiccheck.report.topics import TOPICS


@frozen
class LongText:
    """A text and the names it goes by, in small letters: the name first, then the code."""

    names: tuple[str, ...]
    text: str


def long_texts(messages: tuple[type[Message], ...]) -> tuple[LongText, ...]:
    """Topics first, then the messages in the order of their codes."""
    topics = [LongText((name,), text) for name, text in TOPICS.items()]
    by_code = sorted(messages, key=lambda message: message.code)
    return (*topics, *(LongText((each.name, each.code.casefold()), _laid_out(each)) for each in by_code))


def _laid_out(message: type[Message]) -> str:
    """Title, lead, and each part under its heading."""
    text = long_text(message)
    parts = [f"{message.title} ({message.name}, {message.code})", text.lead]
    for heading, body in text.parts:
        indented = "\n".join(f"    {line}".rstrip() for line in body.splitlines())
        parts.append(f"{heading}:\n{indented}")
    return "\n\n".join(parts)
