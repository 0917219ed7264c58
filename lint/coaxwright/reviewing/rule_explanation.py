"""Why a rule did or did not apply to the things of one design: what came out for each of them, and for what reason."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from coaxwright.checks import CheckContext, DoesNotApply, Subject
from coaxwright.design import Design, NotUnderstood
from coaxwright.errors import CoaxwrightError
from coaxwright.findings import Finding, Outcome
from coaxwright.findings.merge_units import in_typical
from coaxwright.frozen_value import frozen_value
from coaxwright.network import nearest_tag, tag_order
from coaxwright.reviewing.effective_rules import RuleSources, understood
from coaxwright.reviewing.judging import judged, outcome_of
from coaxwright.reviewing.model import DesignReview
from coaxwright.reviewing.reading import read_design
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.scope import SkippedRule
from coaxwright.reviewing.search import name_of
from coaxwright.reviewing.selection import Selection, rules_on
from coaxwright.reviewing.settings import SettingsTree, asked_in
from coaxwright.rules import EffectiveRules, ExistingPolicy, Rule, RulesetError, RulesetRegistry, shipped_registry
from coaxwright.rules.phrase_book import reason_text
from coaxwright.source import Document, FilesRead

_Key = tuple[str, str, str]
"""A subject: its kind, its tag with that of its unit, and the second thing that it is about."""


class NoSuchSubject(CoaxwrightError):
    """A rule is asked of nothing that has the tag."""


@frozen_value
class SubjectOutcome:
    """What came out for one subject of one rule."""

    subject: Subject
    outcome: Outcome
    findings: tuple[Finding, ...] = ()
    """What was found on it, varied or not."""
    because: str = ""
    """Why the rule does not apply, where its check says it, or why the check could not be run."""


@frozen_value
class DesignContext:
    """A design with what it is judged by."""

    document: Document
    """With its repeated units written out."""
    asked: ReviewRequest
    basis: EffectiveRules
    bases: RuleSources


@frozen_value
class RuleExplanation:
    """What came of one rule in one design."""

    rule: str
    review: DesignReview
    answers: tuple[SubjectOutcome, ...] = ()
    """For each thing that it was asked of, in the order of the tags."""
    skipped_rules: SkippedRule | None = None
    elsewhere: tuple[str, ...] = ()
    """Rulesets of the program that have it, where none of those that bind the design does."""


def read_here(path: Path, asked: ReviewRequest) -> DesignContext:
    """A design as a review of it would be asked; ``asked`` is what the command asks.

    Raises ReadError where its file is not readable, NotUnderstood with everything that is wrong with it, with the files
    that it names, or with its settings.
    """
    files: FilesRead = {}
    asked = asked_in(asked, SettingsTree(files, reads_rulesets=not asked.reviewers_terms).of(path))
    if asked.mistakes:
        raise NotUnderstood(list(asked.mistakes))
    document = understood(read_design(path, name_of(path), files, with_rulesets=not asked.reviewers_terms))
    bases = RuleSources(shipped_registry())
    terms = bases.of_design(document, Design.model_validate(document.data), asked)
    return DesignContext(document, asked, terms.basis, bases)


def rule_here(name: str, here: DesignContext, tag: str | None = None) -> RuleExplanation:
    """What came of a rule; ``tag`` narrows it to the things that are called so, alone or in every unit that is like it.

    Raises RulesetError for a rule that no ruleset has, NoSuchSubject where the rule is asked of nothing of that tag.
    """
    review, site = judged(here.document, here.bases, replace(here.asked, with_amendments=False))
    if site is None:
        raise NotUnderstood(list(review.problems))
    kept = next((skipped_rule for skipped_rule in review.scope.skipped_rules if skipped_rule.rule == name), None)
    if kept is not None:
        return RuleExplanation(name, review, skipped_rules=kept)
    rule = here.basis.rules.get(name)
    if rule is None:
        elsewhere = labels_with(name, here.bases.shelf)
        if not elsewhere:
            raise _no_rule(name, here)
        return RuleExplanation(name, review, elsewhere=elsewhere)
    answers = sorted(_answers(rule, site, review, here.document), key=_order)
    if tag is not None:
        every, answers = answers, [answer for answer in answers if tag in _names(answer.subject, here.document)]
        if not answers:
            raise NoSuchSubject(_no_such(tag, rule, [answer.subject for answer in every]))
    return RuleExplanation(name, review, tuple(answers))


def _no_rule(name: str, here: DesignContext) -> RulesetError:
    near = Selection(frozenset(here.basis.rules) | rules_on(here.bases.shelf)).nearest(name)
    hint = f"; did you mean {near!r}?" if near else ""
    return RulesetError(name, f"no rule of that name in {', '.join(here.basis.rulesets)} or any other ruleset{hint}")


def labels_with(name: str, shelf: RulesetRegistry) -> tuple[str, ...]:
    """The rulesets of the program, with their editions, that speak of a rule."""
    labels = [f"{own} {edition}" for own in shelf.names for edition in shelf.editions(own)]
    return tuple(label for label in labels if any(operation.rule == name for operation in shelf.get(label).operations))


def _answers(rule: Rule, site: CheckContext, review: DesignReview, document: Document) -> Iterator[SubjectOutcome]:
    """An answer for each subject, by the check's own verdicts; the findings are those of the review."""
    found: dict[_Key, list[Finding]] = {}
    for finding in review.unfolded:
        if finding.rule == rule.name:
            for identity in finding.identities:
                found.setdefault((identity.kind, identity.subject, identity.second), []).append(finding)
    for thing in rule.check.each.select(site.network):
        subject = rule.check.each.describe(thing)
        findings = tuple(finding for key in _keys(subject, document) for finding in found.get(key, ()))
        try:
            verdicts = tuple(rule.check.judge(thing, site, rule.limits))
        except Exception as error:  # a fault of ours, which the review of the design tells as well
            failed = f"the check failed, please report it: {type(error).__name__}: {error}"
            yield SubjectOutcome(subject, Outcome.CANNOT_BE_JUDGED, findings, failed)
            continue
        reasons = [reason_text(verdict, rule.check) for verdict in verdicts if isinstance(verdict, DoesNotApply)]
        if verdicts and not findings and not reasons and rule.existing is ExistingPolicy.EXEMPT:
            yield SubjectOutcome(subject, Outcome.DOES_NOT_APPLY, because="existing plant is exempt")
        else:
            yield SubjectOutcome(subject, outcome_of(verdicts), findings, "; ".join(reasons))


def _keys(subject: Subject, document: Document) -> Iterator[_Key]:
    """What a finding on a subject may be identified by; what a unit names may be called as in the typical one."""
    tag = str(subject.path[1])
    instance = document.instance(subject.path)
    seconds = [subject.second, *([in_typical(subject.second, instance)] if instance is not None else [])]
    yield from ((subject.kind, tag, second) for second in dict.fromkeys(seconds))


def _names(subject: Subject, document: Document) -> set[str]:
    instance = document.instance(subject.path)
    names = {subject.tag, str(subject.path[1]), f"{subject.tag}.{subject.second}"}
    return names | ({f"{instance.typical}/{instance.tag}"} if instance is not None else set())


def _order(answer: SubjectOutcome) -> tuple[object, ...]:
    subject = answer.subject
    return tag_order(subject.tag), subject.kind, str(subject.path), subject.second


def _no_such(tag: str, rule: Rule, subjects: list[Subject]) -> str:
    what = f"{rule.name} is asked of every {rule.check.each.name}, and none here is called {tag!r}"
    near = nearest_tag(tag, list(dict.fromkeys(subject.tag for subject in subjects)))
    return f"{what}; did you mean {near!r}?" if near else what
