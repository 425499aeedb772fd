"""What keeps the only situation of a requirement away, as a cause of its verdict."""

from __future__ import annotations

from collections.abc import Mapping

from logiccheck.base.span import Span
from logiccheck.explain.aside import Emptiness, Hollow
from logiccheck.report import words_cases as words
from logiccheck.report.excerpt import excerpt
from logiccheck.report.report import Cause


def emptied(emptiness: Emptiness, ruled: bool, files: Mapping[str, str]) -> tuple[Cause, ...]:
    """What keeps the situation of a requirement away; `ruled`: the vehicle has a box."""
    match emptiness.kind:
        case Hollow.RULES:
            return (Cause(words.BY_RULES if ruled else words.BY_COPPER, None),)
        case Hollow.ANYTHING:
            return (Cause(words.BY_ANYTHING, None),)
        case Hollow.GIVEN:
            by_file: dict[str, list[Span]] = {}
            for span in emptiness.lines:
                by_file.setdefault(span.file, []).append(span)
            sentence = words.by_given(len(emptiness.lines))
            shown = [excerpt(spans, files) for spans in by_file.values()]
            return tuple(Cause(sentence if n == 0 else words.AND_THESE, each) for n, each in enumerate(shown))
