"""Which small edits of a vehicle nobody would notice: all of them, read again as edited and decided one by one."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace

from logiccheck.base.bug import Bug, bug_of
from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Check
from logiccheck.explain.asking import BugMet
from logiccheck.explain.edit import edited
from logiccheck.explain.guarding.deciding import Deciding, Decision, Open, Unnoticed
from logiccheck.explain.guarding.noticing import Watch
from logiccheck.explain.guarding.ranking import ranks
from logiccheck.explain.guarding.small import Small, small_edits
from logiccheck.explain.guarding.suggesting import Suggested, Suggesting
from logiccheck.explain.guarding.touched import Hanging, touched
from logiccheck.explain.guarding.unlike import watched
from logiccheck.lang.load import load
from logiccheck.lang.program import Program, SignalKind
from logiccheck.lang.reading import Unreadable

_ITEMS = tuple(kind.value for kind in SignalKind)


@frozen
class Tried:
    """A small edit, and what became of it; None where the files as edited cannot be read. `suggested` would have
    noticed it."""

    small: Small
    decision: Decision | None
    suggested: Suggested | None = None


@frozen
class Guarded:
    """What became of the edits, in the order of the file. `left`: how many were not tried, as it was interrupted.
    `bugs`: mistakes in this program, each of which left a requirement or an edit not decided."""

    tried: tuple[Tried, ...]
    left: int
    bugs: tuple[Bug, ...] = ()


def guard(
    program: Program,
    main: str,
    files: Mapping[str, str],
    found: Check,
    names: Collection[str],
    seconds: float,
    progress: Callable[[str], None],
) -> Guarded:
    """Tries all small edits of the lines on which an output, relay or load hangs, or those of these names.

    `found`: all requirements of the vehicle, checked. `seconds`: what one requirement, or one comparison of two
    vehicles, may take. A KeyboardInterrupt ends it; nothing is tried where one ended the check.
    """
    watch = Watch(program, found, seconds)
    plain = quiet(program, main, files)
    suggesting = Suggesting(program, main, plain, ranks(program), seconds)
    search = _Search(Deciding(watch, seconds), suggesting, main, plain, bugs=[*found.bugs])
    wanted = [*_wanted(program, small_edits(program, files), names)]
    try:
        for number, small in enumerate(() if found.interrupted else wanted, start=1):
            progress(f"edit {number} of {len(wanted)}")
            search.look_at(small)
        progress("what is suggested")
        search.look_again()
    except KeyboardInterrupt:
        pass
    return Guarded(tuple(search.tried), len(wanted) - len(search.tried), tuple(search.bugs))


@dataclass(slots=True)
class _Search:
    """`known`: how many suggestions had been found when an edit had been looked at."""

    deciding: Deciding
    suggesting: Suggesting
    main: str
    files: Mapping[str, str]
    tried: list[Tried] = field(default_factory=list)
    bugs: list[Bug] = field(default_factory=list)
    known: dict[Small, int] = field(default_factory=dict)

    def look_at(self, small: Small) -> None:
        files = edited(small.edit, self.files).files
        program = read(self.main, files)
        decision: Decision | None = None
        suggested: Suggested | None = None
        if program is not None:
            with self._going_on():
                decision = self.deciding.decide(program)
                if isinstance(decision, Unnoticed):
                    suggested = self.suggesting.suggest(files, program, decision.difference)
            decision = decision or Open()
            self.known[small] = len(self.suggesting.found)
        self.tried.append(Tried(small, decision, suggested))

    def look_again(self) -> None:
        """Whether what was suggested for a later edit notices one for which nothing was."""
        for number, each in enumerate(self.tried):
            if isinstance(each.decision, Unnoticed) and each.suggested is None:
                files = edited(each.small.edit, self.files).files
                program = read(self.main, files)
                later = self.suggesting.found[self.known[each.small] :]
                if program is not None and later:
                    with self._going_on():
                        found = self.suggesting.known(files, program, each.decision.difference, later)
                        self.tried[number] = replace(each, suggested=found)

    @contextmanager
    def _going_on(self) -> Iterator[None]:
        """A mistake in this program, or too little memory, ends only what is done here."""
        try:
            yield
        except MemoryError:
            pass
        except RecursionError:
            raise
        except BugMet as met:
            self.bugs.append(met.bug)
        except Exception as error:
            self.bugs.append(bug_of(error))


def _wanted(program: Program, edits: Iterable[Small], names: Collection[str]) -> Iterator[Small]:
    """The edits of lines on which one of these outputs, relays or loads hangs; of all lines where none is named."""
    goals = {(what.kind.value, what.name) for name, what in watched(program) if name in names}
    hanging = Hanging(program)
    wires = {wire.name for wire in program.wires}
    known: dict[tuple[str, ...], bool] = {}
    for small in edits:
        if small.names not in known:
            ends = [name for name in small.names if name in wires or len(small.names) == 1]  # a source is an end
            seeds = [(kind, name) for name in ends for kind in _ITEMS]
            known[small.names] = not names or not goals.isdisjoint(touched(seeds, (hanging,), lambda _: False))
        if known[small.names]:
            yield small


def read(main: str, files: Mapping[str, str]) -> Program | None:
    """The vehicle that these files say; None where they make mistakes."""
    loaded = load(main, lambda path: files[path].encode() if path in files else Unreadable.MISSING)
    return loaded.program


def quiet(program: Program, main: str, files: Mapping[str, str]) -> Mapping[str, str]:
    """The files without scenarios, each character that stays in its place: what a scenario says of a timer may be a
    mistake once that is edited. The files as they are, where that does not come to the same vehicle."""
    bare = {path: _without_scenarios(text) for path, text in files.items()}
    again = read(main, bare)
    if again is None:
        return files
    fields = (name for name in Program.__dataclass_fields__ if name != "scenarios")
    return bare if all(getattr(program, name) == getattr(again, name) for name in fields) else files


def _without_scenarios(text: str) -> str:
    inside, lines = False, []
    for line in re.findall(r"[^\n]*\n|[^\n]+", text):
        if line[0] not in " \t\n#":
            inside = re.match(r"scenario\b", line) is not None
        lines.append(re.sub(r"[^\n]", " ", line) if inside else line)
    return "".join(lines)
