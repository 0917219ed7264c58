"""On whose terms a review is, and what was not asked, stand in every form."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from jsonschema import Draft202012Validator
from lxml import etree

from coaxwright.cli.forms import Form, Paper, rendered
from coaxwright.reviewing import DesignReview, KeptBy, LeftOutDesign, Review, Scope, SkippedRule
from coaxwright.reviewing.scope import AlsoAsked
from coaxwright.shipped import shipped

Made = Callable[[str], Review]
REVIEWERS = Scope(
    reviewers_terms=("us 2020", "county 4 (desk/county.coax-ruleset.yaml)"),
    set_aside=("plans/coax-settings.yaml", "known.coax-punch-list.yaml"),
)
LEFT = (
    SkippedRule("cable.run-length", KeptBy.SETTINGS, "drums are cut in the shop", "coax-settings.yaml:4"),
    SkippedRule("jacket.outdoor-rated", KeptBy.RULESET, "asked for at the shop", "house 2"),
)
SETTINGS = Scope(
    settings=("coax-settings.yaml", "plans/coax-settings.yaml"),
    also_asked=(AlsoAsked("house 2 (firm/house.coax-ruleset.yaml)", "coax-settings.yaml:2"),),
    returns_at_from="plans/coax-settings.yaml:2",
    skipped_rules=LEFT,
)
PART = Scope(
    only=("bonding", "plan"),
    leave_out=("plan.loop-free",),
    skipped_rules=(SkippedRule("cable.run-length", KeptBy.COMMAND), SkippedRule("plan.loop-free", KeptBy.COMMAND)),
)
CODE_HOSTS = (Form.SARIF_CODE_HOST, Form.CODE_QUALITY)


def scoped(design: DesignReview, scope: Scope) -> Review:
    gone = {one.rule for one in scope.skipped_rules}
    return Review(
        (
            replace(
                design,
                scope=scope,
                tallies=tuple(tally for tally in design.tallies if tally.rule not in gone),
                rules=tuple(rule for rule in design.rules if rule.name not in gone),
                findings=tuple(one for one in design.findings if one.rule not in gone),
            ),
        )
    )


def words(form: Form, review: Review) -> str:
    text = rendered(form, review, Paper(1000))
    if form is Form.JUNIT:
        text = " ".join(etree.fromstring(text.encode()).xpath("//@value | //@message | //@name"))
    return " ".join(text.replace("\\", "").split())


@pytest.mark.parametrize("form", Form)
def test_every_form_says_that_it_is_on_the_reviewers_terms(form: Form, made: Made) -> None:
    text = words(form, scoped(made("returned").designs[0], REVIEWERS))
    assert "county 4 (desk/county.coax-ruleset.yaml)" in text
    assert "plans/coax-settings.yaml" in text
    assert "known.coax-punch-list.yaml" in text
    if form is Form.JSON:
        assert '"whose": "the reviewer\'s"' in text
    else:
        colon = "" if form is Form.JUNIT else ":"
        assert f"n the reviewer's terms{colon} judged by us 2020 and county 4" in text
        assert f"amed by the design, not used{colon} us 2023" in text


@pytest.mark.parametrize("form", Form)
def test_every_form_but_for_a_list_of_findings_says_what_settings_did(form: Form, made: Made) -> None:
    text = words(form, scoped(made("returned").designs[0], SETTINGS))
    if form is Form.CODE_QUALITY:  # has room for findings alone
        return
    assert "coax-settings.yaml, plans/coax-settings.yaml" in text or form is Form.JSON
    for told in ("house 2 (firm/house.coax-ruleset.yaml)", "plans/coax-settings.yaml:2"):
        assert told in text
    if form in (Form.CHECKLIST, Form.JSON, Form.JUNIT, Form.SARIF):
        assert "drums are cut in the shop" in text
        assert "asked for at the shop" in text
    if form not in (Form.JSON, Form.JUNIT):
        assert "1 left out by settings, 1 switched off" in text


@pytest.mark.parametrize("form", Form)
def test_a_part_of_the_rules_is_never_plainly_clear(form: Form, made: Made) -> None:
    text = words(form, scoped(made("clear").designs[0], PART))
    if form is Form.JSON:
        assert (
            '"selection": { "is a part": true, "only": [ "bonding", "plan" ], "without": [ "plan.loop-free" ] }' in text
        )
        return
    assert "only bonding, plan; without plan.loop-free" in text
    assert not re.search(r"\bclear: ", text, re.IGNORECASE)
    if form in (Form.TEXT, Form.BRIEF, Form.NOTICE, Form.CHECKLIST, Form.ANNOTATIONS, Form.CODE_QUALITY):
        assert "clear as far as asked: nothing found; only 8 of 10 rules checked" in text.lower()


@pytest.mark.parametrize("form", [form for form in Form if form is not Form.CODE_QUALITY])
def test_designs_that_are_left_out_are_named(form: Form, made: Made) -> None:
    left = (LeftOutDesign("archive/old.coax.yaml", "built long ago", "coax-settings.yaml:7"),)
    text = words(form, replace(made("clear"), left_out=left))
    for told in ("archive/old.coax.yaml", "built long ago", "coax-settings.yaml:7"):
        assert told in text


@pytest.mark.parametrize("form", Form)
def test_nothing_asked_shows_as_incomplete(form: Form, made: Made) -> None:
    design = made("clear").designs[0]
    none = tuple(SkippedRule(tally.rule, KeptBy.SETTINGS, "x", "coax-settings.yaml:2") for tally in design.tallies)
    review = scoped(design, Scope(skipped_rules=none))
    assert review.exit_status == 3
    text = words(form, review)
    if form is Form.JSON:
        assert '"result": "incomplete"' in text
    else:
        assert "very rule is left out" in text
        assert "no item to correct" not in text


@pytest.mark.parametrize("scope", [REVIEWERS, SETTINGS, PART], ids=["reviewer", "settings", "part"])
@pytest.mark.parametrize("name", ["clear", "returned", "not-understood", "varied"])
def test_json_keeps_to_its_schema(name: str, scope: Scope, made: Made) -> None:
    schema = json.loads((shipped("schemas") / "review-1.schema.json").read_text(encoding="utf-8"))
    told = json.loads(rendered(Form.JSON, scoped(made(name).designs[0], scope), Paper(80)))
    assert [error.message for error in Draft202012Validator(schema).iter_errors(told)] == []


@pytest.mark.parametrize("form", Form)
def test_nothing_more_is_said_of_a_review_on_the_design_s_own_terms(form: Form, made: Made) -> None:
    """Readers of forms without a head are not told what is so anyway."""
    text = words(form, made("clear"))
    for told in ("reviewer's terms:", "ettings:", "as far as asked", "left out by settings", "switched off"):
        assert told not in text


@pytest.mark.parametrize("form", Form)
def test_hostile_reasons_reach_no_reader_as_they_are(
    form: Form, made: Made, hostile_design: Callable[[str], DesignReview]
) -> None:
    bad = "x\x1b[2J\N{RIGHT-TO-LEFT OVERRIDE}\ny"
    scope = Scope(
        reviewers_terms=(bad,),
        set_aside=(bad,),
        skipped_rules=(SkippedRule("cable.run-length", KeptBy.SETTINGS, bad, bad),),
    )
    review = replace(scoped(made("clear").designs[0], scope), left_out=(LeftOutDesign(bad, bad, bad),))
    text = rendered(form, review, Paper(80))
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f\N{RIGHT-TO-LEFT OVERRIDE}]", text)


@pytest.mark.parametrize("form", [Form.BRIEF, Form.ANNOTATIONS])
def test_what_holds_for_all_designs_of_a_run_is_said_once(form: Form, made: Made) -> None:
    (design,) = made("returned").designs
    here, there = replace(SETTINGS, settings=("a.yaml",)), replace(SETTINGS, settings=("b.yaml",))
    lines = rendered(
        form, Review((replace(design, scope=here), replace(design, scope=there))), Paper(1000)
    ).splitlines()
    told = [line for line in lines if line.startswith(("Settings", "Severity", "Asked besides"))]
    assert told == [
        "Settings: a.yaml",
        "Settings: b.yaml",
        "Severity that returns it, by settings (all 2 designs): deficiency (plans/coax-settings.yaml:2)",
        "Asked besides, by settings (all 2 designs): house 2 (firm/house.coax-ruleset.yaml) (coax-settings.yaml:2)",
    ]
