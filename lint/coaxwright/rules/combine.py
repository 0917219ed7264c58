"""From the rulesets that a design names to one effective set of rules, each value with its origin.

Rulesets build on one another and work by three named operations: ``add`` a rule, ``set`` parts of one, switch one
``off`` with a reason. Bases come first whatever the order in which they are named.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from itertools import combinations
from typing import Any

from coaxwright.checks import AnyCheck, Citation, Limit, Limits, all_checks
from coaxwright.checks.discovery import current_name
from coaxwright.design.quantities import LengthPair, QuantityError
from coaxwright.design.value_types import Values
from coaxwright.frozen_value import frozen_value
from coaxwright.rules.errors import RulesetError, together
from coaxwright.rules.load import cite
from coaxwright.rules.model import Caution, Deferral, ExistingPolicy, Operation, Rule, Ruleset, Severity, Words
from coaxwright.rules.names import nearest_rule
from coaxwright.rules.ruleset_registry import RulesetRegistry
from coaxwright.rules.wording import faults
from coaxwright.source import Path
from coaxwright.source.former_words import RULESET_VALUES


@frozen_value
class EffectiveRules:
    """The effective rules."""

    rulesets: tuple[str, ...]
    """The labels of every ruleset that had a say, bases first."""
    rules: Mapping[str, Rule]
    off: Mapping[str, str]
    """Rules switched off, with the reason."""
    cautions: tuple[Caution, ...]
    off_by: Mapping[str, str] = field(default_factory=dict)
    """For each of them, the ruleset that switches it off."""

    def rule(self, name: str) -> Rule:
        """A rule by name.

        Raises RulesetError with the nearest right name for one that is not here.
        """
        if name in self.rules:
            return self.rules[name]
        if name in self.off:
            raise RulesetError(name, f"the rule is switched off here: {self.off[name]}")
        near = nearest_rule(name, self.rules)
        hint = f"; did you mean {near!r}?" if near else ""
        raise RulesetError(name, f"no rule of that name in {', '.join(self.rulesets)}{hint}")


@dataclass(slots=True)
class _Draft:
    """A rule while rulesets still work on it."""

    fields: dict[str, Any] = field(default_factory=dict)
    origins: dict[str, str] = field(default_factory=dict)
    limits: dict[tuple[str, ...], Limit] = field(default_factory=dict)
    sources: tuple[Citation, ...] = ()
    cases: dict[Citation, tuple[str, ...]] = field(default_factory=dict)
    by: dict[tuple[str, ...], Operation] = field(default_factory=dict)
    """For each part, and each case of the words, the operation that set it last; the latest of all last."""

    def note(self, operation: Operation, *part: str) -> None:
        """Note that an operation set a part."""
        self.by.pop(part, None)
        self.by[part] = operation


def combine(labels: Sequence[str], shelf: RulesetRegistry) -> EffectiveRules:
    """The effective rules of several rulesets.

    Raises RulesetError for a ruleset or edition that is not there, and for every operation that cannot be done.
    """
    ordered: dict[str, Ruleset] = {}
    for first, second in combinations(dict.fromkeys(labels), 2):
        if first.partition(" ")[0] == second.partition(" ")[0]:
            raise RulesetError(second, f"{first} is named as well; one edition of a ruleset can bind a design")
    for label in labels:
        _place_after_its_bases(label, shelf, ordered, ())
    checks = all_checks()
    drafts: dict[str, _Draft] = {}
    off: dict[str, str] = {}
    off_by: dict[str, str] = {}
    cautions: dict[str, Caution] = {}
    faults: list[RulesetError] = []
    for ruleset in ordered.values():
        for operation in ruleset.operations:
            faults += _apply(operation, ruleset, drafts, off, checks)
            if operation.verb == "off":
                off_by[operation.rule] = ruleset.label
        cautions.update((caution.name, caution) for caution in ruleset.cautions)
    rules: dict[str, Rule] = {}
    for name, draft in sorted(drafts.items()) if not faults else ():
        if name not in off:
            try:
                rules[name] = _finish(name, draft, checks)
            except RulesetError as fault:
                faults.append(fault)
    if not faults:
        faults += _deferral_faults(rules, off, drafts)
    if faults:
        raise together(faults)
    return EffectiveRules(tuple(ordered), rules, off, tuple(cautions.values()), off_by)


def _place_after_its_bases(
    label: str, shelf: RulesetRegistry, ordered: dict[str, Ruleset], above: tuple[str, ...]
) -> None:
    if label in ordered:
        return
    if label in above:
        raise RulesetError(label, f"the ruleset builds on itself: {' -> '.join((*above, label))}")
    ruleset = shelf.get(label)
    for index, base in enumerate(ruleset.builds_on):
        try:
            shelf.get(base)
        except RulesetError as error:
            at: Path = ("builds on", index)
            raise RulesetError(error.where, error.problem, file=ruleset.file, path=at) from None
        _place_after_its_bases(base, shelf, ordered, (*above, label))
    for other in ordered.values():
        if other.name == ruleset.name and not _builds_on(ruleset, other.label, shelf):
            raise RulesetError(label, f"{other.label} is named as well; one edition of a ruleset can bind a design")
    ordered[label] = ruleset


def _builds_on(ruleset: Ruleset, base: str, shelf: RulesetRegistry) -> bool:
    return any(own == base or _builds_on(shelf.get(own), base, shelf) for own in ruleset.builds_on)


def _apply(
    operation: Operation,
    ruleset: Ruleset,
    drafts: dict[str, _Draft],
    off: dict[str, str],
    checks: Mapping[str, AnyCheck],
) -> Iterator[RulesetError]:
    """Do what an operation says; everything of it that cannot be done."""
    name = operation.rule
    if operation.verb == "add":
        if name in drafts:
            yield operation.fault(f"{name} is there already; use 'set' to change it")
            return
        drafts[name] = _Draft(origins={"check": ruleset.label})
    elif name not in drafts:
        near = get_close_matches(name, drafts, n=1, cutoff=0.5)
        hint = f"; did you mean {near[0]!r}?" if near else ""
        to = "be switched off" if operation.verb == "off" else operation.verb
        yield operation.fault(f"{name} is not there to {to}{hint}")
        return
    if operation.verb == "off":
        off[name] = str(operation.fields["reason"])
        return
    off.pop(name, None)
    draft = drafts[name]
    for key, value in operation.fields.items():
        draft.origins[key] = ruleset.label
        draft.note(operation, key)
        if key == "limits":
            assert isinstance(value, dict)
            for limit, entry in value.items():
                try:
                    _set_limits(draft, (limit,), entry, ruleset, operation, checks)
                except RulesetError as fault:
                    yield fault
        elif key == "sources":
            assert isinstance(value, list)
            try:
                _set_sources(draft, value, ruleset, operation)
            except RulesetError as fault:
                yield fault
        elif key == "words":
            assert isinstance(value, dict)
            draft.fields["words"] = {**draft.fields.get("words", {}), **value}
            for case in value:
                draft.note(operation, "words", case)
        else:
            draft.fields[key] = value


def _set_sources(draft: _Draft, sources: list[Any], ruleset: Ruleset, operation: Operation) -> None:
    cited = [
        (_cited(source, ruleset, operation, "sources", index), source.get("cases"))
        for index, source in enumerate(sources)
    ]
    draft.sources = tuple(source for source, _ in cited)
    draft.cases = {source: tuple(cases) for source, cases in cited if cases}


def _cited(source: Mapping[str, Any], ruleset: Ruleset, operation: Operation, *steps: str | int) -> Citation:
    try:
        return cite(source, ruleset.documents, operation.where)
    except RulesetError as error:
        raise operation.fault(error.problem, *steps, "document") from None


def _set_limits(
    draft: _Draft,
    keys: tuple[str, ...],
    entry: Mapping[str, Any],
    ruleset: Ruleset,
    operation: Operation,
    checks: Mapping[str, AnyCheck],
) -> None:
    """Set one figure, or every figure of a table, after holding it to the dimension that the check declares."""
    check = _check(operation.rule, {**operation.fields, **draft.fields}, checks)
    kind = check.limits.get(keys[0]) if check is not None else None
    if kind is None and check is not None and keys[0] in check.former_limits:
        return
    if kind is None:
        known = ", ".join(check.limits) if check is not None else ""
        it_has = f"it has {known}" if known else "it takes none"
        raise operation.fault(f"the check of {operation.rule} has no limit {keys[0]!r}; {it_has}", "limits", *keys)
    depth = len(keys) - 1
    if depth < len(kind.by):
        if "value" in entry:
            table = f"the limit {keys[0]!r} is a table by {', then by '.join(kind.by)}"
            raise operation.fault(table, "limits", *keys)
        for key, inner in entry.items():
            _set_limits(draft, (*keys, key), inner, ruleset, operation, checks)
        return
    if not isinstance(entry.get("value"), str):
        raise operation.fault(f"the limit {' / '.join(keys)} needs a value and a source", "limits", *keys)
    try:
        value = kind.dimension.parse(entry["value"])
    except QuantityError as error:
        raise operation.fault(f"the limit {' / '.join(keys)}: {error}", "limits", *keys, "value") from None
    if isinstance(value, LengthPair) and not value.agrees:
        at = ("limits", *keys, "value")
        raise operation.fault(f"the limit {' / '.join(keys)}: {value} are two lengths; {value.closer}", *at)
    source = _cited(entry, ruleset, operation, "limits", *keys)
    draft.limits[keys] = Limit(keys[0], keys[1:], value, source, ruleset.label)


def _check(rule: str, fields: Mapping[str, Any], checks: Mapping[str, AnyCheck]) -> AnyCheck | None:
    """The check behind a rule: the one that it names, else the one of its own name."""
    named = str(fields.get("check", rule))
    return checks.get(named) or checks.get(current_name(named))


def _finish(name: str, draft: _Draft, checks: Mapping[str, AnyCheck]) -> Rule:
    fields = draft.fields
    by = draft.by
    check = _check(name, fields, checks)
    if check is None:
        written = str(fields.get("check", name))
        near = get_close_matches(written, checks, n=1)
        hint = f"; did you mean {near[0]!r}?" if near else ""
        operation = by.get(("check",)) or by[("title",)]
        raise operation.fault(
            f"{name}: there is no check {written!r}{hint}", *(("check",) if "check" in fields else ())
        )
    for limit in check.limits:
        if not any(keys[0] == limit for keys in draft.limits):
            raise by[("title",)].fault(f"{name} sets no limit {limit!r}, which its check needs")
    words = {case: _words(by[("words", case)], case, entry, check) for case, entry in fields["words"].items()}
    for case in check.cases:
        if case not in words:
            raise by[("words",)].fault(f"{name} has no words for the case {case!r}", "words")
    rule = Rule(
        name=name,
        title=fields["title"],
        check=check,
        severity=Severity(fields["severity"]),
        existing=ExistingPolicy(fields["existing"]),
        due=fields["due"],
        reason=fields["reason"],
        words=words,
        limits=Limits(draft.limits),
        sources=draft.sources,
        cases=draft.cases,
        origins=draft.origins,
        defers=tuple(
            Deferral(owner["rule"], owner["on"], tuple(owner.get("cases", ()))) for owner in fields.get("defers to", ())
        ),
    )
    for case in check.cases:
        if not rule.sources_for(case, ()):
            raise by[("sources",)].fault(f"{name} names no source for the case {case!r}", "sources")
    _refuse_unfounded_violation(rule, draft)
    return rule


def _words(operation: Operation, case: str, entry: Mapping[str, Any], check: AnyCheck) -> Words:
    if case not in check.cases:
        what = f"its check has no case {case!r}; it has {', '.join(check.cases)}"
        raise operation.fault(f"{operation.rule}: {what}", "words", case)
    types = check.cases[case]
    entry = _with_current_values(entry, check, types)
    for part in ("found", "required", "remedy"):
        for problem in faults(entry[part], types):
            raise operation.fault(f"{operation.rule}: {case}: {problem}", "words", case, part)
    severity = Severity(entry["severity"]) if "severity" in entry else None
    return Words(entry["found"], entry["required"], entry["remedy"], severity)


def _deferral_faults(
    rules: Mapping[str, Rule], off: Mapping[str, str], drafts: Mapping[str, _Draft]
) -> Iterator[RulesetError]:
    """Owners that are no rules here, cases that they do not have, and rules that defer to one another in a ring."""
    for rule in rules.values():
        for index, deferral in enumerate(rule.defers):
            operation = drafts[rule.name].by[("defers to",)]
            at: tuple[str | int, ...] = ("defers to", index)
            owner = rules.get(deferral.rule)
            if owner is None:
                if deferral.rule not in off:
                    near = nearest_rule(deferral.rule, rules)
                    hint = f"; did you mean {near!r}?" if near else ""
                    what = f"{rule.name} defers to {deferral.rule}, which is no rule here{hint}"
                    yield operation.fault(what, *at, "rule")
                continue
            for case in deferral.cases:
                if case not in owner.words:
                    what = f"{deferral.rule} has no case {case!r}; it has {', '.join(owner.words)}"
                    yield operation.fault(what, *at, "cases")
            if _leads_back(rule.name, deferral.rule, rules):
                yield operation.fault(f"{rule.name} and {deferral.rule} defer to one another in a ring", *at, "rule")


def _leads_back(rule: str, owner: str, rules: Mapping[str, Rule]) -> bool:
    """Whether a rule defers to itself by way of an owner."""
    waiting, seen = [owner], {owner}
    while waiting:
        here = rules.get(waiting.pop())
        for deferral in here.defers if here is not None else ():
            if deferral.rule == rule:
                return True
            if deferral.rule not in seen:
                seen.add(deferral.rule)
                waiting.append(deferral.rule)
    return rule == owner


def _with_current_values(entry: Mapping[str, Any], check: AnyCheck, types: Values) -> Mapping[str, Any]:
    """Texts with the values that a check gives now in place of those that it gave in earlier versions."""
    renamed = {old: f"{{{new}}}" for old, new in RULESET_VALUES.items() if new in types}
    former = {name: text for name, text in {**renamed, **check.former_values}.items() if name not in types}
    if not any(f"{{{name}}}" in text for text in entry.values() for name in former):
        return entry
    changed = dict(entry)
    for name, text in former.items():
        changed |= {part: changed[part].replace(f"{{{name}}}", text) for part in ("found", "required", "remedy")}
    return changed


def _refuse_unfounded_violation(rule: Rule, draft: _Draft) -> None:
    """A violation breaks a published code: common practice alone cannot make one."""
    severe = [case for case, words in rule.words.items() if words.severity is Severity.VIOLATION]
    if not (severe or rule.severity is Severity.VIOLATION):
        return
    if all(source.confidence == "common practice" for source in rule.sources):
        may_be: list[tuple[str, ...]] = [("severity",), ("sources",), *(("words", case) for case in severe)]
        part, operation = next((part, operation) for part, operation in reversed(draft.by.items()) if part in may_be)
        raise operation.fault(f"{rule.name} is a violation without a published source", *part)
