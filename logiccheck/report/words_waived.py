"""Sentences about requirements of checklists that are waived."""

from __future__ import annotations

TITLE = "Waived: requirements of checklists that were not asked"


def because(reason: str) -> str:
    """Why it is not asked, in the words of whoever waived it."""
    return f"Not asked, because it is waived: {reason}"


def not_checked(name: str, reason: str) -> str:
    """A call asks for a requirement that is waived."""
    return f"The requirement {name} is not asked, because it is waived: {reason}"
