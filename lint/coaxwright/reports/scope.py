"""On whose terms a design was reviewed and which rules were not asked, in words for every form of the report."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.findings import Result
from coaxwright.reviewing import DesignReview, KeptBy, Review, SkippedRule

ON_REVIEWERS_TERMS = "On the reviewer's terms"
ONLY_A_PART = "Only a part of the rules"
_FEW = 6


def judged_by(design: DesignReview) -> str:
    """The rulesets that bind the design: the reviewer's alone, or those it names with those that settings add."""
    scope = design.scope
    if scope.reviewers_terms:
        return " and ".join(scope.reviewers_terms)
    added = [ruleset.label for ruleset in scope.also_asked if ruleset.label not in design.named_rulesets]
    return " and ".join(dict.fromkeys((*design.named_rulesets, *added)))


def head(design: DesignReview) -> Iterator[tuple[str, str]]:
    """What stands at the head of a report, each with its label; nothing for a design on its own terms alone."""
    scope = design.scope
    if scope.reviewers_terms:
        yield (
            ON_REVIEWERS_TERMS,
            f"judged by {judged_by(design)}; what the design names and grants itself does not count",
        )
        if design.named_rulesets:
            yield "Named by the design, not used", " and ".join(design.named_rulesets)
        granted = list(
            dict.fromkeys(f"{finding.rule} ({finding.subject.tag})" for finding in design.findings if finding.varied)
        )
        if granted:
            further = f" and {len(granted) - _FEW} further" if len(granted) > _FEW else ""
            yield "Variances that it grants itself, not used", f"{', '.join(granted[:_FEW])}{further}"
        if scope.set_aside:
            yield "Beside the design, not used", ", ".join(scope.set_aside)
    if scope.settings:
        yield "Settings", ", ".join(scope.settings)
    if design.problems:
        return
    if scope.returns_at_from:
        yield "Severity that returns it, by settings", f"{design.returns_at.value} ({scope.returns_at_from})"
    if scope.also_asked:
        added = ", ".join(f"{ruleset.label} ({ruleset.origin})" for ruleset in scope.also_asked)
        yield "Asked besides, by settings", added
    if scope.is_part:
        yield ONLY_A_PART, part(design)


def part(design: DesignReview) -> str:
    """How many of the rules were asked, and what was chosen: ``12 of 97 asked (only bonding; not bonding.path)``."""
    return f"{len(design.tallies)} of {bound(design)} asked ({chosen(design)})"


def chosen(design: DesignReview) -> str:
    """What the command chose of the rules."""
    scope = design.scope
    only = f"only {', '.join(scope.only)}" if scope.only else ""
    without = f"without {', '.join(scope.leave_out)}" if scope.leave_out else ""
    return "; ".join(part for part in (only, without) if part)


def bound(design: DesignReview) -> int:
    """How many rules bind the design, asked or not."""
    off = len(design.scope.kept_by(KeptBy.RULESET))
    return len(design.tallies) + len(design.scope.skipped_rules) - off


def result_words(design: DesignReview, words: str) -> str:
    """The words of a result, which are never plain where only a part of the rules was asked."""
    if design.result is not Result.CLEAR or not design.scope.is_part:
        return words
    return f"{words} {'AS FAR AS ASKED' if words.isupper() else 'as far as asked'}"


def asked_words(design: DesignReview) -> str:
    """How many rules were asked, of how many things, and how many were not: ``95 rules checked on 211 items``."""
    scope = design.scope
    number = len(design.tallies)
    judged = sum(t.met + t.not_met + t.cannot_be_judged + t.needs_a_person for t in design.tallies)
    things = f"{judged} {'item' if judged == 1 else 'items'}"
    told = f"{number} {'rule' if number == 1 else 'rules'} checked on {things}"
    if scope.is_part:
        told = f"only {number} of {bound(design)} rules checked on {things} ({chosen(design)})"
    left, off = (len(scope.kept_by(who)) for who in (KeptBy.SETTINGS, KeptBy.RULESET))
    return f"{told}{f', {left} left out by settings' if left else ''}{f', {off} switched off' if off else ''}"


def why_not_asked(skipped: SkippedRule) -> str:
    """Why a rule was not asked: ``left out by settings: set on site (coax-settings.yaml:4)``."""
    match skipped.by:
        case KeptBy.COMMAND:
            return "not chosen"
        case KeptBy.SETTINGS:
            return f"left out by settings: {skipped.reason} ({skipped.origin})"
        case KeptBy.RULESET:
            return f"switched off{f' by {skipped.origin}' if skipped.origin else ''}: {skipped.reason}"


def left_out(review: Review) -> str:
    """The designs that settings leave out, the first few with the reason; empty for none."""
    every = review.left_out
    if not every:
        return ""
    noun = "design" if len(every) == 1 else "designs"
    told = ", ".join(f"{skipped.name} ({skipped.reason}; {skipped.origin})" for skipped in every[:_FEW])
    more = f" and {len(every) - _FEW} more" if len(every) > _FEW else ""
    return f"{len(every)} {noun} left out by settings: {told}{more}"
