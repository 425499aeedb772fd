"""What makes moments that are counted in a story: timers that can matter by name, and what is given about them."""

from __future__ import annotations

from logiccheck.base.frozen import frozen
from logiccheck.lang.matters import Names
from logiccheck.lang.program import Blink, Form, Program, Timer
from logiccheck.lang.walk import form_expressions, given_expressions, memory


@frozen
class Counted:
    """The keys of timers, and the places of lines among what the vehicle itself has given."""

    timers: frozenset[str]
    givens: frozenset[int]

    def is_within(self, other: Counted) -> bool:
        """Whether nothing is counted here that is not counted there."""
        return self.timers <= other.timers and self.givens <= other.givens


def counted(program: Program, names: Names, form: Form, own: int) -> Counted:
    """What is counted in a story about this form; the first `own` lines of what is given are those of the vehicle."""
    asked = form_expressions(form)
    matter = names.matter(asked)
    holders = [*asked, *(e for item in matter.items for e in names.expressions(item))]
    holders += [e for i in matter.givens for e in given_expressions(program.givens[i])]
    nodes = (node for holder in holders for node in memory(holder))
    timers = frozenset(node.key for node in nodes if isinstance(node, Timer | Blink))
    return Counted(timers, frozenset(i for i in matter.givens if i < own))
