"""The table `killed.md`: of each mutant, which test was found to kill it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tests.mutants.mutants import HERE, Mutant

TABLE = HERE / "killed.md"
HEADS = ("mutant", "what it breaks", "killed by", "by the random programs alone")
NOT_TRIED = "not tried"


@dataclass(frozen=True)
class Row:
    """`killer`: empty when it survives; `programs`: a complaint, empty when none of the random programs kills it, None
    when that was not tried."""

    killer: str
    programs: str | None = None


def recorded() -> dict[str, Row]:
    """The rows of the table, by the name of the mutant."""
    if not TABLE.exists():
        return {}
    lines = [line.strip("| \n").split(" | ") for line in TABLE.read_text(encoding="utf-8").splitlines() if "|" in line]
    return {
        name: Row(_plain(killer), None if programs == NOT_TRIED else _plain(programs))
        for name, _, killer, programs in lines[2:]
    }


def write(mutants: Sequence[Mutant], rows: Mapping[str, Row], how: str) -> None:
    """Writes the rows of these mutants; `how` says when and by which command they were found."""
    known = [rows[mutant.name] for mutant in mutants if mutant.name in rows]
    killed, tried = sum(bool(row.killer) for row in known), [row for row in known if row.programs is not None]
    alone = f"{sum(bool(row.programs) for row in tried)} of {len(tried)} tried"
    text = f"# What kills the mutants\n\n{how}\n\n"
    text += f"Mutants: {len(known)}. Killed: {killed}. By the random programs alone: {alone}.\n\n"
    text += _line(HEADS) + _line(["---"] * len(HEADS))
    for mutant in mutants:
        if mutant.name in rows:
            row = rows[mutant.name]
            text += _line([mutant.name, mutant.breaks, _quoted(row.killer), _quoted(row.programs)])
    TABLE.write_text(text, encoding="utf-8")


def _line(cells: Sequence[str]) -> str:
    assert not any("|" in cell or "\n" in cell for cell in cells), cells
    return f"| {' | '.join(cells)} |\n"


def _quoted(text: str | None) -> str:
    if text is None:
        return NOT_TRIED
    return f"`{text}`" if text else "-"


def _plain(cell: str) -> str:
    return "" if cell == "-" else cell.strip("`")
