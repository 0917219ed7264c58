"""What was known before stays in sight in every form, and what is left out is counted in each."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from jsonschema import Draft202012Validator

from coaxwright.cli.forms import Form, Paper, rendered
from coaxwright.reviewing import Review
from coaxwright.shipped import shipped

Made = Callable[[str], Review]
SCHEMA = json.loads((shipped("schemas") / "review-1.schema.json").read_text(encoding="utf-8"))
KNOWN = ("outstanding", "since", "nothing-new", "nothing-changed", "hostile-known")


def told(form: Form, review: Review) -> str:
    """A review in one form, in lines that do not break."""
    text = rendered(form, review, Paper(1000))
    return text if form in (Form.JSON, Form.SARIF, Form.SARIF_CODE_HOST) else text.replace("\\", "")


def run_of(review: Review, form: Form = Form.SARIF) -> Any:
    (run,) = json.loads(rendered(form, review, Paper(100)))["runs"]
    return run


def notes(run: Any) -> dict[str, str]:
    notifications = run["invocations"][0]["toolExecutionNotifications"]
    return {one["descriptor"]["id"]: one["message"]["text"] for one in notifications}


class TestOutstanding:
    def test_the_result_and_the_counts(self, made: Made) -> None:
        review = made("outstanding")
        first, *rest = review.findings
        plain = made("returned")
        assert review.count_outstanding == 1
        assert sum(map(review.count, type(first.severity))) == sum(map(plain.count, type(first.severity))) - 1
        assert not first.returns(first.severity)
        assert all(one.returns(one.severity) for one in rest if one.outcome == "not met")

    @pytest.mark.parametrize(
        "form", [Form.TEXT, Form.BRIEF, Form.NOTICE, Form.CHECKLIST, Form.JUNIT, Form.CODE_QUALITY, Form.ANNOTATIONS]
    )
    def test_it_is_in_sight_and_called_so(self, form: Form, made: Made) -> None:
        first = next(made("outstanding").findings)
        shown = told(form, made("outstanding"))
        assert first.rule in shown
        assert "outstanding" in shown.lower()
        assert "outstanding" not in told(form, made("returned")).lower()

    def test_the_text_sets_it_apart_from_what_is_to_be_corrected(self, made: Made) -> None:
        first = next(made("outstanding").findings)
        items, _, section = told(Form.TEXT, made("outstanding")).partition(
            "\nOutstanding: found, and on the punch list\n"
        )
        assert first.found not in items
        assert first.found in section
        assert ", 1 outstanding; " in section
        assert "note         New in flat-2; known before in the other units" in items

    def test_the_notice_has_a_part_for_it_without_a_line_to_fill_in(self, made: Made) -> None:
        shown = told(Form.NOTICE, made("outstanding"))
        part = shown.partition("## Outstanding, on the punch list\n")[2].partition("\n## ")[0]
        assert next(made("outstanding").findings).found in part.replace("`", "")
        assert "Corrected by" not in part
        assert "Corrected by" in shown

    def test_junit_skips_it(self, made: Made) -> None:
        first = next(made("outstanding").findings)
        cases = {
            one.get("name"): one
            for one in ElementTree.fromstring(told(Form.JUNIT, made("outstanding"))).iter("testcase")
        }
        skipped = cases[first.rule].find("skipped")
        assert skipped is not None
        assert skipped.get("message") == "1 outstanding"

    def test_code_quality_calls_it_info(self, made: Made) -> None:
        def grades(name: str) -> list[tuple[str, str]]:
            return [(one["check_name"], one["severity"]) for one in json.loads(told(Form.CODE_QUALITY, made(name)))]

        before, now = grades("returned"), grades("outstanding")
        assert now[0] == (before[1][0], "info")
        assert before[1][1] == "critical"
        assert now[1:] == [before[0], *before[2:]]

    def test_annotations_call_it_a_notice(self, made: Made) -> None:
        first = next(made("outstanding").findings)
        (line,) = [one for one in told(Form.ANNOTATIONS, made("outstanding")).splitlines() if f" {first.rule} " in one]
        assert line.startswith("::notice ")
        assert f"{first.severity.value.capitalize()}, outstanding" in line.replace("%2C", ",")

    def test_sarif_says_so_among_the_properties_of_every_result(self, made: Made) -> None:
        run = run_of(made("outstanding"))
        first, *rest = run["results"]
        assert first["properties"]["outstanding"] is True
        assert {one["properties"]["outstanding"] for one in rest} == {False}
        assert rest[0]["properties"]["new in"] == ["flat-2"]
        # SARIF 2.1.0, 3.27.24: "If baselineState is present on any result object in theRun, it SHALL be present on
        # every such result object."
        assert not any("baselineState" in one for one in run["results"])
        assert run["properties"]["punch lists"][0]["file"] == "plans/site.coax-punch-list.yaml"

    def test_a_code_host_is_told_how_many(self, made: Made) -> None:
        run = run_of(made("outstanding"), Form.SARIF_CODE_HOST)
        before = run_of(made("returned"), Form.SARIF_CODE_HOST)
        assert len(run["results"]) == len(before["results"]) - 1
        assert notes(run)["outstanding-findings"] == "1 findings are on the punch list and are not listed."

    @pytest.mark.parametrize("form", [one for one in Form if one is not Form.CODE_QUALITY])
    def test_what_is_no_longer_found_is_told(self, form: Form, made: Made) -> None:
        shown = " ".join(told(form, made("outstanding")).split())
        if form is Form.JSON:
            (gone,) = json.loads(shown)["punch lists"][0]["no longer found"]
            assert gone["identity"]["subject"] == "plans/site.coax-punch-list.yaml"
        else:
            assert "1 item of plans/site.coax-punch-list.yaml is no longer found: " in shown
            assert "--prune takes it off" in shown


class TestSince:
    @pytest.mark.parametrize("form", Form)
    @pytest.mark.parametrize("name", ["since", "nothing-new"])
    def test_what_is_left_out_is_counted_in_every_form(self, form: Form, name: str, made: Made) -> None:
        number = len(made("returned").designs[0].findings) - 1
        shown = " ".join(told(form, made(name)).split())
        if form is Form.JSON:
            read = json.loads(shown)
            assert read["totals"]["stood already"] == read["designs"][0]["stood already"] == number
        else:
            assert f"{number} further findings stood at main already" in shown
        for finding in made("since").designs[0].stood:
            assert finding.found not in shown

    @pytest.mark.parametrize("form", [one for one in Form if one is not Form.CODE_QUALITY])
    def test_so_are_designs_that_did_not_change(self, form: Form, made: Made) -> None:
        shown = " ".join(told(form, made("since")).split())
        if form is Form.JSON:
            assert json.loads(shown)["since"]["unchanged designs"] == 3
        elif form not in (Form.NOTICE, Form.CHECKLIST):  # papers for one design each
            assert "3 further designs did not change since main and were not reviewed." in shown
        if form is not Form.JSON:
            assert "was not understood in full at main: what it held may count as new." in shown

    def test_junit_hides_nothing_behind_a_case_without_a_mark(self, made: Made) -> None:
        rules = {finding.rule for finding in made("nothing-new").designs[0].stood}
        suites = ElementTree.fromstring(rendered(Form.JUNIT, made("nothing-new"), Paper(100)))
        marks = {case.get("name"): case.find("skipped") for case in suites.iter("testcase")}
        for rule in rules:
            skipped = marks[rule]
            assert skipped is not None
            assert re.fullmatch(r"\d+ stood at main already", skipped.get("message") or "")
        assert suites.get("failures") == "0"

    def test_the_checklist_still_tells_of_all_that_was_asked(self, made: Made) -> None:
        shown = told(Form.CHECKLIST, made("since"))
        left_out = made("since").designs[0].stood
        broken = [one for one in left_out if one.outcome == "not met"]
        assert broken
        for finding in broken:
            assert f"{finding.subject.tag}" in shown
        assert ", at main already)" in shown


class TestNothingChanged:
    def test_it_is_an_answer_and_not_an_empty_review(self, made: Made) -> None:
        assert made("nothing-changed").exit_status == 0
        assert made("nothing").exit_status == 3

    @pytest.mark.parametrize("form", Form)
    def test_every_form_can_say_it(self, form: Form, made: Made) -> None:
        shown = " ".join(told(form, made("nothing-changed")).split())
        assert "othing was reviewed" not in shown
        if form is Form.JSON:
            read = json.loads(shown)
            assert (read["result"], read["exit status"], read["since"]["unchanged designs"]) == ("clear", 0, 7)
        elif form is Form.CODE_QUALITY:
            assert shown == "[]"
        else:
            assert "Nothing changed since main: all 7 designs are as they were." in shown

    def test_junit_has_no_error(self, made: Made) -> None:
        suites = ElementTree.fromstring(rendered(Form.JUNIT, made("nothing-changed"), Paper(100)))
        assert [suites.get(name) for name in ("tests", "failures", "errors")] == ["1", "0", "0"]


@pytest.mark.parametrize("name", KNOWN)
def test_json_keeps_to_its_schema(name: str, made: Made) -> None:
    read = json.loads(rendered(Form.JSON, made(name), Paper(100)))
    assert [error.message for error in Draft202012Validator(SCHEMA).iter_errors(read)] == []
    for finding in (one for design in read["designs"] for one in design["findings"] if one["outstanding"]):
        finding["returns"] = True
        assert [error.json_path for error in Draft202012Validator(SCHEMA).iter_errors(read)] != []
