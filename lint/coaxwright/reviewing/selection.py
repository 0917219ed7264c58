"""Which of the rules that bind a design are asked: all, but for those that settings or the command keep out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coaxwright.design import NotUnderstood
from coaxwright.errors import CoaxwrightError
from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.review_request import COMMAND, LeftOut, ReviewRequest
from coaxwright.reviewing.scope import AlsoAsked, KeptBy, Scope, SkippedRule
from coaxwright.rules import EffectiveRules, RulesetRegistry, topic_of
from coaxwright.source import Problem, quoted
from coaxwright.source.problem import MOST_PROBLEMS, at_most

_MOST_NEAREST = 50
"""For how many names the nearest is looked for, which takes a while: nobody misspells more of them."""


class SelectionError(CoaxwrightError):
    """A rule or topic is named that there is not."""


@frozen_value
class Selection:
    """What there is to name in one run or for one design."""

    rules: frozenset[str]

    @property
    def topics(self) -> frozenset[str]:
        return frozenset(map(topic_of, self.rules))

    def has(self, name: str) -> bool:
        """Whether it is a rule or a topic."""
        return name in self.rules or name in self.topics

    def nearest(self, name: str) -> str:
        """The rule or topic that was probably meant; empty where nothing is like it."""
        from coaxwright.design.nearest import nearest_word
        from coaxwright.rules import nearest_rule

        topic = nearest_word(name, sorted(self.topics)) if "." not in name else None
        return topic or nearest_rule(name, self.rules) or ""


def means(name: str, rule: str) -> bool:
    """Whether a rule is meant by a name of its own or of its topic."""
    return name in (rule, topic_of(rule))


def rules_on(shelf: RulesetRegistry) -> frozenset[str]:
    """Every rule of every edition that comes with the program."""
    labels = [f"{name} {edition}" for name in shelf.names for edition in shelf.editions(name)]
    return frozenset(operation.rule for label in labels for operation in shelf.get(label).operations)


def refuse_unknown(names: Iterable[str], known: Selection) -> None:
    """Raise SelectionError for a name of the command that is neither a rule nor a topic."""
    for name in names:
        if not known.has(name):
            near = known.nearest(name)
            hint = f"did you mean {near!r}?" if near else "coaxwright cite lists all"
            raise SelectionError(f"there is no rule or topic {quoted(name)}; {hint}")


def refuse_unknown_in_settings(asked: ReviewRequest, basis: EffectiveRules, shelf: RulesetRegistry) -> None:
    """Raise NotUnderstood for what settings leave out that neither this design nor any ruleset of the program has."""
    here = frozenset({*basis.rules, *basis.off})
    if unknown(asked.left_out, Selection(here)):
        problems = unknown(asked.left_out, Selection(here | rules_on(shelf)))
        if problems:
            raise NotUnderstood(problems)


def unknown(left_out: Iterable[LeftOut], known: Selection) -> list[Problem]:
    """What settings leave out that is neither a rule nor a topic, each at its place; the first with the nearest."""
    absent = [(left, left.origin.span) for left in left_out if not known.has(left.name)]
    problems = [
        Problem(
            left.origin.file,
            span,
            f"there is no rule or topic {quoted(left.name)}",
            nearest=known.nearest(left.name) if number < _MOST_NEAREST else "",
        )
        for number, (left, span) in enumerate(absent[: MOST_PROBLEMS + 1])
        if span is not None
    ]
    return at_most(problems, problems[0].file) if problems else []


def skipped_rules(basis: EffectiveRules, asked: ReviewRequest) -> dict[str, SkippedRule]:
    """By name, each rule that is not asked: those that bind the design, and those that a ruleset switches off."""
    kept: dict[str, SkippedRule] = {}
    for rule in basis.rules if asked.only or asked.left_out else ():
        why = _why_not(rule, asked)
        if why is not None:
            kept[rule] = why
    for rule, reason in basis.off.items():
        kept[rule] = SkippedRule(rule, KeptBy.RULESET, reason, basis.off_by.get(rule, ""))
    return {rule: kept[rule] for rule in sorted(kept)}


def scope_of(asked: ReviewRequest, kept: Iterable[SkippedRule] = ()) -> Scope:
    """What of a review's terms becomes part of its result."""
    labels = tuple(ruleset.printed for ruleset in asked.rulesets)
    at = asked.returns_at_from
    return Scope(
        reviewers_terms=labels if asked.reviewers_terms else (),
        set_aside=asked.set_aside,
        settings=asked.settings,
        also_asked=() if asked.reviewers_terms else tuple(_also_asked(asked)),
        returns_at_from=str(at) if at is not None and at != COMMAND else "",
        only=asked.only,
        leave_out=tuple(left.name for left in asked.left_out if left.origin == COMMAND),
        skipped_rules=tuple(kept),
    )


def _also_asked(asked: ReviewRequest) -> Iterator[AlsoAsked]:
    for ruleset in asked.rulesets:
        yield AlsoAsked(ruleset.printed, str(ruleset.origin))


def _why_not(rule: str, asked: ReviewRequest) -> SkippedRule | None:
    """What keeps a rule from being asked, the command before settings, and the rule's own name before its topic's."""
    if asked.only and not any(means(name, rule) for name in asked.only):
        return SkippedRule(rule, KeptBy.COMMAND)
    meant = [left for left in asked.left_out if means(left.name, rule)]
    if not meant:
        return None
    first = min(meant, key=lambda left: (left.origin != COMMAND, left.name != rule))
    return _kept(rule, first)


def _kept(rule: str, left: LeftOut) -> SkippedRule:
    if left.origin == COMMAND:
        return SkippedRule(rule, KeptBy.COMMAND)
    return SkippedRule(rule, KeptBy.SETTINGS, left.reason, str(left.origin))
