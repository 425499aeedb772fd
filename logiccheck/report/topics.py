"""Long texts about the words that a check prints: the five verdicts, stories, and what a proof rests on."""

from __future__ import annotations

from collections.abc import Mapping

TOPICS: Mapping[str, str] = {
    "proved": """\
PROVED: the requirement holds in all situations, orders and timings.

All that the world allows was covered: every position of every switch, every number, every order, every moment, and
every duration within the tolerance of each timer. What it rests on stands in the report: what is given, and the limits.
Change a rule, an assumption or the harness, and it has to be proved anew.

A proved `possible` is shown with one story in which it happens.""",
    "fails": """\
FAILS: there is a story that starts lawfully and breaks the requirement. It is shown.

The story is the shortest there is: fewest moments, then fewest things done by hand, then the earliest and roundest
times. It was played step by step on a second, independent interpreter before it was shown.

What to do: read the marked term, then the table, from left to right. If the story cannot happen on the real vehicle,
say why under `given`; if it can, change the rule, and check again. `--save FOLDER` keeps the story as a scenario that
you can play after every change.

A failing `possible` has no story: it is proved that it can never happen.

Below the story may stand an edit with which the requirement would hold. Small edits of the lines that are to blame were
tried, one at a time: a further condition, a part less, a term inverted, another duration or threshold, a diode, a feed,
and so on. One is told only if with it this requirement is proved, everything else that was proved is proved again,
every sense, rule, output, relay and load that could be on or off still can, and the scenarios go as they are expected
to. It is a suggestion: nothing is written into your files, and whether it is what you want only you know. `--edits
SECONDS` gives more time to look; `--edits 0` looks for none.""",
    "not-decided": """\
NOT DECIDED: neither a proof nor a story was found.

The reason stands beside it, and how far the search came: no story of up to so many moments breaks the requirement.
That is less than a proof. It is never counted as proved; the exit status is 3.

What to do: give it more time with `--budget SECONDS`, or more memory with `--memory MB`, as the reason says; check it
alone with `--only NAME`; or ask a narrower question.

If it is open whether what is given can bring time to a stop: `c after p has lasted t` and `p lasts at most t` force the
world, and it is looked at first whether the world can always obey. The lines in doubt are named. Mostly the world can
obey only if a timer with a tolerance ends early enough, or has to be made ready long before. Take out or change the
line you need least, and check again.""",
    "no-case": """\
NO CASE: the requirement holds, but only because the situation it speaks of can never occur.

`never starter while engine above 500 rpm` says nothing if the engine can never turn. Mostly it means that a name is
wrong, that something given is too strong, or that an output can never be on. What excludes each other is marked in your
lines, where that could be found out. It is no success; the exit status is 1.""",
    "blocked": """\
BLOCKED: no verdict, because what it would rest on does not stand.

One of three things was found first, and is shown above the verdicts. What is given contradicts itself: then any
requirement would hold. What is given brings time to a stop: then nothing later was looked at. Or the rules or relays
can chase each other for ever at one instant: then nothing has a settled value. Mend that, and check again.""",
    "accepted": """\
ACCEPTED: somebody takes responsibility for something that was found, with a reason, a name and a date.

    accepted
        unused-name  spare_sense  "Wired for the rear camera."  by "R. Brandt"  on 2026-11-02  logic 4f1c-9a2e

Such a line stands in the main file. It begins with the name or the code of a finding and the name that it is about, or
with `requirement` and a requirement that fails or has no case. Below each finding the line that accepts it is printed,
to be copied and filled in. What is accepted stands in every report, and never counts as proved.

The mark behind `logic` is that of all lines that can matter to it. Another layout, another order of lines, other labels
and comments leave it as it is; a rule, a wire, a time, a requirement or a line of what is given that is changed does
not. Then what was accepted is back, and the report says so. A line that accepts what is not so is a mistake.

A requirement that guards against danger to people can be accepted, and is shown so, but it fails all the same. The line
for it is printed only when it has been begun: write it with `logic 0000-0000`, check, and copy the mark.""",
    "waived": """\
WAIVED: a requirement of a checklist that is not asked, because the file says that it does not apply, and why.

    use checklist starting with
        starter = starter_motor,
        ...
        waive crash_cuts "No crash switch is fitted."

It stands in every report with its reason, so that whoever reads it can judge the reason. It never counts as proved. A
role of which only waived requirements speak need not be played by anything. A requirement that applies and fails is no
case for `waive`.""",
    "not-as-expected": """\
NOT AS EXPECTED: a scenario of the file was played, and something that it expects at a time is not so then.

The time and what was expected stand in the report, with the line of the file. Scenarios are played by every check; one
that is not as expected makes the exit status 1, even where all requirements are proved.

What to do: `play FILE SCENARIO` shows all that happens in it. Change the rule, or what you expect.""",
    "story": """\
STORY: what hands do and what timers do, moment by moment, up to the moment in which something is shown.

One column is one moment; the first is the battery being connected. A cell is filled only where something changed. Rows
are grouped: hands (what people and physics do), copper (wires and relays), box (what the controller senses, concludes
and switches), timers (how long each run lasts; within its tolerance any duration is possible). What cannot matter to
the requirement is left out and counted.""",
    "unguarded": """\
UNGUARDED: a small edit of the rules with which all that is required still holds, although the vehicle does something
else. `unguarded FILE` finds them.

What is proved is proved of the rules as they are. If one of them were typed a little differently, would anybody notice?
Tried is every edit of these kinds, one at a time: a term, a reset, a position in braces, a `when`, a `fed by` or a
`supply` dropped; `or` for `and` and back; a term or a sense inverted; a time halved or doubled, a timer, a filter or a
start-up delay removed; the other side of a bistable winning; a stored state, or a pair of thresholds, made plain;
`retained` dropped; a diode taken out or bridged. Each is one of four:

    noticed              a requirement that is proved now would fail, be blocked or have no case
    no effect            proved: no output, relay or load, nor the power of the box, ever comes to rest otherwise
    nobody would notice  one of these does, in the story that is told, and all that was proved stays proved
    not decided          none of these was shown; it counts as neither

A term without effect may be there on purpose; if not, a rule says less than somebody believes. An edit that nobody
would notice is a requirement that nobody wrote. One that would have noticed is offered where one of the kinds that are
tried does: it speaks of hands and physics, is proved of the rules as they are, and fails as edited. Whether it is what
you want, only you know; nothing is written into your files. What scenarios expect counts as no requirement here.""",
    "faults": """\
FAULTS: what each single thing that breaks can let happen. `faults FILE` tries them all.

What can break is what the file declares: wires (open, shorted to supply or to ground), switches (stuck), fuses, diodes,
relays (welded, dead), grounds, sources, senses and sensors, the stages of outputs. A fault changes copper and what
senses read, never the rules. Only requirements that hold when nothing is broken are asked, also those that have no case
then, each of each fault, in all situations, orders and timings:

    from the start             the fault is there from time 0 on
    if it breaks later         all is whole at first, then it breaks for good, at the worst moment
    only if it comes and goes  a loose contact can do it, a break cannot

The table of parts uses the words of IEC 60812:2018 (from memory). Severity is what the worst requirement guards that
fails. A fault is noticed if a tell-tale of the file (`tell_tale` under `electrics`) is proved to show it within its
time, in every story that has the fault, as long as the `while` of its line lasts; where that does not hold, nothing
need show it. An instant of the tell-tale counts. One that comes on in time with nothing broken, too, such as a lamp
that is always lit, shows no fault. Else the fault is hidden, and waits for a second one.

A connection sticks as a whole: of `from plus when sw and k` both contacts are closed, or open, then. Switches that
stand in the coil of a relay are no parts; the report names them.

A wire that is shorted to ground while it is fed is a short circuit. That is listed, but where nothing else against
danger fails it does not count as dangerous: a fuse on the way has to end it, and whether there is one is not looked at.

The exit status is 1 if one fault is enough for danger, 3 if something is not decided, and 0 if all is decided and no
single fault is enough. No list of faults is the vehicle: more can break than a file declares, and more than one thing
at a time; `--pairs` and `--sets NUMBER` look for what several of them do together.

Disconnect the battery before you touch copper; local codes and licensed practice decide.""",
    "certificate": """\
CERTIFICATE: the proofs behind the verdicts of a check, in a file. `check FILE --certify OUT` writes one.

`recheck OUT` proves it again: it reads the rules anew, believes nothing of the certificate, and has a second solver
find whether each claim follows from the rules. PROVED AGAIN means that all that the rules require follows. These words
stand beside what is not shown:

    NOT IN IT           the certificate holds no proof of it: it fails, was not decided, or was not asked
    REFUSED             what is claimed of it is not so, or does not follow
    WITHOUT A BASE      it rests on something that is not shown, which is named
    NO CASE             it is never broken, but its situation can never occur
    DOES NOT HOLD       the certificate itself shows that
    CONTRADICTS ITSELF  its proof holds, yet the certificate says otherwise of it
    NOT DECIDED         the time for it ran out

A certificate is about the very files that were checked: after any change of one, check again and write a new one. It is
about the rules and what is given, not about the vehicle, and the limits of every proof are its limits, too.""",
    "limits": """\
LIMITS: what a proof does not cover.

Reactions take no time: a real box scans its inputs, and what is shorter than a scan or a filter time it may not see.
Outputs and contacts switch at once and together. A relay race that settles when all relays move together is not seen.
Numbers are as sensed. Nothing breaks: wires, switches, relays and outputs do what the file says; what if they do not,
`faults` finds.

And the file is not the vehicle. What is proved here has to be tried on the bench and on the vehicle.""",
}
