"""How much text is read: beyond each of these limits the reader is told so by a message of its own."""

from __future__ import annotations

FILE_BYTES = 1_000_000
CERTIFICATE_BYTES = 50_000_000
LINE_CHARACTERS = 1_000
NESTING = 60  # brackets in brackets, and operators in operators
DIGITS = 18  # of one number
FILES = 100  # of one project
MISTAKES = 200  # shown for one project; the rest is counted
BRACKET_LINES = 100  # lines that one open bracket may join
NAME_CHARACTERS = 60
