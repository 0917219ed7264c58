"""The reference page of the rules, generated from the shipped rulesets and the examples beside them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from coaxwright.checks import Citation, Limit
from coaxwright.design.sentences import listed
from coaxwright.rules.combine import combine
from coaxwright.rules.examples import HEADINGS, Example, Kind, examples_of, telling_kinds
from coaxwright.rules.model import ExistingPolicy, Rule
from coaxwright.rules.ruleset_registry import RulesetRegistry, shipped_registry

Editions = Mapping[str, Mapping[str, Rule]]
"""The effective rules by the label of the ruleset and the rule's name."""

_EXISTING = {
    ExistingPolicy.JUDGED: "Existing plant is judged like new plant.",
    ExistingPolicy.ADVICE: "On existing plant it is advice.",
    ExistingPolicy.EXEMPT: "Existing plant is exempt.",
}


def rules_page() -> str:
    """The page as Markdown text."""
    shelf = shipped_registry()
    editions = {label: combine([label], shelf).rules for label in _labels(shelf)}
    return "\n".join(_page(shelf, editions)).rstrip("\n") + "\n"


def _labels(shelf: RulesetRegistry) -> Iterator[str]:
    """Every ruleset and edition, bases before what builds on them."""
    labels = [f"{name} {edition}" for name in shelf.names for edition in shelf.editions(name)]
    yield from sorted(labels, key=lambda label: (bool(shelf.get(label).builds_on), labels.index(label)))


def _page(shelf: RulesetRegistry, editions: Editions) -> Iterator[str]:
    yield "# The rules, one by one"
    yield ""
    yield "Generated from the shipped rulesets and their examples; do not edit."
    yield ""
    yield "A design names its rulesets with their edition. A violation breaks a published code, a deficiency makes the"
    yield "installation work badly or age early, advice is worth a thought. A figure that is marked `found in part` or"
    yield "`from memory` is to be confirmed in the document before anybody relies on it. The examples are executed by"
    yield "the tests: a finding stands where a line says `here`, and nowhere else."
    yield ""
    yield "| ruleset | what it covers | builds on |"
    yield "|---|---|---|"
    for label in editions:
        ruleset = shelf.get(label)
        yield f"| `{label}` | {_cell(ruleset.title)} | {', '.join(f'`{base}`' for base in ruleset.builds_on)} |"
    yield ""
    names = dict.fromkeys(name for rules in editions.values() for name in rules)
    for name in sorted(names):
        yield from _rule(name, {label: rules[name] for label, rules in editions.items() if name in rules})


def _rule(name: str, by_label: Mapping[str, Rule]) -> Iterator[str]:
    label, rule = next(iter(by_label.items()))
    yield f"## {name}"
    yield ""
    yield f"**{rule.title}.**"
    yield ""
    yield rule.reason.strip()
    yield ""
    yield from _severities(by_label)
    yield f"{_EXISTING[rule.existing]} A figure that it needs is due at the stage `{rule.due}`."
    yield from _owners(by_label.values())
    yield ""
    yield from _limits(by_label)
    yield from _sources(by_label)
    examples = examples_of(name, [label])
    for kind in telling_kinds(examples):
        yield from _example(kind, examples)


def _owners(rules: Iterable[Rule]) -> Iterator[str]:
    """The rules beneath whose findings those of a rule are shown, in any edition."""
    owners = dict.fromkeys(deferral.rule for rule in rules for deferral in rule.defers)
    if owners:
        yield f"What it finds is shown beneath a finding of {listed([f'`{owner}`' for owner in owners], 'or')}."


def _severities(by_label: Mapping[str, Rule]) -> Iterator[str]:
    labels: dict[str, list[str]] = {}
    for label, rule in by_label.items():
        labels.setdefault(rule.severity.value, []).append(f"`{label}`")
    for severity, where in labels.items():
        yield f"- {severity} in {', '.join(where)}"
    harder = {
        (case, words.severity.value)
        for rule in by_label.values()
        for case, words in rule.words.items()
        if words.severity is not None and words.severity is not rule.severity
    }
    for case, severity in sorted(harder):
        yield f"- {severity} in the case '{case}'"
    yield ""


def _limits(by_label: Mapping[str, Rule]) -> Iterator[str]:
    rows: dict[tuple[str, str], list[str]] = {}
    for label, rule in by_label.items():
        for limit in rule.limits.all():
            if limit.origin == label:
                rows.setdefault((_limit_name(limit), limit.value.text), []).append(f"`{label}`: {limit.source}")
    if not rows:
        return
    yield "| limit | value | source |"
    yield "|---|---|---|"
    for (name, value), sources in rows.items():
        yield f"| {_cell(name)} | {_cell(value)} | {_cell('; '.join(sources))} |"
    yield ""


def _limit_name(limit: Limit) -> str:
    return ", ".join((limit.name, *limit.keys))


def _sources(by_label: Mapping[str, Rule]) -> Iterator[str]:
    yield "Sources:"
    yield ""
    for label, rule in by_label.items():
        if rule.origins["sources"] == label:
            yield f"- `{label}`: {'; '.join(_source(source) for source in rule.sources)}"
    yield ""


def _source(source: Citation) -> str:
    return f"{source} ({source.title})" if source.title else str(source)


def _example(kind: Kind, examples: tuple[Example, ...]) -> Iterator[str]:
    shown = next((example for example in examples if example.kind == kind), None)
    if shown is None:
        return
    yield f"{HEADINGS[kind]}: {shown.title[0].lower()}{shown.title[1:]}."
    yield ""
    yield "```yaml"
    yield shown.design.rstrip("\n")
    yield "```"
    yield ""


def _cell(text: str) -> str:
    return text.replace("|", "\\|")
