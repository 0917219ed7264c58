"""The review as text for people: each item with its place, what is, what should be, why, and how to mend it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from re import split

from coaxwright.findings import Amendment, Finding, Folded, Outcome, Result, fold, gathered
from coaxwright.reports import scope, wording
from coaxwright.reports.excerpt import columns, excerpt, shown
from coaxwright.reports.variances import granted, remarks
from coaxwright.reviewing import WHOLE_DESIGN, Crash, DesignReview, Review
from coaxwright.rules import Caution, Severity

_LABEL_COLUMNS = 13
_FEW_DESIGNS = 6
_INDENT = " " * 4
_COLORS = {
    Severity.VIOLATION: "1;31",
    Severity.DEFICIENCY: "1;33",
    Severity.ADVICE: "1;36",
}
_RESULT_WORDS = {
    Result.CLEAR: "CLEAR",
    Result.RETURNED: "RETURNED FOR CORRECTION",
    Result.NOT_UNDERSTOOD: "NOT UNDERSTOOD",
    Result.INCOMPLETE: "REVIEW INCOMPLETE",
}
_RESULT_COLORS = {Result.CLEAR: "1;32", Result.RETURNED: "1;31"}


def render(review: Review, width: int = 100, color: bool = False) -> str:
    """The whole review, within ``width`` columns, with or without color."""
    return "\n".join(_Text(review, width, color).lines()) + "\n"


class _Text:
    def __init__(self, review: Review, width: int, color: bool) -> None:
        self.review = review
        self.width = max(60, width)
        self.color = color

    def lines(self) -> Iterator[str]:
        for design in self.review.designs:
            yield from self.design(design)
            yield ""
        if len(self.review.designs) > 1:
            yield from self.total()
            yield ""
        yield from self.compared()
        if self.review.left_out:
            yield from self.paragraph(scope.left_out(self.review), "  ", first="")
            yield ""
        yield from self.cautions()

    def compared(self) -> Iterator[str]:
        """What there is to say of a punch list, or of a revision, besides the findings."""
        if self.review.since is not None or self.review.punch_lists:
            from coaxwright.reports.preexisting import lines

            for line in lines(self.review):
                yield from self.paragraph(line, "  ", first="")
                yield ""

    def design(self, design: DesignReview) -> Iterator[str]:
        yield from self.heading(design)
        for problem in design.problems:
            yield ""
            where = f"{problem.file}:{problem.span.start.line}:{problem.span.start.column}"
            yield self.painted("1", shown(where))
            yield from self.paragraph(problem.message, _INDENT)
        varied = [finding for finding in design.findings if finding.is_varied]
        outstanding = [finding for finding in design.findings if finding.outstanding]
        standing = [finding for finding in design.findings if not finding.is_set_aside]
        every = gathered(fold(standing, design.folded))
        for number, folded in enumerate((folded for folded in every if not folded.finding.due_later), 1):
            yield ""
            yield from self.item(number, folded)
        later = [folded for folded in every if folded.finding.due_later]
        if later:
            yield ""
            yield self.painted("1", "Open for now, each due at the stage named")
            for folded in later:
                yield from self.open_figure(folded)
        if outstanding:
            yield ""
            yield self.painted("1", "Outstanding: found, and on the punch list")
            for finding in outstanding:
                yield from self.set_aside(finding)
        if varied:
            yield ""
            yield self.painted("1", "Under variance: found, and granted as exceptions")
            for finding in varied:
                yield from self.set_aside(finding)
        for crash in design.crashes:
            yield ""
            yield from self.paragraph(_crash(crash), "")
        yield ""
        yield from self.outcome(design)

    def heading(self, design: DesignReview) -> Iterator[str]:
        for line in self.paragraph(design.title if design.design else design.file, ""):
            yield self.painted("1", line)
        if not design.design:
            return
        parts = [
            f"sheet {design.sheet}" if design.sheet else "",
            f"revision {design.revision}" if design.revision else "",
        ]
        stage = f"stage {design.stage}"
        judged = f"judged by {scope.judged_by(design)}"
        yield from self.paragraph(", ".join(part for part in (design.file, *parts, stage, judged) if part), "")
        if design.author_values:
            yield from self.paragraph(f"author-supplied values: {wording.author_values(design)}", "")
        if design.as_of:
            yield from self.paragraph(f"variances as of {design.as_of}", "")
        for label, text in scope.head(design):
            yield from self.paragraph(f"{label[0].lower()}{label[1:]}: {text}", "")

    def item(self, number: int, folded: Folded) -> Iterator[str]:
        finding = folded.finding
        word = _word(finding)
        head = shown(f"{number:>3} {word}  {finding.rule}  {_subject(finding)}")
        where = f"({finding.subject.where})" if finding.subject.where else ""
        fits = columns(f"{head}  {where}") <= self.width
        painted = head.replace(word, self.painted(_COLORS[finding.severity], word), 1)
        yield f"{painted}  {shown(where)}" if where and fits else painted
        if where and not fits:
            yield from self.paragraph(where, _INDENT)
        place = finding.place
        yield shown(f"{_INDENT}{place.file}:{place.span.start.line}:{place.span.start.column}")
        line, mark = excerpt(place, self.width - 6)
        yield f"      {line}"
        yield f"      {self.painted(_COLORS[finding.severity], mark)}"
        yield from self.labeled("found", finding.found)
        if len(finding.instances) > 1:
            from coaxwright.reports.instances import also_in

            yield from self.labeled("also in", also_in(finding))
        if folded.alike:
            yield from self.labeled("likewise", ", ".join(_elsewhere(alike, finding) for alike in folded.alike))
        yield from self.labeled("required", finding.required)
        yield from self.labeled("reason", finding.reason)
        yield from self.labeled("remedy", finding.remedy)
        if finding.amendment is not None:
            yield from self.labeled("amendment", _amendment(finding.amendment))
        yield from self.labeled("reference", "; ".join(str(source) for source in finding.sources))
        for remark in remarks(finding):
            yield from self.labeled("note", remark)
        if folded.waiting:
            yield from self.labeled("waits on it", _by_rule(folded.waiting))
        if folded.deferred:
            yield from self.labeled("also found", _by_rule(folded.deferred))

    def open_figure(self, folded: Folded) -> Iterator[str]:
        """A figure that is missing and not due yet, with what waits for it, in a few lines."""
        finding = folded.finding
        place = finding.place
        cause = finding.found.removeprefix("cannot be judged: ")
        waiting = _tags_by_rule((finding, *folded.waiting))
        asked = "; ".join(f"{rule} of {_few(tags)}" for rule, tags in waiting.items())
        where = f"{place.file}:{place.span.start.line}:{place.span.start.column}"
        yield from self.paragraph(f"{finding.due_later}: {cause} ({where}), for {asked}", "    ", first="  ")

    def set_aside(self, finding: Finding) -> Iterator[str]:
        """A finding that is varied or outstanding, in a few lines: what to do about it is decided."""
        where = f" ({finding.subject.where})" if finding.subject.where else ""
        also = ""
        if len(finding.instances) > 1:
            from coaxwright.reports.instances import also_in

            also = f", also in {also_in(finding)}"
        place = f"{finding.place.file}:{finding.place.span.start.line}:{finding.place.span.start.column}"
        head = f"{finding.rule}, {_subject(finding)}{where}{also}, {place}"
        yield from self.paragraph(f"{_word(finding)}: {head}", _INDENT, first="  ")
        yield from self.labeled("found", finding.found)
        yield from self.labeled("required", finding.required)
        if finding.varied is not None and finding.varied.honoured:
            at = finding.varied.place
            written = f"{at.file}:{at.span.start.line}:{at.span.start.column}"
            yield from self.labeled("variance", f"{granted(finding.varied)} ({written})")

    def outcome(self, design: DesignReview) -> Iterator[str]:
        result = design.result
        word = _RESULT_WORDS[result]
        if result is Result.NOT_UNDERSTOOD:
            mistakes = _counted(len(design.problems), "mistake")
            yield from self.painted_first(word, f"{mistakes} to correct before the rules can be checked")
            return
        if design.is_nothing_asked or (result is Result.INCOMPLETE and not design.tallies):
            yield from self.painted_first(word, wording.nothing_asked(design))
            return
        asked = scope.asked_words(design)
        found = _summary(design.findings) if design.findings else "nothing new" if design.stood else "nothing found"
        failed = f"{_counted(len(design.crashes), 'check')} failed; " if design.crashes else ""
        told = f"{failed}{found}; {self.left_out(design)}{asked}"
        yield from self.painted_first(word, told, scope.result_words(design, word))

    def left_out(self, design: DesignReview) -> str:
        if not design.stood:
            return ""
        from coaxwright.reports.preexisting import stood

        return f"{stood(design)}; "

    def total(self) -> Iterator[str]:
        results = [design.result for design in self.review.designs]
        parts = [f"{results.count(result)} {result}" for result in Result if result in results]
        findings = tuple(self.review.findings)
        summary = f"; {_summary(findings)}" if findings else ""
        if self.review.count_stood and self.review.since is not None:
            summary += f"; {self.review.count_stood} further stood at {self.review.since.revision} already"
        part = (
            "; only a part of the rules was asked"
            if any(design.scope.is_part for design in self.review.designs)
            else ""
        )
        counts = f"{_counted(len(results), 'design')}: {', '.join(parts)}"
        yield from self.paragraph(f"{counts}{part}{summary}", "  ", first="")
        if len(results) > _FEW_DESIGNS:  # of many, those that matter are out of sight by now
            for result in Result:
                files = [design.file for design in self.review.designs if design.result is result]
                if files and result is not Result.CLEAR:
                    yield from self.paragraph(f"{result}: {wording.few(files)}", "    ", first="  ")

    def cautions(self) -> Iterator[str]:
        texts: dict[str, Caution] = {}
        for design in self.review.designs:
            texts.update((caution.name, caution) for caution in design.cautions)
        if not texts:
            return
        yield self.painted("1", "Cautions")
        for caution in texts.values():
            yield from self.paragraph(caution.text, "  ", first="- ")

    def labeled(self, label: str, text: str) -> Iterator[str]:
        yield from self.paragraph(text, _INDENT + " " * _LABEL_COLUMNS, first=f"{_INDENT}{label:<{_LABEL_COLUMNS}}")

    def paragraph(self, text: str, indent: str, first: str | None = None) -> Iterator[str]:
        line, is_empty = indent if first is None else first, True
        for word in split("[ \t\n]+", shown(text)):
            if not word:
                continue
            if not is_empty and columns(line) + 1 + columns(word) > self.width:
                yield line
                line, is_empty = indent, True
            line += word if is_empty else f" {word}"
            is_empty = False
        if not is_empty:
            yield line

    def painted_first(self, word: str, text: str, words: str = "") -> Iterator[str]:
        """A result and what there is to say of it; the word alone is painted, after the text is wrapped.

        ``words``: those of the result where there are more than the word.
        """
        word = words or word
        first, *rest = self.paragraph(f"{word}: {text}", "  ", first="")
        color = next((code for result, code in _RESULT_COLORS.items() if _RESULT_WORDS[result] == word), "1;33")
        yield first.replace(word, self.painted(color, word), 1)
        yield from rest

    def painted(self, code: str, text: str) -> str:
        return f"\x1b[{code}m{text}\x1b[0m" if self.color else text


def _crash(crash: Crash) -> str:
    if crash.rule == WHOLE_DESIGN:
        what = "The program failed at this design; any others were reviewed."
    else:
        what = f"The check behind {crash.rule} failed at {crash.subject or 'the design'}; the other rules went on."
    return f"{what} Please report this: {crash.error}"


def _amendment(amendment: Amendment) -> str:
    change = f"'{amendment.written}' to '{amendment.text}'"
    if not amendment.changes:
        return change
    from coaxwright.reports.instances import changes

    return change + changes(amendment)


def _subject(finding: Finding) -> str:
    subject = finding.subject
    return f"{subject.tag}.{subject.second}" if subject.second == "mast" else subject.tag


def _elsewhere(finding: Finding, first: Finding) -> str:
    """A thing of which the same is said, and where: ``C-105 (line 61)``."""
    place = finding.place
    file = "" if place.file == first.place.file else f"{place.file}, "
    return f"{_subject(finding)} ({file}line {place.span.start.line})"


def _word(finding: Finding) -> str:
    match finding.outcome:
        case Outcome.NOT_MET:
            return finding.severity.value.upper()
        case Outcome.NEEDS_A_PERSON:
            return "NEEDS A PERSON"
        case _:
            return f"{finding.severity.value.upper()}, CANNOT BE JUDGED"


def _summary(findings: Iterable[Finding]) -> str:
    every = tuple(findings)
    findings = [finding for finding in every if not finding.is_set_aside]
    broken = [finding for finding in findings if finding.outcome is Outcome.NOT_MET]
    parts = []
    for severity, noun, plural in (
        (Severity.VIOLATION, "violation", ""),
        (Severity.DEFICIENCY, "deficiency", "deficiencies"),
        (Severity.ADVICE, "advisory", "advisories"),
    ):
        number = sum(finding.severity is severity for finding in broken)
        if number:
            parts.append(_counted(number, noun, plural))
    for outcome in (Outcome.CANNOT_BE_JUDGED, Outcome.NEEDS_A_PERSON):
        number = sum(finding.outcome is outcome and not finding.due_later for finding in findings)
        if number:
            parts.append(
                f"{number} {outcome}" if outcome is Outcome.CANNOT_BE_JUDGED else f"{number} for a person to judge"
            )
    later = sum(bool(finding.due_later) for finding in findings)
    if later:
        parts.append(f"{later} not due yet")
    outstanding = sum(finding.outstanding for finding in every)
    if outstanding:
        parts.append(f"{outstanding} outstanding")
    if len(findings) + outstanding < len(every):
        parts.append(f"{len(every) - len(findings) - outstanding} under variance")
    return ", ".join(parts)


def _tags_by_rule(findings: Iterable[Finding]) -> dict[str, list[str]]:
    """The things that findings are about, each once, by rule."""
    found: dict[str, dict[str, None]] = {}
    for finding in findings:
        found.setdefault(finding.rule, {})[finding.subject.tag] = None
    return {rule: list(tags) for rule, tags in found.items()}


def _by_rule(findings: Iterable[Finding]) -> str:
    """``plan.outlet-fed (DEN, LIV), level.tilt (DEN)``."""
    return ", ".join(f"{rule} ({_few(tags)})" for rule, tags in _tags_by_rule(findings).items())


def _few(tags: list[str]) -> str:
    """The first few of many tags."""
    return ", ".join(tags) if len(tags) <= 4 else f"{', '.join(tags[:3])} and {len(tags) - 3} more"


def _counted(number: int, noun: str, plural: str = "") -> str:
    return f"{number} {noun if number == 1 else plural or noun + 's'}"
