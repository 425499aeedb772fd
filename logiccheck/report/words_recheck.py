"""Every sentence about a certificate that is proved again."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.audit.check import Flaw
from logiccheck.certificate.document import About
from logiccheck.certificate.judged import Fault, Standing
from logiccheck.report.plain import typed

SETTLING = "Every moment settles"
BEGINNING = "What is given can be met at time 0"
TIME = "What is given lets time go on"
SHORTS = "No wire is both live and grounded"

WORDS = {
    Standing.REFUSED: "REFUSED",
    Standing.MISSING: "NOT IN IT",
    Standing.FAILS: "DOES NOT HOLD",
    Standing.NO_CASE: "NO CASE",
    Standing.CASE_MISSING: "NOT IN IT",
    Standing.OTHERWISE: "CONTRADICTS ITSELF",
    Standing.BASELESS: "WITHOUT A BASE",
    Standing.FULL: "NOT DECIDED",
    Standing.OPEN: "NOT DECIDED",
    Standing.SHOWN: "proved again",
}

SENTENCES = {
    Standing.REFUSED: "What the certificate claims of it is not so, or does not follow.",
    Standing.MISSING: "The certificate holds nothing that proves it.",
    Standing.FAILS: "The certificate itself shows that this does not hold.",
    Standing.NO_CASE: "It is never broken, but only because its situation can never occur: the certificate shows that.",
    Standing.CASE_MISSING: "It is never broken, but the certificate holds nothing by which its situation can occur.",
    Standing.OTHERWISE: "Its proof holds, yet the certificate says otherwise of it.",
    Standing.BASELESS: "It rests on what is not shown.",
    Standing.FULL: "The memory for it ran out: more may help (--memory).",
    Standing.OPEN: "The time for it ran out: more may help (--budget).",
}

SECOND = (
    "Proved again means: the rules were read anew, and a second solver (z3) found that what the certificate claims "
    "follows from them. How the rules are read and what they mean is the same program as in `check`."
)

MORE = "more: logiccheck about certificate"

NO_SOLVER = (
    "recheck needs the solver z3, which is not installed. Nothing was checked.\n"
    "To install it: python -m pip install z3-solver   (it is also part of logiccheck[certify])"
)


COMES_TO = {
    "good": "everything required holds, within what is given and the limits above",
    "fails": "not all proved",
    "open": "not all proved again",
}


def opening(label: str, says: str, interrupted: bool) -> str:
    """The first line."""
    return f"{label}: {says}{' This run was interrupted.' if interrupted else ''}"


def all_again(count: int) -> str:
    return f"PROVED AGAIN. Requirements that a second solver proves from the rules alone: {count} of {count}."


def baseless(what: str) -> str:
    return f"NOT PROVED. All rests on this, and it is not shown: {what[0].lower()}{what[1:]}."


def contradiction() -> str:
    return "NOT PROVED. What is given contradicts itself at time 0, so nothing that rests on it says anything."


def refused(count: int) -> str:
    return f"NOT PROVED. Claims of this certificate that are not so, or do not follow from the rules: {count}."


def not_all(count: int, total: int) -> str:
    return f"NOT ALL PROVED. Requirements that this certificate does not prove: {count} of {total}."


def undecided(count: int, total: int) -> str:
    return f"NOT DECIDED. Requirements not proved again in the time and memory given: {count} of {total}."


def nothing_asked() -> str:
    return "NOTHING IS PROVED. The rules have no requirement of their own."


def closing(shown: int, total: int, comes_to: str) -> str:
    """The last line."""
    return f"proved again {shown} of {total}: {comes_to}"


def said(verdict: str) -> str:
    return f"The check that wrote the certificate said of it: {verdict}."


def about(about: About, case: int, output: str) -> str:
    """What a claim is about, after "the claim about"."""
    match about:
        case About.UNSETTLED:
            return "moments that settle"
        case About.STUCK:
            return "time that goes on"
        case About.SHORT:
            return "short circuits"
        case About.BROKEN:
            return "the requirement itself"
        case About.CASE:
            return f"situation {case + 1} without which it says nothing"
        case About.ON:
            return f"{output} being on"


def wrong(about: str, why: Flaw | Fault, clause: str) -> str:
    """A claim that is refused."""
    return f"The claim about {about}: {why.value}{f': {clause}' if clause else ''}."


def strange(names: Sequence[str]) -> tuple[str, ...]:
    return (f"The certificate speaks of requirements that the rules do not have: {', '.join(names)}.",) if names else ()


def rest_on_it(count: int, total: int) -> tuple[str, ...]:
    """Requirements of which nothing else is wrong."""
    return (f"Requirements that are not shown because they rest on that: {count} of {total}.",) if count else ()


def held(count: int, total: int) -> str:
    return f"Proofs and stories of the certificate that hold: {count} of {total}."


def written_by(path: str, tool: str) -> str:
    return f"certificate: {path}, written by logiccheck {tool}"


TOO_LARGE = "it is too large for a certificate"

# ---------------------------------------------------------------------------------------- certificates that do not fit


def unfit(path: str, why: str) -> str:
    return f"{path} is no certificate that can be read. {why}"


def unreadable(path: str, why: str) -> str:
    return f"{path} cannot be read: {why}."


def not_there(file: str, why: str, certificate: str) -> str:
    return (
        f"The rules of this certificate cannot be read at {file}: {why}. "
        f"To say where they are: logiccheck recheck {typed(certificate)} FILE"
    )


def changed(file: str, count: int) -> str:
    return f"{file}: NOT PROVED. The certificate is about other rules. Files that differ: {count}."


def differs(name: str, certified: str | None, found: str | None) -> str:
    """One file, by the sha256 sums of the certificate and of what was read now."""
    if certified is None:
        return f"{name}: is read by the rules now, and the certificate does not know it."
    if found is None:
        return f"{name}: the certificate is about it, and the rules do not read it now."
    return f"{name}: sha256 {certified[:16]} in the certificate, {found[:16]} as it is now."


def check_again(file: str) -> str:
    return f"A new certificate of the rules as they are: logiccheck check {typed(file)} --certify NEW"


CHANGED = "not proved"


# --------------------------------------------------------------------------------------------------------- written


def there_already(path: str) -> str:
    return f"{path} is there already. Nothing was checked; name another file."


def how_to_recheck(path: str) -> str:
    return f"To prove it again with another solver: logiccheck recheck {typed(path)}"


def holds_proofs(path: str, proved: int, total: int) -> str:
    return f"certificate: {path}  (requirements proved in it: {proved} of {total})"
