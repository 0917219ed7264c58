from __future__ import annotations

import json
from contextlib import chdir
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from coaxwright.findings import Outcome, Place
from coaxwright.reports.sarif import MOST_RESULTS, Profile, render
from coaxwright.reports.sarif_places import Files, region
from coaxwright.reviewing import DesignReview, Review, review
from coaxwright.rules import Severity
from coaxwright.source import Position, Span
from coaxwright.version import VERSION

TERN = Path(__file__).parents[3] / "examples" / "tern-cottage"


def tern(name: str = "as-drawn") -> str:
    return (TERN / f"{name}.coax.yaml").read_text(encoding="utf-8")


def reviewed(folder: Path, returns_at: Severity = Severity.DEFICIENCY, **texts: str) -> Review:
    for name, text in texts.items():
        (folder / f"{name}.coax.yaml").write_text(text, encoding="utf-8")
    with chdir(folder):
        return review(["."], returns_at=returns_at, with_amendments=True)


def run_of(one: Review, profile: Profile = "full") -> Any:
    (run,) = json.loads(render(one, profile))["runs"]
    return run


@pytest.fixture(scope="module")
def returned(tmp_path_factory: pytest.TempPathFactory) -> Review:
    return reviewed(tmp_path_factory.mktemp("site"), a=tern())


def test_full_holds_every_finding(returned: Review) -> None:
    results = run_of(returned)["results"]
    told = [(result["ruleId"], result["properties"]["outcome"], result["properties"]["severity"]) for result in results]
    assert told == [(finding.rule, finding.outcome, finding.severity.value) for finding in returned.findings]
    assert {result["kind"] for result in results} == {"fail", "open"}


@pytest.mark.parametrize("returns_at", Severity)
def test_a_code_host_gets_what_returns_the_design(returned: Review, returns_at: Severity) -> None:
    results = run_of(returned.returning_at(returns_at), "code host")["results"]
    returning = [finding for finding in returned.findings if finding.severity >= returns_at]
    assert sorted(result["partialFingerprints"]["coaxwrightIdentity/v1"] for result in results) == sorted(
        finding.identity.fingerprint for finding in returning
    )
    levels = [result["level"] for result in results]
    assert levels == sorted(levels, key=("error", "warning", "note").index)


def test_severities_become_levels(returned: Review) -> None:
    levels = {
        (result["properties"]["severity"], result["level"])
        for result in run_of(returned)["results"]
        if result["kind"] == "fail"
    }
    assert levels == {("violation", "error"), ("deficiency", "warning"), ("advice", "note")}


def test_a_missing_figure_is_open_for_audit_and_a_problem_for_a_host(returned: Review) -> None:
    (finding,) = (one for one in returned.findings if one.outcome is Outcome.CANNOT_BE_JUDGED and not one.due_later)
    mark = {"coaxwrightIdentity/v1": finding.identity.fingerprint}
    (full,) = (result for result in run_of(returned)["results"] if result["partialFingerprints"] == mark)
    (brief,) = (result for result in run_of(returned, "code host")["results"] if result["partialFingerprints"] == mark)
    assert full["kind"] == "open"
    assert "level" not in full
    assert brief["level"] == "warning"
    assert "kind" not in brief


def test_a_message_says_what_is_what_should_be_how_to_mend_it_and_by_what_right(returned: Review) -> None:
    (text,) = (
        result["message"]["text"]
        for result in run_of(returned, "code host")["results"]
        if "B-1" in str(result["message"])
    )
    assert text.startswith("GB1 is bonded over 26 ft of conductor (B-1) to IBT. Required: at most 20 ft in one- and")
    assert " Remedy: shorten the bond by 6 ft by moving GB1 nearer to IBT;" in text
    assert text.endswith(" Source: NFPA 70 (2023), 800.100(A)(4).")


def test_a_code_host_gets_mistakes_of_form_as_results(tmp_path: Path) -> None:
    """Hosts show no notifications; without results, all earlier ones of the file would seem to be mended."""
    run = run_of(reviewed(tmp_path, a=tern() + "color: red\n", b="coaxwright: [\n"), "code host")
    assert [(result["ruleId"], result["level"]) for result in run["results"]] == [("design.understood", "error")] * 2
    assert run["results"][0]["locations"][0]["physicalLocation"]["region"] == {
        "startLine": 81,
        "startColumn": 1,
        "endLine": 81,
        "endColumn": 6,
    }
    assert [rule["id"] for rule in run["tool"]["driver"]["rules"]] == ["design.understood"]
    assert len(run["invocations"][0]["toolExecutionNotifications"]) == 2


def test_full_tells_mistakes_of_form_as_notifications(tmp_path: Path) -> None:
    run = run_of(reviewed(tmp_path, a=tern() + "color: red\n"))
    assert run["results"] == []
    (note,) = run["invocations"][0]["toolExecutionNotifications"]
    assert note["level"] == "error"
    assert "color" in note["message"]["text"]
    assert note["locations"][0]["physicalLocation"]["region"]["startLine"] == 81


def test_a_file_that_is_not_there_has_no_region(tmp_path: Path) -> None:
    with chdir(tmp_path):
        run = run_of(review(["missing.coax.yaml"]), "code host")
    (result,) = run["results"]
    assert result["locations"][0]["physicalLocation"].keys() == {"artifactLocation"}


def test_a_code_host_gets_the_most_serious_up_to_a_cap(returned: Review) -> None:
    design = returned.designs[0]
    advice = next(one for one in design.findings if one.severity is Severity.ADVICE)
    violation = next(one for one in design.findings if one.severity is Severity.VIOLATION)
    many = Review((replace(design, findings=(advice,) * MOST_RESULTS + (violation,) * 7),)).returning_at(
        Severity.ADVICE
    )
    run = run_of(many, "code host")
    levels = [result["level"] for result in run["results"]]
    assert levels == ["error"] * 7 + ["note"] * (MOST_RESULTS - 7)
    (note,) = run["invocations"][0]["toolExecutionNotifications"]
    assert note["level"] == "warning"
    assert note["message"]["text"] == "7 more findings return a design; the most serious 5,000 are listed."
    assert run["invocations"][0]["executionSuccessful"] is True
    assert len(run_of(many)["results"]) == MOST_RESULTS + 7


def test_more_mistakes_of_form_than_the_cap_leave_no_room(returned: Review, tmp_path: Path) -> None:
    problem = reviewed(tmp_path, b=tern() + "color: red\n").designs[0].problems[0]
    wrong = DesignReview("b.coax.yaml", problems=(problem,) * (MOST_RESULTS + 1))
    run = run_of(Review((*returned.designs, wrong)), "code host")
    assert len(run["results"]) == MOST_RESULTS
    more = run["invocations"][0]["toolExecutionNotifications"][-1]["message"]["text"]
    assert more.startswith("11 more findings return a design")


def test_a_code_host_gets_only_the_rules_of_its_results(returned: Review) -> None:
    run = run_of(returned, "code host")
    rules = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert sorted(rules) == sorted({result["ruleId"] for result in run["results"]})
    assert not {"taxonomies", "artifacts", "logicalLocations"} & run.keys()
    assert len(render(returned, "code host")) * 4 < len(render(returned))


def test_full_lists_every_rule_that_was_asked_with_its_limits(returned: Review) -> None:
    driver = run_of(returned)["tool"]["driver"]
    assert (driver["name"], driver["version"]) == ("Coaxwright", VERSION)
    assert [rule["id"] for rule in driver["rules"]] == [rule.name for rule in returned.designs[0].rules]
    (rule,) = (rule for rule in driver["rules"] if rule["id"] == "bonding.conductor-length")
    limit = rule["defaultConfiguration"]["parameters"]["limits"][0]
    assert (limit["name"], limit["value"], limit["source"]["printed"]) == (
        "longest",
        "20 ft (6.0 m)",
        "NFPA 70 (2023), 800.100(A)(4)",
    )
    clauses = [link["target"]["id"] for link in rule["relationships"]]
    assert clauses == ["800.100(A)(4) and its exception", "800.100(A)(4)", "800.100(D)"]


def test_two_editions_give_two_descriptions_of_a_rule(tmp_path: Path) -> None:
    both = reviewed(tmp_path, a=tern(), b=tern().replace("us 2023", "us 2017").replace("QH-07", "QH-08"))
    name = "bonding.conductor-length"
    run = run_of(both)
    indexes = [index for index, rule in enumerate(run["tool"]["driver"]["rules"]) if rule["id"] == name]
    assert len(indexes) == 2
    used = {result["properties"]["outcome"]: [] for result in run["results"]}
    for result in run["results"]:
        if result["ruleId"] == name:
            used[result["properties"]["outcome"]].append(result["ruleIndex"])
    assert used["not met"] == indexes
    editions = [taxonomy["version"] for taxonomy in run["taxonomies"] if taxonomy["name"] == "NFPA 70"]
    assert editions == ["2023", "2017"]
    brief = [rule["id"] for rule in run_of(both, "code host")["tool"]["driver"]["rules"]]
    assert brief.count(name) == 1


def test_common_practice_is_no_document(returned: Review) -> None:
    run = run_of(returned)
    assert "common practice" not in {taxonomy["name"] for taxonomy in run["taxonomies"]}
    (rule,) = (rule for rule in run["tool"]["driver"]["rules"] if rule["id"] == "plan.port-single-use")
    assert rule["relationships"] == []
    assert rule["properties"]["sources"][0]["printed"] == "common practice, no source"


def test_a_part_on_several_lines_has_a_region_and_no_text(tmp_path: Path) -> None:
    """Only the first line of a place is known, and half a text would be a wrong one."""
    block = tern().replace(
        "type: series 6 quad, route: [closet: 7 ft, attic: 26 ft]}",
        "type: series 6 quad, route: [\n    closet: 7 ft,\n    attic: 26 ft]}",
    )
    (result,) = (one for one in run_of(reviewed(tmp_path, a=block))["results"] if one["ruleId"] == "cable.run-length")
    place = result["locations"][0]["physicalLocation"]
    assert place["region"] == {"startLine": 64, "startColumn": 59, "endLine": 66, "endColumn": 18}
    assert "contextRegion" not in place


def test_related_places_and_places_in_the_building_are_told(returned: Review) -> None:
    run = run_of(returned)
    (result,) = (one for one in run["results"] if one["ruleId"] == "jacket.outdoor-rated")
    related = [(place["id"], place["message"]["text"]) for place in result["relatedLocations"]]
    assert related == [(1, "runs outdoors here"), (2, "runs outdoors here")]
    things = [run["logicalLocations"][used["index"]] for used in result["locations"][0]["logicalLocations"]]
    assert [(thing["name"], thing["kind"]) for thing in things] == [("C-202", "cable"), ("roof to north wall", "place")]


def test_only_proven_amendments_are_fixes(returned: Review) -> None:
    fixed = [result["ruleId"] for result in run_of(returned)["results"] if "fixes" in result]
    assert fixed == [finding.rule for finding in returned.findings if finding.amendment]
    without = replace(
        returned.designs[0],
        findings=tuple(replace(finding, amendment=None) for finding in returned.findings),
    )
    assert any(finding.mend for finding in without.findings)
    assert not any("fixes" in result for result in run_of(Review((without,)))["results"])


def test_full_tells_how_each_file_was_judged(returned: Review) -> None:
    run = run_of(returned)
    (artifact,) = run["artifacts"]
    told = artifact["properties"]
    assert (told["result"], told["stage"], told["rulesets"]["named"]) == ("returned", "permit", ["us 2023"])
    tallies = {tally["rule"]: tally for tally in told["tallies"]}
    assert tallies["bonding.conductor-size"]["not met"] == 1
    assert tallies["bonding.conductor-size"]["met"] > 0
    assert {caution["name"] for caution in run["properties"]["cautions"]} == set(told["cautions"])


@pytest.mark.parametrize("profile", ["full", "code host"])
def test_the_same_review_gives_the_same_bytes(returned: Review, tmp_path: Path, profile: Profile) -> None:
    text = render(returned, profile)
    assert render(reviewed(tmp_path, a=tern()), profile) == text
    assert text.endswith("}\n")


@pytest.mark.parametrize("profile", ["full", "code host"])
def test_any_text_and_any_file_name_gives_valid_json(returned: Review, profile: Profile) -> None:
    design = returned.designs[0]
    name = "a\udcff\N{RIGHT-TO-LEFT OVERRIDE}\n.coax.yaml"
    findings = tuple(
        replace(finding, found='\x00\x1b[31m"\\\N{LINE SEPARATOR}', place=replace(finding.place, file=name))
        for finding in design.findings
    )
    text = render(Review((replace(design, file=name, title="\x07", findings=findings),)), profile)
    assert text.encode("utf-8")
    (run,) = json.loads(text)["runs"]
    assert run["results"][0]["message"]["text"].startswith('\x00\x1b[31m"\\\N{LINE SEPARATOR}. Required: ')
    location = run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
    assert location["uri"] == "a%FF%E2%80%AE%0A.coax.yaml"
    assert not {character for character in text if not character.isprintable()} - {"\n"}


def span(start: tuple[int, int], end: tuple[int, int]) -> Span:
    return Span(Position(*start, 0), Position(*end, 9))


def test_a_text_is_known_of_one_line_only() -> None:
    assert region(span((1, 1), (1, 3)), "abcd") == {
        "startLine": 1,
        "startColumn": 1,
        "endLine": 1,
        "endColumn": 3,
        "snippet": {"text": "ab"},
    }
    assert "snippet" not in region(span((1, 1), (2, 3)), "abcd")
    assert "snippet" not in region(span((1, 2), (1, 2)), "abcd")


@pytest.mark.parametrize(("end", "line", "larger"), [(5, "abcd", False), (4, "abcd", True), (5, "abcde", True)])
def test_a_whole_line_has_no_larger_context(end: int, line: str, larger: bool) -> None:
    place = Place("a", span((3, 1), (3, end)), line)
    assert ("contextRegion" in Files([]).physical(place, with_text=True)) is larger
    assert "contextRegion" not in Files([]).physical(place, with_text=False)
