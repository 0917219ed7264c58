"""Words that several forms of a review share: where a finding is, what it is called, what becomes of it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from enum import Enum

from coaxwright.findings import Finding, Folded, Outcome, Place, Result, Varied
from coaxwright.network import AuthorValues
from coaxwright.reports import scope
from coaxwright.reports.excerpt import shown
from coaxwright.reports.variances import granted
from coaxwright.reviewing import WHOLE_DESIGN, Crash, DesignReview, Review
from coaxwright.rules import Caution, Severity
from coaxwright.source import Problem

RESULT_WORDS = {
    Result.CLEAR: "Clear",
    Result.RETURNED: "Returned for correction",
    Result.NOT_UNDERSTOOD: "Not understood",
    Result.INCOMPLETE: "Review incomplete",
}
MOST_ITEMS = 500
"""How many items of one design a form for people lists; beyond that nobody reads on (common practice)."""
_NO_CHARACTERS = re.compile("[\ufffe\uffff]")
"""Source: Unicode 16.0, 23.7; XML 1.0, 2.2 leaves them out too."""
_BREAKS = re.compile("[ \t\r\n\x0b\x0c\x85\u2028\u2029]+")
_FEW = 6


class Standing(Enum):
    """What becomes of a finding, most pressing first; the value is its heading."""

    RETURNS = "Items to correct"
    PERSON = "For a person to look at"
    OUTSTANDING = "Outstanding, on the punch list"
    FURTHER = "Further findings, which do not return the design"
    ADVICE = "Advice, which does not return the design"
    LATER = "Open for now, due at a later stage"
    VARIED = "Under variance"


def standing(finding: Finding, returns_at: Severity) -> Standing:
    """What becomes of one finding when findings from ``returns_at`` up return a design."""
    if finding.is_varied:
        return Standing.VARIED
    if finding.outstanding:
        return Standing.OUTSTANDING
    if finding.returns(returns_at):
        return Standing.RETURNS
    if finding.outcome is Outcome.NEEDS_A_PERSON:
        return Standing.PERSON
    if finding.due_later:
        return Standing.LATER
    return Standing.ADVICE if finding.severity is Severity.ADVICE else Standing.FURTHER


def standing_of(folded: Folded, returns_at: Severity) -> Standing:
    """The most pressing of a finding and those that wait for the same figure."""
    found = {standing(finding, returns_at) for finding in (folded.finding, *folded.waiting)}
    return next(standing for standing in Standing if standing in found)


def one_line(text: str) -> str:
    """A text of the author's on one line, without characters that would make a reader see another text."""
    return _NO_CHARACTERS.sub("\N{REPLACEMENT CHARACTER}", shown(_BREAKS.sub(" ", text).strip()))


def ended(text: str) -> str:
    """A text with the full stop that it may already have."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def first_upper(text: str) -> str:
    """A text with a capital at its beginning."""
    return f"{text[:1].upper()}{text[1:]}"


def where(place: Place) -> str:
    """File, line and column."""
    return one_line(f"{place.file}:{place.span.start.line}:{place.span.start.column}")


def where_mistaken(problem: Problem) -> str:
    """File, line and column of a mistake; a file as a whole has neither line nor column."""
    start = problem.span.start
    return one_line(f"{problem.file}:{start.line}:{start.column}" if problem.span.end.index > 0 else problem.file)


def name(finding: Finding) -> str:
    """What a finding is about: a tag, or a part of the thing that has it."""
    subject = finding.subject
    return one_line(f"{subject.tag}.{subject.second}" if subject.second == "mast" else subject.tag)


def grade(finding: Finding) -> str:
    """How a finding is called: its severity, or that a person has to look; and whether it is varied or outstanding."""
    word = "needs a person" if finding.outcome is Outcome.NEEDS_A_PERSON else finding.severity.value
    if finding.is_varied:
        return f"{word}, under variance"
    return f"{word}, outstanding" if finding.outstanding else word


def parts(finding: Finding) -> Iterator[tuple[str, str]]:
    """What is, what should be, remedy, source and notes, each on one line with its label."""
    yield "found", one_line(finding.found)
    if len(finding.instances) > 1:
        from coaxwright.reports.instances import also_in

        yield "also in", one_line(also_in(finding))
    yield "required", one_line(finding.required)
    yield "remedy", one_line(finding.remedy)
    yield "reference", one_line("; ".join(str(source) for source in finding.sources))
    for remark in finding.remarks:
        yield "note", one_line(remark)
    if finding.new_in:
        from coaxwright.reports.preexisting import new_in

        yield "note", one_line(new_in(finding))
    if finding.varied is not None:
        yield "variance", variance(finding.varied)


def variance(varied: Varied) -> str:
    """Why a variance was granted, by whom and until when; and whether it counts."""
    return one_line(f"{granted(varied)}{'' if varied.honoured else '; not taken into account in this review'}")


def failure(crash: Crash) -> str:
    """A check that failed, in a sentence."""
    if crash.rule == WHOLE_DESIGN:
        return one_line(f"the program failed at this design, please report it: {crash.error}")
    on = crash.subject or "the design"
    return one_line(f"the check behind {crash.rule} failed at {on}, please report it: {crash.error}")


def outcome(design: DesignReview) -> str:
    """The result of a design with what was found, as ``Clear: nothing found; 54 rules checked on 211 items``."""
    result = design.result
    if result is Result.NOT_UNDERSTOOD:
        return f"{RESULT_WORDS[result]}: {counted(len(design.problems), 'mistake')} to correct first"
    if not design.tallies or design.is_nothing_asked:
        return f"{RESULT_WORDS[result]}: {nothing_asked(design)}"
    failed = f"{counted(len(design.crashes), 'check')} failed; " if design.crashes else ""
    asked = scope.asked_words(design)
    words = scope.result_words(design, RESULT_WORDS[result])
    nothing = "nothing new" if design.stood else "nothing found"
    return f"{words}: {failed}{summary(design.findings) or nothing}; {left_out(design)}{asked}"


def nothing_asked(design: DesignReview) -> str:
    """Why no rule was asked of a design that could be read."""
    if design.is_nothing_asked and design.tallies:
        return "nothing stands in the design that a rule is about"
    return "every rule is left out" if design.scope.skipped_rules else "no rule could be asked"


def left_out(design: DesignReview) -> str:
    """What is left out of a design since it was there before, with a semicolon behind it; empty for nothing."""
    if not design.stood:
        return ""
    from coaxwright.reports.preexisting import stood

    return f"{one_line(stood(design))}; "


def compared(review: Review, design: DesignReview | None = None) -> Iterator[str]:
    """What there is to say of a punch list, or of a revision, besides the findings: all, or what is of one design."""
    if review.since is not None or review.punch_lists:
        from coaxwright.reports.preexisting import lines

        yield from map(one_line, lines(review, design))


def summary(findings: Sequence[Finding]) -> str:
    """How many findings there are of each severity and outcome; empty for none."""
    varied = sum(finding.is_varied for finding in findings)
    outstanding = sum(finding.outstanding for finding in findings)
    findings = [finding for finding in findings if not finding.is_set_aside]
    broken = [finding for finding in findings if finding.outcome is Outcome.NOT_MET]
    numbers = [
        (sum(finding.severity is Severity.VIOLATION for finding in broken), "violation", ""),
        (sum(finding.severity is Severity.DEFICIENCY for finding in broken), "deficiency", "deficiencies"),
        (sum(finding.severity is Severity.ADVICE for finding in broken), "advisory", "advisories"),
        (_open(findings, Outcome.CANNOT_BE_JUDGED), "cannot be judged", "cannot be judged"),
        (_open(findings, Outcome.NEEDS_A_PERSON), "for a person to judge", "for a person to judge"),
        (sum(bool(finding.due_later) for finding in findings), "not due yet", "not due yet"),
        (outstanding, "outstanding", "outstanding"),
        (varied, "under variance", "under variance"),
    ]
    return ", ".join(counted(number, noun, plural) for number, noun, plural in numbers if number)


def _open(findings: Iterable[Finding], outcome: Outcome) -> int:
    return sum(finding.outcome is outcome and not finding.due_later for finding in findings)


def author_values(design: DesignReview) -> str:
    """The cable classes and devices whose figures are the author's own, each with its file; empty for none."""
    return ", ".join(own_figure(author_value) for author_value in design.author_values)


def own_figure(values: AuthorValues) -> str:
    """One of them with its file; of a figure that stands at things of the design, at which."""
    of = f" of {few(values.used_by)}" if values.kind == "figure" else ""
    return f"{values.name}{of} ({values.file})"


def most_serious(findings: Sequence[Finding], most: int = MOST_ITEMS) -> tuple[list[Finding], int]:
    """The ``most`` most serious findings in the order that they were in, and the number left out."""
    if len(findings) <= most:
        return list(findings), 0
    ranked = sorted(range(len(findings)), key=lambda index: (-findings[index].severity.rank, index))
    return [findings[index] for index in sorted(ranked[:most])], len(findings) - most


def cautions(designs: Iterable[DesignReview]) -> list[Caution]:
    """Each caution once, in its last wording."""
    found: dict[str, Caution] = {}
    for design in designs:
        found.update((caution.name, caution) for caution in design.cautions)
    return list(found.values())


def closing_lines(review: Review) -> Iterator[str]:
    """What ends a form of single lines: the result of each design, and the cautions."""
    heads = [tuple(scope.head(design)) for design in review.designs]
    of_all = [entry for entry in heads[0] if all(entry in head for head in heads)] if len(heads) > 1 else []
    for design, head in zip(review.designs, heads, strict=True):
        yield f"{outcome(design)} ({one_line(design.file)})"
        if design.author_values:
            yield f"Author-supplied values: {one_line(author_values(design))}"
        for label, text in head:
            if (label, text) not in of_all:
                yield f"{label}: {one_line(text)}"
    for label, text in of_all:
        yield f"{label} (all {len(heads)} designs): {one_line(text)}"
    if not review.designs and not review.nothing_changed:
        yield f"{RESULT_WORDS[review.result]}: nothing was reviewed"
    yield from compared(review)
    if review.left_out:
        yield one_line(scope.left_out(review))
    for caution in cautions(review.designs):
        yield f"Caution: {one_line(caution.text)}"


def few(texts: Iterable[str]) -> str:
    """The first few of many, each once."""
    each = list(dict.fromkeys(texts))
    return ", ".join(each) if len(each) <= _FEW else f"{', '.join(each[: _FEW - 1])} and {len(each) - _FEW + 1} more"


def counted(number: int, noun: str, plural: str = "") -> str:
    """``1 violation``, ``3 violations``."""
    return f"{number} {noun if number == 1 else plural or noun + 's'}"
