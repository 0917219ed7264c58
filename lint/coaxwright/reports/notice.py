"""A correction notice for each design, to be printed, sent, and filled in by hand: Markdown that reads as plain text.

It lists what is to be corrected, each item with its place, what is, what should be and the source, and a line for who
corrected it and when. It decides nothing: whoever issues it signs for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.findings import Finding, Folded, fold
from coaxwright.reports import left_out, scope, wording
from coaxwright.reports.markdown import BLANK, nothing_to_tell, plain, said_of, wrapped
from coaxwright.reports.wording import Standing
from coaxwright.reviewing import DesignReview, Review

_NOT_STATED = "not stated"
_LEFT_OUT = frozenset({"remedy", "reference"})
"""Parts of a finding that have their own place in an item."""


def render(review: Review, width: int = 100, dated: str = "") -> str:
    """One notice after another, within ``width`` columns.

    ``dated`` is the date printed, a blank to fill in where it is empty.
    """
    notices = ["\n".join(_Notice(review, design, max(60, width), dated).lines()) for design in review.designs]
    notices = notices or [nothing_to_tell("Correction notice", review, width)]
    return "\n\n---\n\n".join([*notices, *left_out.pages(review, width)]) + "\n"


class _Notice:
    def __init__(self, review: Review, design: DesignReview, width: int, dated: str) -> None:
        self.review = review
        self.design = design
        self.width = width
        self.dated = dated

    def lines(self) -> Iterator[str]:
        yield "# Correction notice"
        yield ""
        yield from self.heading()
        yield ""
        yield from self.paragraph(f"**{plain(wording.outcome(self.design))}.**")
        yield from said_of(self.review, self.width, self.design)
        yield ""
        yield from self.instruction()
        yield from self.mistakes()
        yield from self.findings()
        yield from self.cautions()
        yield ""
        yield "## Signatures"
        for who in ("Issued by", "Received by", "All items corrected, by"):
            yield ""
            yield f"{who}: {BLANK}  Date: {BLANK[:14]}"

    def heading(self) -> Iterator[str]:
        design = self.design
        yield from self.entry("Site", design.title)
        yield from self.entry("Job", design.job)
        yield from self.entry("Sheet", design.sheet)
        yield from self.entry("Revision", design.revision)
        yield from self.entry("Stage", design.stage)
        yield from self.entry("Authority", design.authority)
        yield from self.entry("Judged by", scope.judged_by(design))
        yield from self.entry("File", design.file)
        if design.author_values:
            yield from self.entry("Author-supplied values", wording.author_values(design))
        if design.as_of:
            yield from self.entry("Variances judged as of", design.as_of)
        for label, text in scope.head(design):
            yield from self.entry(label, text)
        yield f"- Date: {self.dated or BLANK}"

    def instruction(self) -> Iterator[str]:
        """What is asked of whoever gets the notice."""
        if self.design.problems:
            text = "The file could not be read as a design. The mistakes below are to be put right first."
        elif self.design.is_nothing_asked:
            text = f"Nothing was judged: {wording.nothing_asked(self.design)}."
        elif any(finding.returns(self.design.returns_at) for finding in self.design.findings):
            text = (
                "Each item to correct is to be corrected on the drawing, or answered in writing, and the drawing "
                "submitted again."
            )
        else:
            rules = "a part of the rules" if self.design.scope.is_part else "rules"
            text = f"This review found no item to correct. It compared a drawing with {rules}, and nothing else."
        yield from self.paragraph(text)
        for crash in self.design.crashes:
            yield ""
            yield from self.paragraph(plain(wording.ended(f"Not everything was judged: {wording.failure(crash)}")))

    def mistakes(self) -> Iterator[str]:
        problems = self.design.problems
        for number, problem in enumerate(problems[: wording.MOST_ITEMS], 1):
            if number == 1:
                yield ""
                yield "## Mistakes in the file"
            yield ""
            yield f"### {number}. Mistake"
            yield ""
            yield from self.entry("Place", wording.where_mistaken(problem))
            yield from self.entry("Found", problem.message)
            yield from self.corrected()
        yield from self.more(len(problems) - wording.MOST_ITEMS)

    def findings(self) -> Iterator[str]:
        groups = self.groups()
        number = 0
        for standing, group in groups.items():
            if not group:
                continue
            yield ""
            yield f"## {standing.value}"
            kept = _most_serious(group)
            for folded in kept:
                number += 1
                yield ""
                yield from self.item(number, folded, standing)
            yield from self.more(len(group) - len(kept))

    def groups(self) -> dict[Standing, list[Folded]]:
        """What there is to say, by what becomes of it, the most serious first.

        What waits for one missing figure is one item.
        """
        groups: dict[Standing, list[Folded]] = {standing: [] for standing in Standing}
        at = self.design.returns_at
        gathered: list[Finding] = []
        for finding in self.design.findings:
            standing = wording.standing(finding, at)
            if standing in (Standing.PERSON, Standing.VARIED, Standing.OUTSTANDING):  # these are answered one by one
                groups[standing].append(Folded(finding))
            else:
                gathered.append(finding)
        for folded in fold(gathered):
            groups[wording.standing_of(folded, at)].append(folded)
        for group in groups.values():
            group.sort(key=lambda folded: -folded.finding.severity.rank)
        return groups

    def item(self, number: int, folded: Folded, standing: Standing) -> Iterator[str]:
        finding = folded.finding
        grade = wording.first_upper(wording.grade(finding))
        yield f"### {number}. {grade}: {plain(wording.name(finding))}"
        yield ""
        where = f"{finding.subject.where} ({wording.where(finding.place)})" if finding.subject.where else ""
        yield from self.entry("Place", where or wording.where(finding.place))
        says = list(wording.parts(finding))
        for label, text in says:
            if label not in _LEFT_OUT:
                yield from self.entry(wording.first_upper(label), text)
        if finding.due_later:
            yield from self.entry("Due", f"at the stage '{finding.due_later}'")
        if folded.waiting:
            yield from self.entry("Waits on it", wording.few(_waiting(waiting) for waiting in folded.waiting))
        yield from self.entry("Remedy", dict(says)["remedy"])
        yield from self.entry("Reference", dict(says)["reference"])
        yield f"- Rule: `{finding.rule}`"
        if standing is Standing.RETURNS:
            yield from self.corrected()
        elif standing is Standing.PERSON:
            yield f"- [ ] Looked at by: {BLANK}  Date: {BLANK[:14]}"

    def corrected(self) -> Iterator[str]:
        yield f"- Corrected by: {BLANK}  Date: {BLANK[:14]}"

    def more(self, left: int) -> Iterator[str]:
        if left > 0:
            yield ""
            yield from self.paragraph(f"{left} more, none of them more serious than those above.")

    def cautions(self) -> Iterator[str]:
        texts = wording.cautions([self.design])
        if not texts:
            return
        yield ""
        yield "## Cautions"
        yield ""
        for caution in texts:
            yield from wrapped(plain(wording.one_line(caution.text)), self.width, "- ")

    def entry(self, label: str, text: str) -> Iterator[str]:
        yield from wrapped(f"{label}: {plain(wording.one_line(text)) or _NOT_STATED}", self.width, "- ")

    def paragraph(self, text: str) -> Iterator[str]:
        yield from wrapped(text, self.width)


def _waiting(finding: Finding) -> str:
    return f"{finding.rule} ({wording.name(finding)})"


def _most_serious(group: Sequence[Folded]) -> list[Folded]:
    """As many items as are listed, the most serious of all, in their order."""
    kept, _ = wording.most_serious([folded.finding for folded in group])
    identities = {finding.identity for finding in kept}
    return [folded for folded in group if folded.finding.identity in identities]
