"""An inspector opens a design that flatters itself: clear on its own terms, returned on the inspector's."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from coaxwright.cli.forms import Form
from coaxwright.rules import shipped_registry
from coaxwright.shipped import shipped

EDITIONS = ", ".join(shipped_registry().editions("us"))
SOBER = """\
coaxwright: 1
title: Greenshank Mews 2 (invented)
stage: permit
basis: {rulesets: [us 2023], occupancy: one-family dwelling}
buildings: {house: {entry: side wall}}
places:
  side wall: {building: house, exposure: outdoors}
  closet:    {building: house}
  parlor:    {building: house}
services:
  net:
    kind: cable broadband
    from: DROP
    down: {band: 54 MHz to 1002 MHz, level: [8 dBmV at 54 MHz, 4 dBmV at 1002 MHz]}
devices:
  DROP: {kind: coax drop, place: side wall, owner: operator}
  GB1:  {kind: ground block, place: side wall}
  TV1:  {kind: outlet, place: parlor, serves: [net]}
cables:
  C-1: {from: DROP, to: GB1, type: series 6 quad outdoor, route: [side wall: 5 ft]}
  C-2: {from: GB1, to: TV1, type: TYPE, route: [closet: 240 ft, parlor: 21 ft]}
bonding:
  IBT: {kind: intersystem bonding termination, place: side wall, electrode: service}
  B-1: {from: GB1, to: IBT, conductor: 14 AWG copper, length: 26 ft}
"""
FLATTERING = (
    SOBER.replace("[us 2023]", "[us 2023, firm/kind.coax-ruleset.yaml]").replace("TYPE", "thin 6")
    + """\
catalogue:
  classes:
    thin 6:
      like: series 6
      source: the author's own sheet
      attenuation: {table: {5 MHz: 0.1 dB/100 ft, 211 MHz: 0.6 dB/100 ft, 1002 MHz: 1.4 dB/100 ft}}
variances:
  - {rule: bonding.conductor-length, item: GB1, reason: it is fine, granted by: the author}
"""
)
KIND = """\
ruleset: kind
edition: 1
title: A kind ruleset (invented)
builds on: [us 2023]
documents: {}
off:
  cable.sheet-plausible: {reason: sheets are sheets}
  cable.run-length: {reason: cables are as long as they are}
"""
SETTINGS = "coaxwright settings: 1\nreturns at: violation\npunch list: known.coax-punch-list.yaml\n"
ON_TERMS = ("--reviewers-terms", "us 2023")


@pytest.fixture
def submitted(tmp_path: Path) -> Path:
    """The folder of a submission."""
    folder = tmp_path / "submitted"
    (folder / "firm").mkdir(parents=True)
    (folder / "a.coax.yaml").write_text(FLATTERING, encoding="utf-8")
    (folder / "firm" / "kind.coax-ruleset.yaml").write_text(KIND, encoding="utf-8")
    (folder / "coax-settings.yaml").write_text(SETTINGS, encoding="utf-8")
    return folder


def found(coax, folder: Path, *words: str) -> tuple[int, dict[str, str]]:
    told = coax("review", "a.coax.yaml", "--as", "json", *words, cwd=folder)
    (design,) = json.loads(told.stdout)["designs"]
    schema = json.loads((shipped("schemas") / "review-1.schema.json").read_text(encoding="utf-8"))
    assert [error.message for error in Draft202012Validator(schema).iter_errors(json.loads(told.stdout))] == []
    return told.returncode, {one["rule"]: one["severity"] for one in design["findings"] if one["returns"]}


def test_it_is_clear_on_its_own_terms_and_returned_on_the_reviewers(coax, submitted: Path) -> None:
    assert found(coax, submitted) == (0, {})
    status, returning = found(coax, submitted, *ON_TERMS)
    assert status == 1
    # the variance does not count, the rule that was switched off is asked, and the severity is not the settings'
    assert returning["bonding.conductor-length"] == "violation"
    assert "deficiency" in returning.values()
    assert returning.keys() & {"cable.sheet-plausible", "cable.run-length"}


def test_what_each_of_its_flatteries_hides_is_found(coax, submitted: Path) -> None:
    """One at a time taken away on its own terms: the reviewer's terms find them all together."""
    _, returning = found(coax, submitted, *ON_TERMS)
    text = FLATTERING.partition("variances:")[0]
    (submitted / "a.coax.yaml").write_text(text, encoding="utf-8")
    status, without_variance = found(coax, submitted)
    assert (status, set(without_variance)) == (1, {"bonding.conductor-length"})
    (submitted / "coax-settings.yaml").unlink()
    (submitted / "a.coax.yaml").write_text(FLATTERING.replace(", firm/kind.coax-ruleset.yaml", ""), encoding="utf-8")
    status, without_ruleset = found(coax, submitted)
    assert status == 1
    assert set(without_variance) | set(without_ruleset) == set(returning)


@pytest.mark.parametrize("form", Form)
def test_every_form_says_whose_terms_and_whose_figures(coax, submitted: Path, form: Form) -> None:
    told = coax("review", "a.coax.yaml", "--as", form.value, *ON_TERMS, "--width", "400", cwd=submitted)
    assert (told.returncode, told.stderr) == (1, "")
    flowed = " ".join(told.stdout.replace("&apos;", "'").split())
    assert "he reviewer's" in flowed
    for named in ("firm/kind.coax-ruleset.yaml", "coax-settings.yaml", "known.coax-punch-list.yaml", "thin 6"):
        assert named in flowed


CLAIMING = (
    FLATTERING.replace("    from: DROP\n", "    from: DROP\n    at outlets: {level: -60 to 60 dBmV}\n")
    .replace("serves: [net]}", "serves: [net], state: existing, loss: 0 dB, impedance: 75 ohm}")
    .replace("type: thin 6,", "type: thin 6, state: reserve, listing: CMP, fire class: Eca,")
)
CLAIMS = (
    "at outlets of net",
    "listing of C-2",
    "fire class of C-2",
    "impedance of TV1",
    "loss of TV1",
    "state existing of TV1",
    "state reserve of C-2",
)
GRANTED = ("ariances that it grants itself, not used", "bonding.conductor-length (GB1)")


def in_every_form(coax, folder: Path, *words: str) -> tuple[int, dict[Form, str]]:
    """The exit status, and one review in each form, its words in one line."""
    into = {form: f"told-{form.value}" for form in Form}
    also = [word for form, name in into.items() for word in ("--also", f"{form.value}={name}")]
    told = coax("review", "a.coax.yaml", *also, *words, "--width", "600", cwd=folder)
    assert told.stderr == ""
    pages = {form: (folder / name).read_text(encoding="utf-8") for form, name in into.items()}
    return told.returncode, {form: " ".join(page.replace("&apos;", "'").split()) for form, page in pages.items()}


def test_every_form_names_what_the_author_claims_and_grants(coax, submitted: Path) -> None:
    (submitted / "a.coax.yaml").write_text(CLAIMING, encoding="utf-8")
    status, told = in_every_form(coax, submitted, *ON_TERMS)
    assert status == 1
    (design,) = json.loads(told.pop(Form.JSON))["designs"]
    claimed = [f"{one['name']} of {', '.join(one['used by'])}" for one in design["own figures"]]
    assert set(CLAIMS) <= set(claimed)
    assert [one["varied"]["honoured"] for one in design["findings"] if one["varied"]] == [False]
    missing = [(form, words) for form, page in told.items() for words in (*CLAIMS, *GRANTED) if words not in page]
    assert missing == []


def test_a_design_with_nothing_in_it_is_clear_in_no_form(coax, submitted: Path) -> None:
    (submitted / "a.coax.yaml").write_text(SOBER.partition("buildings:")[0], encoding="utf-8")
    for words in ((), ON_TERMS):
        status, told = in_every_form(coax, submitted, *words)
        assert status == 3
        assert json.loads(told.pop(Form.JSON))["designs"][0]["result"] == "incomplete"
        silent = [
            form for form, page in told.items() if "nothing stands in the design that a rule is about" not in page
        ]
        assert silent == []


def test_its_variances_are_shown_and_change_nothing(coax, submitted: Path) -> None:
    page = " ".join(coax("review", "a.coax.yaml", *ON_TERMS, cwd=submitted).stdout.split())
    assert "A variance is recorded, and not honoured in this review: it is fine; granted by the author" in page
    assert "varied" not in page.partition("RETURNED FOR CORRECTION")[2].partition("Cautions")[0]


def test_why_a_rule_applies_is_told_on_the_reviewers_terms_too(coax, submitted: Path) -> None:
    (submitted / "firm" / "kind.coax-ruleset.yaml").write_text(KIND.replace("off:", "of:"), encoding="utf-8")
    asked = ("cite", "bonding.conductor-length", "--for", "a.coax.yaml", "--width", "400")
    assert coax(*asked, cwd=submitted).returncode == 2  # the author's ruleset is broken
    told = coax(*asked, *ON_TERMS, cwd=submitted)
    assert (told.returncode, told.stderr) == (0, "")
    page = " ".join(told.stdout.partition("In a.coax.yaml, judged by us 2023")[2].split())
    assert page.startswith("On the reviewer's terms: judged by us 2023; what the design names and grants itself")
    assert "Author-supplied values: thin 6 (a.coax.yaml)" in page
    assert "not met GB1" in page
    alone = coax("cite", "bonding.conductor-length", *ON_TERMS, cwd=submitted)
    assert (alone.returncode, alone.stdout) == (2, "")
    assert "--reviewers-terms are for a design; name it by --for" in alone.stderr


def test_its_rulesets_need_not_even_be_there(coax, submitted: Path, tmp_path: Path) -> None:
    before = coax("review", "a.coax.yaml", *ON_TERMS, cwd=submitted)
    ruleset = submitted / "firm" / "kind.coax-ruleset.yaml"
    for text in ("ruleset: [\n", KIND.replace("builds on", "build on"), None):
        ruleset.unlink()
        if text is not None:
            ruleset.write_text(text, encoding="utf-8")
        else:
            (tmp_path / "elsewhere.coax-ruleset.yaml").write_text("secret: words\n", encoding="utf-8")
            ruleset.symlink_to(tmp_path / "elsewhere.coax-ruleset.yaml")
        assert coax("review", "a.coax.yaml", cwd=submitted).returncode == 2
        assert coax("review", "a.coax.yaml", *ON_TERMS, cwd=submitted).stdout == before.stdout
    odd = FLATTERING.replace("us 2023, firm", "us 1999, firm")
    (submitted / "a.coax.yaml").write_text(odd, encoding="utf-8")
    assert coax("review", "a.coax.yaml", *ON_TERMS, cwd=submitted).returncode == 1


def test_settings_that_leave_it_out_or_cannot_be_read_do_not_count(coax, submitted: Path) -> None:
    (submitted / "coax-settings.yaml").write_text(f"{SETTINGS}files left out: {{'**': all of it}}\n", encoding="utf-8")
    assert coax("review", ".", cwd=submitted).returncode == 3
    assert coax("review", ".", *ON_TERMS, cwd=submitted).returncode == 1
    for text in ("nonsense: [\n", "coaxwright settings: 1\nalso judged by: [gone.coax-ruleset.yaml]\n"):
        (submitted / "coax-settings.yaml").write_text(text, encoding="utf-8")
        assert coax("review", ".", cwd=submitted).returncode == 2
        told = coax("review", ".", *ON_TERMS, "--as", "brief", cwd=submitted)
        assert told.returncode == 1
        assert "Beside the design, not used: coax-settings.yaml\n" in told.stdout


def test_a_reviewer_s_own_ruleset_by_its_path(coax, submitted: Path, tmp_path: Path) -> None:
    desk = tmp_path / "desk"
    desk.mkdir()
    county = KIND.replace("ruleset: kind", "ruleset: county").partition("off:")[0]
    (desk / "county.coax-ruleset.yaml").write_text(
        county + "set:\n  cable.run-length: {severity: advice}\n", encoding="utf-8"
    )
    told = coax(
        "review", "a.coax.yaml", "--reviewers-terms", "../desk/county.coax-ruleset.yaml", "--as", "brief", cwd=submitted
    )
    assert told.returncode == 1
    whose = "On the reviewer's terms: judged by county 1 (../desk/county.coax-ruleset.yaml); what the design names and"
    named = "Named by the design, not used: us 2023 and firm/kind.coax-ruleset.yaml"
    assert [line for line in told.stdout.splitlines() if line.startswith((whose, named))] != []
    assert f" grants itself does not count\n{named}\n" in told.stdout


@pytest.mark.parametrize(
    ("ruleset", "told"),
    [
        ("us 2024", f"us 2024: that edition is not here; of us there are {EDITIONS}"),
        ("county", "county: no ruleset of that name; there are trade, us"),
        ("../x.coax-ruleset.yaml", "../x.coax-ruleset.yaml:1:1: the file cannot be opened (no such file or directory)"),
    ],
)
def test_a_ruleset_of_the_reviewer_s_that_is_not_there(coax, submitted: Path, ruleset: str, told: str) -> None:
    done = coax("review", "a.coax.yaml", "--reviewers-terms", ruleset, cwd=submitted)
    assert (done.returncode, done.stdout, done.stderr) == (2, "", f"coaxwright: {told}\n")


def test_figures_that_stand_at_single_things_are_named_for_the_reviewer(coax, submitted: Path) -> None:
    text = FLATTERING.replace("240 ft, parlor: 21 ft]", "240 ft, parlor: 21 ft], measured loss: [3 dB at 1002 MHz]")
    (submitted / "a.coax.yaml").write_text(text, encoding="utf-8")
    told = coax("review", "a.coax.yaml", *ON_TERMS, "--as", "brief", cwd=submitted).stdout
    assert "Author-supplied values: thin 6 (a.coax.yaml), measured loss of C-2 (a.coax.yaml)\n" in told
    own = coax("review", "a.coax.yaml", "--as", "brief", cwd=submitted).stdout
    assert "Author-supplied values: thin 6 (a.coax.yaml)\n" in own
