"""Seeks what is told beside the verdicts of a check: what keeps things away, edits, when a proof decides something."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from logiccheck.base.budget import Budget
from logiccheck.base.bug import bug_of
from logiccheck.engine.verdict import Check, Kind, Verdict
from logiccheck.explain.aside import Beside, Sought
from logiccheck.explain.asking import BugMet
from logiccheck.explain.binding import bindings
from logiccheck.explain.calming import look_for_calm
from logiccheck.explain.edits import look_for_edits
from logiccheck.explain.exclusion import exclusions
from logiccheck.explain.hollow import hollow
from logiccheck.explain.mending import Cut
from logiccheck.lang.program import Expr, Possible, Program


def beside(
    program: Program, files: Mapping[str, str], found: Check, sought: Sought, progress: Callable[[str], None]
) -> Beside:
    """`files` are the texts of all files, the main one first. Where something stands in the way of the verdicts
    only that is looked at, and nothing after an interruption; what goes wrong here costs no verdict."""
    known = Beside(interrupted=found.interrupted)
    if found.interrupted:
        return known
    try:
        if not found.troubles:
            _seek(known, program, files, found, sought, progress)
        elif sought.edits:
            main = next(iter(files))
            known.calm = look_for_calm(program, main, files, found, sought.edits, sought.each, progress)
            known.interrupted = known.calm is not None and known.calm.cut is Cut.INTERRUPTED
    except KeyboardInterrupt:
        known.interrupted = True
    except BugMet as met:
        known.bugs = (replace(met.bug, met_at=""),)
    except Exception as error:  # the verdicts are there, and are reported
        known.bugs = (bug_of(error),)
    return known


def _seek(
    known: Beside,
    program: Program,
    files: Mapping[str, str],
    found: Check,
    sought: Sought,
    progress: Callable[[str], None],
) -> None:
    """Each of them, filled in as it is found."""
    by_kind = {kind: [verdict for verdict in found.verdicts if verdict.kind is kind] for kind in Kind}
    failing, empty = by_kind[Kind.FAILS], by_kind[Kind.NO_CASE]
    if failing or empty:
        never = {v.requirement.name: expr for v in (*failing, *empty) if (expr := _never_so(v)) is not None}
        known.excluded = exclusions(program, never, sought.each, progress)
        known.empty = hollow(program, empty, sought.each, progress)
        if sought.edits:
            main = next(iter(files))
            known.mendings = look_for_edits(
                program, main, files, found, sought.edits, sought.each, progress, known.excluded
            )
            known.interrupted = any(each.cut is Cut.INTERRUPTED for each in known.mendings.values())
    if sought.cases and not known.interrupted:
        known.bound = bindings(program, by_kind[Kind.PROVED], Budget(sought.cases), progress)
        known.interrupted = known.bound.interrupted


def _never_so(verdict: Verdict) -> Expr | None:
    """What can never be so although it should."""
    form = verdict.requirement.form
    return form.q if isinstance(form, Possible) and verdict.kind is Kind.FAILS else verdict.empty
