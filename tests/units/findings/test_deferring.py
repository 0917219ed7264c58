"""Which finding folds under which: every rule is judged by itself, and data says what defers to what."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coaxwright.checks import Subject
from coaxwright.findings import Finding, Identity, Outcome, Place, Varied
from coaxwright.findings.deferring import Deferred, fold_deferring
from coaxwright.rules import Deferral, Rule, RulesetError, Severity, combine, read_ruleset, shipped_registry
from coaxwright.source import Path, Position, Span, read_text

START = Position(1, 1, 0)
PLACE = Place("x.coax.yaml", Span(START, START))
BASE = combine(["trade 1"], shipped_registry()).rules


def rule(name: str, *defers: Deferral) -> Rule:
    return replace(BASE["plan.dead-end"], name=name, defers=defers)


def finding(name: str, tag: str = "C-1", second: str = "", **changes: object) -> Finding:
    path: Path = ("cables", tag)
    made = Finding(
        identity=Identity("d", name, "cable", tag, second),
        rule=name,
        title="t",
        severity=Severity.DEFICIENCY,
        outcome=Outcome.NOT_MET,
        subject=Subject("cable", tag, path, second),
        place=PLACE,
        found="f",
        required="r",
        reason="because",
        remedy="mend",
        sources=(),
        case="bad",
    )
    return replace(made, **changes)  # type: ignore[arg-type]


def folded(deferral: Deferral, *findings: Finding) -> list[str]:
    """The rules whose findings are folded, where ``a.b`` defers and ``c.d`` does not."""
    return [one.rule for one in fold(deferral, *findings).folded]


def fold(deferral: Deferral, *findings: Finding) -> Deferred:
    return fold_deferring(findings, {"a.b": rule("a.b", deferral), "c.d": rule("c.d")})


ON_SUBJECT = Deferral("c.d", "subject")
VARIED = Varied("why", "who", "", PLACE)


def test_a_finding_folds_under_its_owner_and_keeps_all_that_was_said_of_it() -> None:
    waiting, owner = finding("a.b"), finding("c.d")
    result = fold(ON_SUBJECT, waiting, owner)
    assert result.findings == (owner,)
    assert result.folded == (replace(waiting, folded_under=owner.identity),)


@pytest.mark.parametrize(
    "owner",
    [
        pytest.param((), id="no owner"),
        pytest.param((finding("c.d", "C-2"),), id="another subject"),
        pytest.param((finding("c.d", outcome=Outcome.CANNOT_BE_JUDGED),), id="cannot be judged"),
        pytest.param((finding("c.d", outcome=Outcome.NEEDS_A_PERSON),), id="needs a person"),
        pytest.param((finding("c.d", severity=Severity.ADVICE),), id="less severe"),
        pytest.param((finding("c.d", varied=VARIED),), id="under variance"),
    ],
)
def test_without_an_owner_that_is_not_met_and_counts_it_stands(owner: tuple[Finding, ...]) -> None:
    assert folded(ON_SUBJECT, finding("a.b"), *owner) == []


def test_a_variance_that_is_not_honored_lets_its_owner_count() -> None:
    assert folded(ON_SUBJECT, finding("a.b"), finding("c.d", varied=replace(VARIED, honoured=False))) == ["a.b"]


def test_what_is_under_variance_itself_stays_in_sight() -> None:
    assert folded(ON_SUBJECT, finding("a.b", varied=VARIED), finding("c.d")) == []


def test_it_folds_under_an_outstanding_owner_as_well() -> None:
    assert folded(ON_SUBJECT, finding("a.b"), finding("c.d", outstanding=True)) == ["a.b"]


def test_what_cannot_be_judged_is_gathered_under_what_it_misses_and_not_folded() -> None:
    assert folded(ON_SUBJECT, finding("a.b", outcome=Outcome.CANNOT_BE_JUDGED), finding("c.d")) == []
    assert folded(ON_SUBJECT, finding("a.b", outcome=Outcome.NEEDS_A_PERSON), finding("c.d")) == ["a.b"]


def test_only_under_the_cases_that_are_named() -> None:
    deferral = Deferral("c.d", "subject", ("worse",))
    assert folded(deferral, finding("a.b"), finding("c.d")) == []
    assert folded(deferral, finding("a.b"), finding("c.d", case="worse")) == ["a.b"]


def test_two_services_at_one_outlet_are_two_subjects() -> None:
    assert folded(ON_SUBJECT, finding("a.b", second="tv"), finding("c.d", second="net")) == []
    assert folded(ON_SUBJECT, finding("a.b", second="tv"), finding("c.d", second="tv")) == ["a.b"]
    assert folded(ON_SUBJECT, finding("a.b", second="tv"), finding("c.d")) == ["a.b"]


def test_under_an_owner_that_is_about_a_thing_it_involves() -> None:
    deferral = Deferral("c.d", "involved")
    assert folded(deferral, finding("a.b", involved=(("cables", "C-7"),)), finding("c.d")) == []
    involved = (("devices", "C-7"), ("cables", "C-7"))
    assert folded(deferral, finding("a.b", involved=involved), finding("c.d", "C-7")) == ["a.b"]
    assert folded(deferral, finding("a.b"), finding("c.d")) == []


def in_units(name: str, *units: str, **changes: object) -> Finding:
    made = finding(name, f"{units[0]}/C-1", instances=units, **changes)
    return replace(made, identity=replace(made.identity, subject="typ/C-1"))


def test_in_repeated_units_every_unit_needs_an_owner() -> None:
    assert folded(ON_SUBJECT, in_units("a.b", "u1", "u2"), in_units("c.d", "u2", "u1")) == ["a.b"]
    assert folded(ON_SUBJECT, in_units("a.b", "u1", "u2"), in_units("c.d", "u1")) == []
    owners = (in_units("c.d", "u1"), finding("c.d", "u2/C-1"))
    assert folded(ON_SUBJECT, in_units("a.b", "u1", "u2"), *owners) == ["a.b"]
    deferral = Deferral("c.d", "involved")
    involving = in_units("a.b", "u1", "u2", involved=(("cables", "u1/C-1"),))
    assert folded(deferral, involving, in_units("c.d", "u1")) == []
    assert folded(deferral, involving, in_units("c.d", "u1", "u2")) == ["a.b"]
    shared = in_units("a.b", "u1", "u2", involved=(("cables", "TRUNK"),))
    assert folded(deferral, shared, finding("c.d", "TRUNK")) == ["a.b"]


def test_a_chain_folds_to_its_top() -> None:
    rules = {
        "a.b": rule("a.b", ON_SUBJECT),
        "c.d": rule("c.d", Deferral("e.f", "subject")),
        "e.f": rule("e.f"),
    }
    top = finding("e.f")
    result = fold_deferring((finding("a.b"), finding("c.d"), top), rules)
    assert result.findings == (top,)
    assert {one.folded_under for one in result.folded} == {top.identity}


def test_of_a_group_the_first_stands_for_all() -> None:
    first, second, other = (finding("c.d", f"C-{n}", group=("SP1",) if n < 3 else ("SP2",)) for n in (1, 2, 3))
    result = fold(ON_SUBJECT, second, first, other)
    assert result.findings == (first, other)
    assert [one.folded_under for one in result.folded] == [first.identity]


def test_where_the_first_of_a_group_is_under_variance_the_next_one_stands() -> None:
    first, second, third = (finding("c.d", f"C-{n}", group=("SP1",)) for n in (1, 2, 3))
    result = fold(ON_SUBJECT, replace(first, varied=VARIED), second, third)
    assert [one.identity.subject for one in result.findings] == ["C-1", "C-2"]
    assert [one.identity.subject for one in result.folded] == ["C-3"]


def test_a_graver_one_of_a_group_stands_before_the_first() -> None:
    first, graver = (finding("c.d", f"C-{n}", group=("X",)) for n in (1, 2))
    graver = replace(graver, severity=Severity.VIOLATION)
    assert fold(ON_SUBJECT, first, graver).findings == (graver,)


def combined(changes: str) -> None:
    text = f"ruleset: firm\nedition: 1\ntitle: t\nbuilds on: [trade 1]\ndocuments: {{}}\nset:\n{changes}"
    own = read_ruleset(read_text(text, "firm.coax-ruleset.yaml"))
    combine(["firm 1"], shipped_registry().with_own([own]))


@pytest.mark.parametrize(
    ("changes", "problem"),
    [
        (
            "  plan.dead-end: {defers to: [{rule: plan.lop-free, on: subject}]}\n",
            "plan.dead-end defers to plan.lop-free, which is no rule here; did you mean 'plan.loop-free'?",
        ),
        (
            "  plan.dead-end: {defers to: [{rule: plan.loop-free, on: subject, cases: [square]}]}\n",
            "plan.loop-free has no case 'square'; it has round, two ways",
        ),
        (
            "  plan.dead-end: {defers to: [{rule: plan.loop-free, on: subject}]}\n"
            "  plan.loop-free: {defers to: [{rule: plan.dead-end, on: involved}]}\n",
            "plan.dead-end and plan.loop-free defer to one another in a ring",
        ),
        (
            "  plan.dead-end: {defers to: [{rule: plan.dead-end, on: subject}]}\n",
            "plan.dead-end and plan.dead-end defer to one another in a ring",
        ),
    ],
)
def test_what_a_ruleset_says_of_deferring_is_proven_when_it_is_loaded(changes: str, problem: str) -> None:
    with pytest.raises(RulesetError) as refused:
        combined(changes)
    assert problem in [error.problem for error in refused.value.every]


def test_a_rule_may_defer_to_one_that_a_ruleset_switches_off() -> None:
    combined(
        "  plan.dead-end: {defers to: [{rule: plan.loop-free, on: subject}]}\noff: {plan.loop-free: {reason: r}}\n"
    )
