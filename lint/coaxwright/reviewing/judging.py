"""Judge one document: understand it, build its network, ask every rule of every subject."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from coaxwright.analysis import Analysis
from coaxwright.checks import (
    GRANTED,
    AnyCheck,
    CannotJudge,
    CheckContext,
    DoesNotApply,
    NeedsPerson,
    NotMet,
    Subject,
    Verdict,
)
from coaxwright.design import Design, NotUnderstood
from coaxwright.design.words import AERIALS, POWER_LINES
from coaxwright.findings import Finding, Identity, Outcome, Place
from coaxwright.findings.deferring import fold_deferring
from coaxwright.network import AuthorValues, Network, author_values, build_network, stated_figures
from coaxwright.network.bonds import OWN_POINTS
from coaxwright.network.clear_cached import clear_cached
from coaxwright.reviewing.effective_rules import RuleSources, named_rulesets, understood
from coaxwright.reviewing.missing_value_hint import missing_value_hint
from coaxwright.reviewing.model import Crash, DesignReview, RuleTally
from coaxwright.reviewing.review_request import USUAL_REQUEST, ReviewRequest
from coaxwright.reviewing.selection import refuse_unknown_in_settings, scope_of, skipped_rules
from coaxwright.rules import Caution, EffectiveRules, ExistingPolicy, Rule, RulesetRegistry, Severity
from coaxwright.rules.phrase_book import cause_text, phrases_of, related_text
from coaxwright.rules.wording import fill
from coaxwright.source import Document, Path, Problem

_STAGES = ("concept", "permit", "as-built")


def judge(
    document: Document, rules: RulesetRegistry | RuleSources, asked: ReviewRequest = USUAL_REQUEST
) -> DesignReview:
    """The review of one document, without amendments; ``rules`` are those that a design may name.

    Where no day is named by which variances are judged, every variance that ends has ended.
    """
    review, context = judged(document, rules, asked)
    if context is not None:
        clear_cached(context.network)
        clear_cached(context.analysis)
    return review


def judged(
    document: Document, rules: RulesetRegistry | RuleSources, asked: ReviewRequest = USUAL_REQUEST
) -> tuple[DesignReview, CheckContext | None]:
    """The review of one document, and what its rules were asked of: None for one that is not understood."""
    bases = rules if isinstance(rules, RuleSources) else RuleSources(rules)
    try:
        document = understood(document)
        design = Design.model_validate(document.data)
        terms = bases.of_design(document, design, asked)
        if asked.left_out:
            refuse_unknown_in_settings(asked, terms.basis, bases.shelf)
    except NotUnderstood as error:
        return not_understood(document.name, tuple(error.problems), bases, asked), None
    network = build_network(design, terms.catalogue)
    judgment = _Judgment(document, design, terms.basis, network, asked)
    return judgment.review(), judgment.context


def not_understood(name: str, problems: tuple[Problem, ...], bases: RuleSources, asked: ReviewRequest) -> DesignReview:
    """The review of a file that no rule could be asked of; the cautions that hold always are printed all the same."""
    cautions = bases.of_every_design.cautions
    always = tuple(caution for caution in cautions if not caution.when)
    return DesignReview(name, problems=problems, cautions=always, returns_at=asked.returns_at, scope=scope_of(asked))


_OUTCOMES: tuple[tuple[type[Verdict], Outcome], ...] = (
    (NotMet, Outcome.NOT_MET),
    (CannotJudge, Outcome.CANNOT_BE_JUDGED),
    (NeedsPerson, Outcome.NEEDS_A_PERSON),
    (DoesNotApply, Outcome.DOES_NOT_APPLY),
)
"""The most telling verdict first: a subject has one outcome, whatever else was said of it."""
_TOLD = (Outcome.NOT_MET, Outcome.CANNOT_BE_JUDGED, Outcome.NEEDS_A_PERSON)
"""The outcomes that findings have."""


class _Judgment:
    """Everything one design is judged with."""

    def __init__(
        self, document: Document, design: Design, basis: EffectiveRules, network: Network, asked: ReviewRequest
    ) -> None:
        self.document = document
        self.design = design
        self.basis = basis
        self.network = network
        self.asked = asked
        self.context = CheckContext(network, Analysis(network))
        self.crashes: list[Crash] = []
        self._subjects: dict[str, Sequence[object]] = {}

    def review(self) -> DesignReview:
        tallies: dict[str, RuleTally] = {}
        kept = skipped_rules(self.basis, self.asked)
        rules = [rule for rule in self.basis.rules.values() if rule.name not in kept]
        about_variances = [rule for rule in rules if rule.check.each is GRANTED]
        others = [rule for rule in rules if rule.check.each is not GRANTED]
        findings = list(self.answers(others, tallies))
        if self.design.variances:
            from coaxwright.findings.variances import told_of, vary

            results = told_of(
                findings, self.basis.rules.values(), kept, self.network, self.document, self.asked.variances
            )
            self.context = replace(self.context, results=results)
            findings = vary(findings, self.design.variances, self.document, self.place, self.asked.variances)
        findings += self.answers(about_variances, tallies)
        if self.document.repeats:
            from coaxwright.findings.merge_units import merge_units

            findings = merge_units(findings, self.document)
        findings.sort(key=lambda finding: finding.order)
        deferred = fold_deferring(findings, self.basis.rules)
        design = self.design
        return DesignReview(
            file=self.document.name,
            design=design.identity,
            title=design.title,
            job=design.job or "",
            sheet=design.sheet or "",
            revision=design.revision or "",
            stage=design.stage,
            authority=design.basis.authority or "",
            named_rulesets=named_rulesets(self.document, design),
            rulesets=self.basis.rulesets,
            findings=deferred.findings,
            folded=deferred.folded,
            tallies=tuple(tallies[rule.name] for rule in rules),
            rules=tuple(rules),
            crashes=tuple(self.crashes),
            cautions=tuple(self.cautions()),
            as_of=self.as_of(),
            returns_at=self.asked.returns_at,
            scope=scope_of(self.asked, kept.values()),
            author_values=tuple(self.figures_of_the_author()),
        )

    def answers(self, rules: Iterable[Rule], tallies: dict[str, RuleTally]) -> Iterator[Finding]:
        """The findings of several rules; how each came out is put into ``tallies``."""
        for rule in rules:
            findings, tallies[rule.name] = self.ask(rule)
            yield from findings

    def figures_of_the_author(self) -> Iterator[AuthorValues]:
        """What is taken on the author's word; for a reviewer also what stands at single things."""
        cables, devices = self.network.cables.values(), self.network.devices.values()
        yield from (
            author_value
            for author_value in author_values(self.network.catalogue, cables, devices)
            if author_value.used_by
        )
        if self.asked.reviewers_terms:
            services, bonds = self.network.services.values(), self.network.bonds.values()
            yield from stated_figures(cables, devices, services, bonds, lambda path: self.place(path).file)

    def as_of(self) -> str:
        """The day of the review, where anything in it depends on one."""
        ends = any(variance.until for variance in self.design.variances or ())
        return self.asked.variances.as_of.isoformat() if ends else ""

    def ask(self, rule: Rule) -> tuple[Sequence[Finding], RuleTally]:
        """The findings of one rule; what its check does wrong is recorded, and the rest goes on."""
        check = rule.check
        findings: list[Finding] = []
        met = not_applying = 0
        others: dict[Outcome, int] = {}
        thing: object = None
        try:
            subjects = self._subjects.get(check.each.name) or self.subjects(check)
            if check.applies_to is not None:
                concerned = check.applies_to(subjects, self.network)
                not_applying += len(subjects) - len(concerned)
                subjects = concerned
            if check.prefilter is not None:
                suspected = check.prefilter(subjects, self.network)
                met += len(subjects) - len(suspected)
                subjects = suspected
            judge, context, limits = check.judge, self.context, rule.limits
            for thing in subjects:
                verdicts = tuple(judge(thing, context, limits))
                if not verdicts:
                    met += 1
                    continue
                if verdicts[0].__class__ is DoesNotApply and len(verdicts) == 1:
                    not_applying += 1
                    continue
                subject = check.each.describe(thing)
                if rule.existing is ExistingPolicy.EXEMPT and subject.state == "existing":
                    not_applying += 1
                    continue
                outcome = outcome_of(verdicts)
                others[outcome] = others.get(outcome, 0) + 1
                for verdict in verdicts:
                    if not isinstance(verdict, DoesNotApply):
                        findings.append(self.finding(rule, subject, verdict))
        except Exception as error:  # a fault of ours must not hide the other rules' findings
            self.crashes.append(Crash(rule.name, _label(check, thing), f"{type(error).__name__}: {error}"))
        if not others:
            return findings, RuleTally(rule.name, met, 0, not_applying)
        not_met, unknown, person = (others.get(outcome, 0) for outcome in _TOLD)
        return findings, RuleTally(rule.name, met, not_met, not_applying, unknown, person)

    def subjects(self, check: AnyCheck) -> Sequence[object]:
        """What a check is asked of; picked once for all checks that are asked of the same."""
        selector = check.each
        if selector.name not in self._subjects:
            self._subjects[selector.name] = tuple(selector.select(self.network))
        return self._subjects[selector.name]

    def finding(self, rule: Rule, subject: Subject, verdict: NotMet | CannotJudge | NeedsPerson) -> Finding:
        remarks = list(self.remarks(subject))
        due_later = ""
        severity = rule.severity
        mend = None
        excess = 0.0
        related: tuple[tuple[Place, str], ...] = ()
        if isinstance(verdict, CannotJudge):
            case = ""
            root, place = verdict.unknown.root, self.place(verdict.unknown.root, False)
            found = f"cannot be judged: {cause_text(verdict.unknown, rule.check)}"
            remedy = missing_value_hint(root, self.document.has(self.document.written(root)))
            required = f"{rule.title[0].lower()}{rule.title[1:]}"
            sources = rule.sources
            if _STAGES.index(self.design.stage) < _STAGES.index(rule.due):
                severity = Severity.ADVICE
                due_later = rule.due
                remarks.append(f"The figure is due at the stage '{rule.due}'.")
        else:
            case = verdict.case
            words = rule.words[verdict.case]
            sources = rule.sources_for(verdict.case, verdict.cites)
            root, place = verdict.at, self.place(verdict.at, verdict.at_key)
            types, phrases = rule.check.cases[case], phrases_of(rule.check.name).phrases
            found, required, remedy = (
                fill(text, verdict.values, types, phrases, self.network.survey.writes_metric)
                for text in (words.found, words.required, words.remedy)
            )
            severity = words.severity or severity
            if isinstance(verdict, NotMet):
                mend, excess, root = verdict.mend, verdict.excess, verdict.root or root
                if verdict.is_by_practice:
                    severity, sources = min(severity, Severity.DEFICIENCY), rule.practice
                related = tuple(
                    (self.place(path, False), related_text(said, rule.check)) for path, said in verdict.related
                )
            else:
                severity = Severity.ADVICE
        if rule.existing is ExistingPolicy.ADVICE and subject.state == "existing":
            severity = Severity.ADVICE
            remarks.append("Existing plant: advice only.")
        return Finding(
            identity=Identity(
                self.design.identity, rule.name, subject.kind, str(subject.path[1]), subject.second, verdict.facet
            ),
            rule=rule.name,
            title=rule.title,
            severity=severity,
            outcome=outcome_of((verdict,)),
            subject=subject,
            place=place,
            found=found,
            required=required,
            reason=rule.reason,
            remedy=remedy,
            sources=sources,
            remarks=tuple(remarks),
            related=related,
            root=root,
            mend=mend,
            case=case,
            due_later=due_later,
            excess=excess,
            group=verdict.group if isinstance(verdict, NotMet) else (),
            involved=verdict.involved if isinstance(verdict, NotMet) else (),
        )

    def remarks(self, subject: Subject) -> Iterator[str]:
        if subject.owner != "owner":
            yield f"{subject.tag} is the {subject.owner}'s: it is theirs to change."

    def place(self, path: Path, at_key: bool = False) -> Place:
        """Where a path stands, or the nearest thing above it that is written."""
        path = self.document.written(path)
        written = self.document.has(path)
        while not self.document.has(path):
            path = path[:-1]
        span = self.document.span(path, of_key=at_key or not written)
        owner = self.document.owner(path)
        in_part = owner.name != self.document.name
        return Place(owner.name, span, owner.lines[span.start.line - 1], in_part)

    def cautions(self) -> Iterator[Caution]:
        """The cautions that this design calls for."""
        circumstances: set[str] = {node.exposure for node in self.network.places.values()}
        if any(node.device.kind in AERIALS or node.device.kind == "dish" for node in self.network.devices.values()):
            circumstances.add("antenna")
        if self.network.bonds or self.network.bondables or self.network.entries:
            circumstances.add("bonding")
        if any(near.what in POWER_LINES for near in self.network.survey.neighbors()):
            circumstances.add("power line")
        if any(node.device.mast is not None for node in self.network.devices.values()):
            circumstances.add("mast")
        if any(segment.is_span for link in self.network.cables.values() for segment in link.segments):
            circumstances.add("span")
        if any(node.item.kind in OWN_POINTS and node.in_use for node in self.network.bonds.values()):
            circumstances.add("ground rod")
        for caution in self.basis.cautions:
            if not caution.when or circumstances.intersection(caution.when):
                yield caution


def outcome_of(verdicts: tuple[Verdict, ...]) -> Outcome:
    """How a rule came out for one subject; met where nothing was said."""
    for kind, outcome in _OUTCOMES:
        if any(isinstance(verdict, kind) for verdict in verdicts):
            return outcome
    return Outcome.MET


def _label(check: AnyCheck, thing: object) -> str:
    """The subject at which a check failed, as far as it can still be told."""
    try:
        subject = check.each.describe(thing)
    except Exception:  # the fault may lie in what it is called by
        return ""
    return f"{subject.kind} {subject.tag}"
