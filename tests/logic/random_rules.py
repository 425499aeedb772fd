"""Random conditions of a box, as text, for Hypothesis."""

from __future__ import annotations

from hypothesis import strategies as st

from tests.logic.rules import SENSES

BARE = st.sampled_from([*SENSES, *SENSES, "true", "false", "m above 10 V", "m at most 20 V", "m is 10 V"])
WORDED = st.sampled_from(
    [f"{name} {tail}" for name in SENSES[:2] for tail in ("is on", "is off", "is not on", "is not off")]
    + ["m is not 20 V"]
)  # what says something of a name, and not what the bare name says


def _joined(parts: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    several = st.lists(parts, min_size=2, max_size=3)
    return st.one_of(
        several.map(lambda texts: "(" + " and ".join(texts) + ")"),
        several.map(lambda texts: "(" + " or ".join(texts) + ")"),
        several.map(lambda texts: "(" + " xor ".join(texts) + ")"),
        several.map(lambda texts: "at most one of (" + ", ".join(texts) + ")"),
        parts.map(lambda text: f"not {text}"),
    )


def conditions(atoms: st.SearchStrategy[str], leaves: int = 8) -> st.SearchStrategy[str]:
    """Conditions over these atoms with about so many of them."""
    return st.recursive(atoms, _joined, max_leaves=leaves)


def chains(atoms: st.SearchStrategy[str] = BARE) -> st.SearchStrategy[dict[str, str]]:
    """Three rules, each of which may name the ones before it."""
    return st.tuples(
        conditions(atoms),
        conditions(st.one_of(atoms, st.just("r0"))),
        conditions(st.one_of(atoms, st.sampled_from(["r0", "r1"])), leaves=6),
    ).map(lambda texts: {f"r{i}": text for i, text in enumerate(texts)})
