"""The full checklist of each design: every rule that was asked, of how much, and what came of it. Markdown.

Nothing passes in silence: a rule that everything met stands here, and one that has nothing to be asked of. What a
person has to look at has a box to tick, and nothing else has one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from coaxwright.findings import Finding, Outcome
from coaxwright.reports import left_out, scope, wording
from coaxwright.reports.markdown import BLANK, nothing_to_tell, plain, said_of, wrapped
from coaxwright.reviewing import DesignReview, KeptBy, Review, RuleTally
from coaxwright.rules import Rule

_HEADINGS = ("Rules", "Met", "Not met", "Not judged", "Person", "Not applying")
_TOPIC_COLUMNS = 12


def render(review: Review, width: int = 100, dated: str = "") -> str:
    """One checklist after another, within ``width`` columns.

    ``dated`` is the date printed, a blank to fill in where it is empty.
    """
    lists = ["\n".join(_Checklist(review, design, max(60, width), dated).lines()) for design in review.designs]
    lists = lists or [nothing_to_tell("Checklist", review, width)]
    return "\n\n---\n\n".join([*lists, *left_out.pages(review, width)]) + "\n"


class _Checklist:
    def __init__(self, review: Review, design: DesignReview, width: int, dated: str) -> None:
        self.review = review
        self.design = design
        self.width = width
        self.dated = dated
        self.rules: Mapping[str, Rule] = {rule.name: rule for rule in design.rules}
        self.found: dict[str, list[Finding]] = {}
        self.stood = frozenset(finding.identity for finding in design.stood)
        every = (
            sorted((*design.findings, *design.stood), key=lambda finding: finding.order)
            if design.stood
            else design.findings
        )
        for finding in every:
            self.found.setdefault(finding.rule, []).append(finding)
        self.failed = {crash.rule: crash for crash in design.crashes}

    def lines(self) -> Iterator[str]:
        design = self.design
        yield "# Checklist"
        yield ""
        yield from self.entry("Site", design.title or "not stated")
        drawing = (("job", design.job), ("sheet", design.sheet), ("revision", design.revision), ("stage", design.stage))
        yield from self.entry("Drawing", ", ".join(f"{what} {text}" for what, text in drawing if text) or "not stated")
        yield from self.entry("Judged by", scope.judged_by(design) or "not stated")
        yield from self.entry("File", design.file)
        if design.author_values:
            yield from self.entry("Author-supplied values", wording.author_values(design))
        if design.as_of:
            yield from self.entry("Variances judged as of", design.as_of)
        for label, text in scope.head(design):
            yield from self.entry(label, text)
        yield f"- Date: {self.dated or BLANK}"
        yield ""
        outcome = plain(wording.outcome(design))
        yield from wrapped(f"**{outcome}.**", self.width)
        yield from said_of(self.review, self.width, self.design)
        topics = self.topics()
        if topics:
            yield ""
            yield from _table(topics)
        for topic, tallies in topics.items():
            yield ""
            yield f"## {wording.first_upper(topic)}"
            yield ""
            for tally in tallies:
                yield from self.rule(tally)
        yield from self.skipped_rules()
        yield from self.not_judged()
        yield from self.cautions()
        yield ""
        yield f"Checked by: {BLANK}  Date: {BLANK[:14]}"

    def topics(self) -> dict[str, list[RuleTally]]:
        """The rules that were asked, by topic, both by name."""
        topics: dict[str, list[RuleTally]] = {}
        for tally in sorted(self.design.tallies, key=lambda tally: tally.rule):
            topics.setdefault(tally.rule.partition(".")[0], []).append(tally)
        return topics

    def rule(self, tally: RuleTally) -> Iterator[str]:
        findings = self.found.get(tally.rule, [])
        title = plain(wording.one_line(self.rules[tally.rule].title))
        answer = "Could not be run" if tally.rule in self.failed else wording.first_upper(_answer(tally))
        yield from wrapped(
            f"**{answer}**: {title} (`{tally.rule}`). {plain(self.numbers(tally, findings))}", self.width, "- "
        )
        for finding in findings:
            if finding.outcome is Outcome.NEEDS_A_PERSON and finding.identity not in self.stood:
                where = f" ({wording.one_line(finding.subject.where)})" if finding.subject.where else ""
                text = f"{wording.name(finding)}{where}: {wording.one_line(finding.found)}"
                required = wording.ended(f"required: {wording.one_line(finding.required)}")
                yield from wrapped(plain(f"{text}; {required}"), self.width, "  - [ ] ", "    ")

    def numbers(self, tally: RuleTally, findings: Sequence[Finding]) -> str:
        """Of how many things a rule was asked, and how many came out which way, with the tags of those not met."""
        if not _asked(tally):
            of = wording.counted(tally.does_not_apply, "item")
            return f"It applies to none of {of}." if tally.does_not_apply else "There is nothing here that it is about."
        counts = []
        for number, outcome in (
            (tally.met, Outcome.MET),
            (tally.not_met, Outcome.NOT_MET),
            (tally.cannot_be_judged, Outcome.CANNOT_BE_JUDGED),
            (tally.needs_a_person, Outcome.NEEDS_A_PERSON),
        ):
            if number:
                tags = wording.few(self.name(finding) for finding in findings if finding.outcome is outcome)
                counts.append(f"{number} {outcome}{f' ({tags})' if tags else ''}")
        beside = f"; does not apply to {tally.does_not_apply}" if tally.does_not_apply else ""
        return f"Checked on {wording.counted(_asked(tally), 'item')}: {', '.join(counts)}{beside}."

    def name(self, finding: Finding) -> str:
        """A tag, with what was known before or decided of the finding."""
        name = wording.name(finding)
        if finding.is_varied:
            return f"{name}, under variance"
        if finding.identity in self.stood:
            return wording.one_line(f"{name}, at {self.design.since} already")
        return f"{name}, outstanding" if finding.outstanding else name

    def skipped_rules(self) -> Iterator[str]:
        """The rules that were not asked, each with the reason; what the command did not choose, by topics."""
        every = self.design.scope.skipped_rules
        if not every:
            return
        yield ""
        yield "## Not asked"
        yield ""
        for finding in every:
            if finding.by is not KeptBy.COMMAND:
                why = plain(wording.one_line(wording.first_upper(scope.why_not_asked(finding))))
                yield from wrapped(f"`{finding.rule}`: {wording.ended(why)}", self.width, "- ")
        unchosen = [skipped.rule for skipped in self.design.scope.kept_by(KeptBy.COMMAND)]
        if unchosen:
            names = ", ".join(f"`{name}`" for name in unchosen)
            yield from wrapped(f"Not chosen ({plain(scope.chosen(self.design))}): {names}.", self.width, "- ")

    def not_judged(self) -> Iterator[str]:
        """Mistakes for which no rule could be asked, and checks that failed."""
        design = self.design
        lines = [
            f"{wording.where_mistaken(problem)}: {wording.one_line(problem.message)}" for problem in design.problems
        ]
        lines += [wording.failure(crash) for crash in design.crashes]
        if not lines:
            return
        yield ""
        yield "## Could not be judged at all"
        yield ""
        for line in lines[: wording.MOST_ITEMS]:
            yield from wrapped(plain(line), self.width, "- ")
        if len(lines) > wording.MOST_ITEMS:
            yield f"- {len(lines) - wording.MOST_ITEMS} more"

    def cautions(self) -> Iterator[str]:
        texts = wording.cautions([self.design])
        if texts:
            yield ""
            yield "## Cautions"
            yield ""
        for caution in texts:
            yield from wrapped(plain(wording.one_line(caution.text)), self.width, "- ")

    def entry(self, label: str, text: str) -> Iterator[str]:
        yield from wrapped(f"{label}: {plain(wording.one_line(text))}", self.width, "- ")


def _answer(tally: RuleTally) -> Outcome:
    """The most telling outcome of a rule: met only where everything it was asked of met it."""
    if tally.not_met:
        return Outcome.NOT_MET
    if tally.cannot_be_judged:
        return Outcome.CANNOT_BE_JUDGED
    if tally.needs_a_person:
        return Outcome.NEEDS_A_PERSON
    return Outcome.MET if tally.met else Outcome.DOES_NOT_APPLY


def _asked(tally: RuleTally) -> int:
    return tally.met + tally.not_met + tally.cannot_be_judged + tally.needs_a_person


def _table(topics: Mapping[str, Sequence[RuleTally]]) -> Iterator[str]:
    """How many rules of each topic came out which way, in columns that line up unrendered too."""
    outcomes = (
        Outcome.MET,
        Outcome.NOT_MET,
        Outcome.CANNOT_BE_JUDGED,
        Outcome.NEEDS_A_PERSON,
        Outcome.DOES_NOT_APPLY,
    )
    widths = [len(heading) for heading in _HEADINGS]
    first = max(_TOPIC_COLUMNS, *map(len, topics))
    cells = " | ".join(_HEADINGS)
    yield f"| {'Topic':<{first}} | {cells} |"
    yield f"|{'-' * (first + 2)}|{'|'.join('-' * (width + 1) + ':' for width in widths)}|"
    for topic, tallies in topics.items():
        answers = [_answer(tally) for tally in tallies]
        numbers = [len(tallies), *(answers.count(outcome) for outcome in outcomes)]
        row = " | ".join(f"{number:>{width}}" for number, width in zip(numbers, widths, strict=True))
        yield f"| {topic:<{first}} | {row} |"
