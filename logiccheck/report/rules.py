"""The report of rules and outputs as they are understood: as written, unfolded, simplified."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logiccheck.base.place import source_text
from logiccheck.base.span import Span
from logiccheck.lang.program import Output, Program, Rule
from logiccheck.logic.show import show
from logiccheck.report import words_rules as words
from logiccheck.report.excerpt import where
from logiccheck.report.report import Outcome, Report, RulePart


def rules_report(program: Program, files: Mapping[str, str], names: Sequence[str]) -> Report:
    """The rules and outputs of these names, in the order of the file."""
    rules = [rule for rule in (program.box.rules if program.box else ()) if rule.name in names]
    order = list(files)
    rules.sort(key=lambda rule: (order.index(rule.span.file), rule.span.begin))
    parts = tuple(_part(program, rule, files) for rule in rules)
    return Report(words.opening(program.label, len(parts)), "", Outcome.GOOD, rules=parts)


def _part(program: Program, rule: Rule | Output, files: Mapping[str, str]) -> RulePart:
    def text_of(span: Span) -> str:
        return source_text(span, files[span.file])

    rule_shown = show(program, rule.name, text_of)
    told = {
        words.WRITTEN: rule_shown.written,
        words.UNFOLDED: rule_shown.unfolded,
        words.SIMPLIFIED: rule_shown.simplified,
    }
    new = {text: way for way, text in reversed(told.items())}  # of those that say the same the first is kept
    shown = tuple((way, text) for way, text in told.items() if new[text] == way)
    terms = rule_shown.ways if rule_shown.all_ways != 1 else ()
    terms_are = "" if rule_shown.all_ways in (0, 1) else words.on_in_these_ways(len(terms), rule_shown.all_ways)
    return RulePart(rule.name, rule.label, where(rule.span, files), shown, terms_are, terms)
