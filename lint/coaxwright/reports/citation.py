"""One rule for people: what must hold, why, by which limits and sources, with a wrong and a right example; or all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import groupby
from textwrap import wrap as _wrap

from coaxwright.reports.wording import counted
from coaxwright.rules import EffectiveRules, ExistingPolicy, Rule, topic_of
from coaxwright.rules.examples import HEADINGS, Example, examples_of, telling_kinds

_LABEL_COLUMNS = 13
_INDENT = 2
_whole_words = partial(_wrap, break_on_hyphens=False, break_long_words=False)
_EXISTING = {
    ExistingPolicy.JUDGED: "judged as if it were new",
    ExistingPolicy.ADVICE: "advice only",
    ExistingPolicy.EXEMPT: "exempt",
}


def cited(name: str, bases: Sequence[EffectiveRules], width: int) -> str:
    """The rule as each basis has it; what is the same in all stands once, at the top."""
    return "\n".join(_lines(name, bases, max(60, width))) + "\n"


def listed_by_topic(bases: Sequence[EffectiveRules], width: int, only: str | None = None) -> str:
    """The rules of all bases by topic, or those of one topic, each with its title."""
    titles = {
        name: rule.title
        for basis in bases
        for name, rule in basis.rules.items()
        if only is None or topic_of(name) == only
    }
    column = max(map(len, titles), default=0) + _INDENT
    lines: list[str] = []
    for topic, names in groupby(sorted(titles, key=lambda name: (topic_of(name), name)), key=topic_of):
        lines.append(topic.upper())
        for name in names:
            lines += _whole_words(
                titles[name],
                max(60, width),
                initial_indent=f"  {name:<{column}}",
                subsequent_indent=" " * (column + _INDENT),
            )
        lines.append("")
    labels = " and of ".join(basis.rulesets[-1] for basis in bases)
    lines += _whole_words(
        f"{counted(len(titles), 'rule')} of {labels}; 'coaxwright cite RULE' shows one of them.", max(60, width)
    )
    return "\n".join(lines) + "\n"


def _lines(name: str, bases: Sequence[EffectiveRules], width: int) -> Iterator[str]:
    rule = bases[-1].rule(name)
    yield name
    yield from _whole_words(rule.title, width, initial_indent="  ", subsequent_indent="  ")
    yield ""
    yield from _labeled("checked on", f"every {rule.check.each.name}", width)
    yield from _labeled("reason", rule.reason, width)
    yield from _labeled("existing", f"plant that was there before is {_EXISTING[rule.existing]}", width)
    yield from _labeled("due", f"a missing figure returns a design from the stage '{rule.due}'", width)
    alike: dict[tuple[str, ...], list[str]] = {}
    for basis in bases:
        alike.setdefault(tuple(_in_basis(basis.rule(name), width)), []).append(basis.rulesets[-1])
    for lines, rulesets in alike.items():
        yield ""
        yield f"In {' and in '.join(rulesets)}"
        yield from lines
    examples = examples_of(name, bases[-1].rulesets)
    for kind in telling_kinds(examples):
        for example in [example for example in examples if example.kind == kind][:1]:
            yield ""
            yield from _example(example)


def _in_basis(rule: Rule, width: int) -> Iterator[str]:
    severity = rule.severity.value
    own = {words.severity.value for words in rule.words.values() if words.severity is not None}
    raised = own - {severity}
    also = f" ({' or '.join(sorted(raised))} in some cases)" if raised else ""
    yield from _labeled("severity", f"{severity}{also}, set by {rule.origins['severity']}", width)
    for deferral in rule.defers:
        cases = f", case {' or '.join(deferral.cases)}" if deferral.cases else ""
        yield from _labeled("defers to", f"{deferral.rule}{cases}: it is shown beneath what that finds", width)
    for limit in rule.limits.all():
        name = ", ".join((limit.name, *limit.keys))
        yield from _labeled("limit", f"{name}: {limit.value}; {limit.source}; set by {limit.origin}", width)
    for source in rule.sources:
        title = f"; {source.title}" if source.title else ""
        yield from _labeled("reference", f"{source}{title}", width)


def _example(example: Example) -> Iterator[str]:
    yield f"{HEADINGS[example.kind]}: {example.title}"
    yield from (f"    {line}" for line in example.design.rstrip("\n").split("\n"))


def _labeled(label: str, text: str, width: int) -> Iterator[str]:
    yield from _whole_words(
        text,
        width,
        initial_indent=f"  {label:<{_LABEL_COLUMNS}}",
        subsequent_indent=" " * (_LABEL_COLUMNS + 2),
    )
