"""What flows for long through what says how it is protected, held against published tables."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.copper.draws.draws import hanging, silent
from logiccheck.copper.draws.feeds import Feed, guard, passing, reach
from logiccheck.copper.draws.feeds import Kind as FeedKind
from logiccheck.copper.sizing.ampacity import protects
from logiccheck.copper.sizing.fuse import inrush
from logiccheck.copper.sizing.sized import Fit, Kind, Lack, Sized, lacking
from logiccheck.copper.sizing.sizing import sizing
from logiccheck.lang.program import Electrical, Load, Output, Program, Wire


@frozen
class Between:
    """Amperes that flow for long at most: not below `least`, not above `most`."""

    least: Fraction
    most: Fraction


@frozen
class Fitted:
    """What became of one load, output or wire; `current` is None where the file does not say it. Then its fuse is
    held against its wire alone."""

    item: Load | Output | Wire
    current: Between | None
    checks: tuple[Sized, ...]


def fitted(program: Program, worst: Mapping[str, Between]) -> tuple[Fitted, ...]:
    """All that say a fuse or a wire, in the order of the file; `worst` is what flows through wires and outputs that
    feed more than themselves, by name."""
    return tuple(_fitted(program, worst))


def _fitted(program: Program, worst: Mapping[str, Between]) -> Iterator[Fitted]:
    unsaid = set(silent(program).values())
    items: list[Load | Output | Wire] = [*program.wires, *program.loads]
    items += program.box.outputs if program.box is not None else ()
    for item in items:
        said = item.electrical
        if said.fuse is None and said.wire_size is None:
            continue
        current = _flows(program, item, worst)
        checks = _against(program, said, current)
        if said.fuse is None and not isinstance(item, Output):
            checks += _guarded(program, item)
        checks += _rushing(program, item)
        if _leads_to(program, item, unsaid):
            checks = tuple(map(_where_more_flows, checks))
        yield Fitted(item, current, checks)


def _flows(program: Program, item: Load | Output | Wire, worst: Mapping[str, Between]) -> Between | None:
    """What is ever fed through a wire or an output, but of an output no less than what counts of its own line."""
    through, current = worst.get(item.name), item.electrical.current
    if isinstance(item, Wire) or current is None or (isinstance(item, Output) and hanging(program, item)):
        return through
    own = Between(current, current)
    return own if through is None else Between(max(current, through.least), max(current, through.most))


def _leads_to(program: Program, item: Load | Output | Wire, ends: Collection[str]) -> bool:
    """What flows to one of these ends may come through the wire or output."""
    if isinstance(item, Load):
        return False
    kind = FeedKind.WIRE if isinstance(item, Wire) else FeedKind.OUTPUT
    return not reach(program, Feed(kind, item.name, item.label, item.electrical))[0].isdisjoint(ends)


def _rushing(program: Program, item: Load | Output | Wire) -> tuple[Sized, ...]:
    """The inrush of each thing behind a fuse that draws only through it, where it is above the rating, held against
    that fuse: those that do not fit, or else one that is not decided, or that fits."""
    said = item.electrical
    if said.fuse is None or isinstance(item, Load):
        return ()
    kind = FeedKind.WIRE if isinstance(item, Wire) else FeedKind.OUTPUT
    found = passing(program, Feed(kind, item.name, item.label, said))
    behind = [each.draw for each in found if each.draw.name != item.name and not each.shared]
    held = [
        inrush(replace(said, inrush=d.inrush, inrush_time=d.inrush_time), d.name)
        for d in behind
        if (d.inrush or 0) > said.fuse
    ]
    held.sort(key=lambda check: check.fit is Fit.FITS)
    return tuple(check for check in held if check.fit is Fit.NOT) or tuple(held[:1])


def _guarded(program: Program, item: Load | Wire) -> tuple[Sized, ...]:
    """What has a size and no fuse of its own, held against a fuse before it. What feeds a load
    may limit what flows, so a load that has none before it is only said to have none."""
    feed = guard(program, item)
    if feed is not None and feed.electrical is not None:
        said = replace(item.electrical, fuse=feed.electrical.fuse)
        return (protects(said, program.electrics, feed.name),)
    return (lacking(Kind.PROTECTS, Lack.FUSE if isinstance(item, Load) else Lack.PROTECTOR),)


def _against(program: Program, said: Electrical, current: Between | None) -> tuple[Sized, ...]:
    if current is None:
        checks = _asked(said, sizing(said, program.electrics, None))
        return tuple(each for each in checks if Lack.CURRENT not in each.lacks)
    high = sizing(said, program.electrics, current.most)
    low = sizing(said, program.electrics, current.least)
    return _asked(said, tuple(_of_both(a, b) for a, b in zip(low, high, strict=True)))


def _of_both(low: Sized, high: Sized) -> Sized:
    """What is known where only the two ends are: what fits at the upper end fits, what does not at the lower does
    not."""
    if low.fit is high.fit or high.fit is Fit.FITS:
        return high
    return low if low.fit is Fit.NOT else lacking(high.kind, Lack.CURRENT)


def _where_more_flows(check: Sized) -> Sized:
    """What is left of a check where something draws, too, that does not say how much: only what does not fit."""
    by_current = check.kind in (Kind.CONTINUOUS, Kind.DROP, Kind.CARRIES)
    return lacking(check.kind, Lack.CURRENT) if by_current and check.fit is Fit.FITS else check


def _asked(said: Electrical, checks: tuple[Sized, ...]) -> tuple[Sized, ...]:
    """Without those for which the line itself says nothing: no fuse, or not how the wire lies."""
    unsaid = {Lack.FUSE} if said.fuse is None else set()
    unsaid |= {Lack.WIRE} if said.wire_size is None or said.wire_length is None else set()
    return tuple(each for each in checks if not (each.numbers is None and unsaid & set(each.lacks)))


def unknown(check: Sized) -> bool:
    """It is not decided although the file says what it takes. Whether a fuse stands an inrush, published times often
    leave open: that is no reason to wait for."""
    said = {Lack.FUSE, Lack.WIRE, Lack.NOMINAL}
    return check.fit is Fit.OPEN and check.kind is not Kind.INRUSH and not said & set(check.lacks)
