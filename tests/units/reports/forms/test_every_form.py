"""What holds for every form. The snapshots are whole reports; after a change of wording, read them again."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from pytest_snapshot.plugin import Snapshot

from coaxwright.cli.forms import WITH_AMENDMENTS, Form, Paper, rendered
from coaxwright.cli.output import PLAIN_WIDTH
from coaxwright.reports import annotations, code_quality
from coaxwright.reports.excerpt import columns
from coaxwright.reports.sarif import MOST_RESULTS
from coaxwright.reports.wording import MOST_ITEMS
from coaxwright.reviewing import Review, review

HERE = Path(__file__).parent
NEW = (Form.BRIEF, Form.NOTICE, Form.CHECKLIST, Form.JUNIT, Form.CODE_QUALITY, Form.ANNOTATIONS)
WRAPPED = (Form.NOTICE, Form.CHECKLIST)
ENDINGS = {Form.NOTICE: "md", Form.CHECKLIST: "md", Form.JUNIT: "xml", Form.CODE_QUALITY: "json"}
SHOWN = ("returned", "clear", "not-understood", "incomplete", "varied")
Made = Callable[[str], Review]


PAGE = (HERE.parents[3] / "docs" / "reference" / "outputs.md").read_text(encoding="utf-8")


@pytest.fixture
def kept(snapshot: Snapshot) -> Snapshot:
    snapshot.snapshot_dir = HERE / "snapshots"
    return snapshot


@pytest.mark.parametrize("width", [80, 120])
@pytest.mark.parametrize("form", NEW)
@pytest.mark.parametrize("name", SHOWN)
def test_whole_reports(name: str, form: Form, width: int, made: Made, kept: Snapshot) -> None:
    text = rendered(form, made(name), Paper(width, dated="2026-11-25" if name == "varied" else ""))
    if form in WRAPPED:
        assert max(map(columns, text.splitlines())) <= width
    elif width != 80:
        assert text == rendered(form, made(name), Paper(80)), "a form of single lines has no width"
        return
    kept.assert_match(text, f"{name}.{form.value}{f'-{width}' if form in WRAPPED else ''}.{ENDINGS.get(form, 'txt')}")


def test_the_page_of_forms_tells_of_each_and_its_numbers() -> None:
    rows = re.findall(r"^\| `([^`]+)` \| .* \| (yes|no) \|$", PAGE, re.MULTILINE)
    assert [name for name, _ in rows] == [form.value for form in Form]
    assert f"more than {MOST_ITEMS} items" in PAGE
    assert f"holds {MOST_RESULTS} results" in PAGE
    assert f"{PLAIN_WIDTH} columns in a file" in PAGE
    commands, grades = annotations.COMMANDS, code_quality.SEVERITIES
    assert "A violation is an `{}`, a deficiency a `{}`, advice a `{}`".format(*commands.values()) in PAGE
    assert "violation `{}`, deficiency `{}`, advice `{}`".format(*grades.values()) in PAGE
    assert (
        [severity.value for severity in commands]
        == ["violation", "deficiency", "advice"]
        == [severity.value for severity in grades]
    )


@pytest.mark.parametrize("name", ["returned", "clear"])
def test_the_page_tells_which_forms_have_cautions(name: str, made: Made) -> None:
    (caution, *_) = made(name).designs[0].cautions
    for form, answer in re.findall(r"^\| `([^`]+)` \| .* \| (yes|no) \|$", PAGE, re.MULTILINE):
        text = rendered(Form(form), made(name), Paper(1000))
        assert (caution.text in text) is (answer == "yes"), form


@pytest.mark.parametrize("form", Form)
def test_the_same_again(form: Form, each: str, made: Made) -> None:
    paper = Paper(80, dated="2026-11-25")
    text = rendered(form, made(each), paper)
    assert text == rendered(form, made(each), paper)
    assert text.endswith("\n")


@pytest.mark.parametrize("form", NEW)
def test_no_form_says_that_anything_is_safe_or_approved(form: Form, each: str, made: Made) -> None:
    text = " ".join(rendered(form, made(each), Paper(1000)).lower().split())
    text = text.replace("it does not say that an installation is safe or approved", "")
    for word in ("approved", "passed", "safe ", "compliant", "accepted"):
        assert word not in text


@pytest.mark.parametrize("form", NEW)
def test_control_and_direction_characters_reach_no_reader(form: Form, made: Made) -> None:
    text = rendered(form, made("hostile"), Paper(80))
    assert re.findall("[\x00-\x08\x0b-\x1f\x7f-\x9f\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]", text) == []


@pytest.mark.parametrize("form", NEW)
def test_findings_that_are_varied_are_told(form: Form, made: Made) -> None:
    text = " ".join(rendered(form, made("varied"), Paper(1000)).split())
    assert "variance" in text or "roof access only after re-roofing" in text
    if form is not Form.CHECKLIST and form is not Form.BRIEF:
        assert "roof access only after re-roofing; granted by the site engineer, until 2027-06-30" in text
        assert "granted by the site engineer; not taken into account in this review" in text


@pytest.mark.parametrize("form", [form for form in NEW if form is not Form.CODE_QUALITY])
def test_figures_that_the_author_states_are_named(form: Form) -> None:
    path = Path(__file__).parents[4] / "examples" / "shelduck-works" / "as-drawn.coax.yaml"
    made = review([path])
    assert made.designs[0].author_values
    text = " ".join(rendered(form, made, Paper(1000)).split())
    for one in made.designs[0].author_values:
        assert f"{one.name} ({one.file})" in text


@pytest.mark.parametrize("form", [Form.TEXT, *NEW])
def test_a_form_is_the_same_with_amendments_made_for_another(form: Form) -> None:
    path = Path(__file__).parents[4] / "examples" / "tern-cottage" / "as-drawn.coax.yaml"
    with_them = review([path], with_amendments=True)
    assert any(finding.amendment for finding in with_them.findings)
    assert form not in WITH_AMENDMENTS
    assert rendered(form, with_them, Paper(80)) == rendered(form, review([path]), Paper(80))
