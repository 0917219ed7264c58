"""What came of one rule in one design, thing by thing, for people."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from textwrap import wrap

from coaxwright.findings import Outcome
from coaxwright.reports import scope, wording
from coaxwright.reports.excerpt import shown
from coaxwright.reviewing.rule_explanation import RuleExplanation, SubjectOutcome

_LABEL_COLUMNS = 18
_MOST_TELLING = (
    Outcome.NOT_MET,
    Outcome.CANNOT_BE_JUDGED,
    Outcome.NEEDS_A_PERSON,
    Outcome.MET,
    Outcome.DOES_NOT_APPLY,
)
_whole_words = partial(wrap, break_on_hyphens=False, break_long_words=False)


def render(here: RuleExplanation, width: int) -> str:
    """The answers in order of what they tell, within ``width`` columns."""
    return "\n".join(_lines(here, max(60, width))) + "\n"


def _lines(here: RuleExplanation, width: int) -> Iterator[str]:
    judged = f"In {here.review.file}, judged by {scope.judged_by(here.review)}"
    yield from _whole_words(shown(wording.one_line(judged)), width)
    if here.review.scope.reviewers_terms:
        yield from _on_reviewers_terms(here, width)
    if here.skipped_rules is not None:
        yield from _entry("not asked", scope.why_not_asked(here.skipped_rules), width)
    elif here.elsewhere:
        why = f"none of these rulesets has the rule; it is in {', '.join(here.elsewhere)}"
        yield from _entry("not asked", why, width)
    elif not here.answers:
        yield from _entry("checked on nothing", "the design holds nothing that the rule is about", width)
    else:
        yield from _entry("checked on", _counts(here), width)
        for outcome in _MOST_TELLING:
            for answer in here.answers:
                if answer.outcome is outcome:
                    yield from _answer(answer, width)


def _on_reviewers_terms(here: RuleExplanation, width: int) -> Iterator[str]:
    for label, text in scope.head(here.review):
        yield from _whole_words(shown(wording.one_line(f"{label}: {text}")), width)
    if here.review.author_values:
        stated = f"Author-supplied values: {wording.author_values(here.review)}"
        yield from _whole_words(shown(wording.one_line(stated)), width)


def _counts(here: RuleExplanation) -> str:
    outcomes = [answer.outcome for answer in here.answers]
    numbers = ", ".join(f"{outcomes.count(outcome)} {outcome}" for outcome in _MOST_TELLING if outcome in outcomes)
    return f"{wording.counted(len(outcomes), 'item')}: {numbers}"


def _answer(answer: SubjectOutcome, width: int) -> Iterator[str]:
    subject = answer.subject
    about = f"{subject.tag}, {subject.second}" if subject.second else subject.tag
    where = f" ({subject.where})" if subject.where else ""
    varied = bool(answer.findings) and all(finding.is_varied for finding in answer.findings)
    label = f"{answer.outcome}{', under variance' if varied else ''}"
    yield from _entry(label, f"{about}{where}{f': {answer.because}' if answer.because else ''}", width)
    for finding in answer.findings:
        texts = dict(wording.parts(finding))
        variance = f"; variance: {texts['variance']}" if "variance" in texts else ""
        at = wording.where(finding.place)
        yield from _entry("", f"{texts['found']}; required: {texts['required']} ({at}){variance}", width)


def _entry(label: str, text: str, width: int) -> Iterator[str]:
    indent = " " * (_LABEL_COLUMNS + 2)
    head = f"  {label:<{_LABEL_COLUMNS}}"
    if len(label) >= _LABEL_COLUMNS:
        head = f"  {label}  "
    yield from _whole_words(shown(wording.one_line(text)), width, initial_indent=head, subsequent_indent=indent)
