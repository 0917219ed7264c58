"""Our SARIF logs keep to the standard: its schema, and the rules that no schema can express.

Sources: OASIS Standard SARIF Version 2.1.0 (2020), by section beside each test. The wording was looked up in the
committee's text of the next edition, whose sections have the same numbers where we could compare them; what is only
remembered says so. The schema and its source stand in ``data/sarif-2.1.0-rtm.5.*``.
"""

from __future__ import annotations

import hashlib
import importlib
import json
import re
from collections.abc import Iterator
from contextlib import chdir
from copy import deepcopy
from dataclasses import replace
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import pytest

from coaxwright.checks import Verdict, all_checks
from coaxwright.findings import Outcome
from coaxwright.findings.punch_list import items_of, punch_list_of
from coaxwright.reports.sarif import Profile, render
from coaxwright.reviewing import Review, review
from coaxwright.reviewing.model import Since
from coaxwright.reviewing.punch_list_match import match_punch_list
from coaxwright.rules import Severity
from coaxwright.source import read_text

DATA = Path(__file__).parent / "data"
TERN = Path(__file__).parents[2] / "examples" / "tern-cottage"
SCHEMA = json.loads((DATA / "sarif-2.1.0-rtm.5.json").read_text(encoding="utf-8"))
PROFILES: tuple[Profile, ...] = ("full", "code host")
MARK = "\N{ZERO WIDTH NO-BREAK SPACE}"

Log = dict[str, Any]

# RFC 3986, appendix A, as far as a reference can be told by its characters.
_URI_CHARACTERS = r"(?:[A-Za-z0-9._~!$&'()*+,;=:@/?\[\]-]|%[0-9A-Fa-f]{2})*"
FORMATS = jsonschema.FormatChecker(formats=())


@FORMATS.checks("uri")
def is_uri(value: object) -> bool:
    return not isinstance(value, str) or bool(re.fullmatch(rf"[A-Za-z][A-Za-z0-9+.-]*:{_URI_CHARACTERS}", value))


@FORMATS.checks("uri-reference")
def is_uri_reference(value: object) -> bool:
    if not isinstance(value, str) or is_uri(value):
        return True
    return bool(re.fullmatch(_URI_CHARACTERS, value)) and ":" not in value.partition("/")[0]


def tern(name: str = "as-drawn") -> str:
    return (TERN / f"{name}.coax.yaml").read_text(encoding="utf-8")


def in_another_alphabet() -> str:
    """The example with letters and signs of two, three and four bytes before what findings point at."""
    text = tern().replace("C-104: {from:", 'C-104: {note: "é \N{HOUSE BUILDING}\N{VARIATION SELECTOR-16} ", from:')
    return text.replace("B-2:   {from:", "B-2:   {note: Ω \N{MUSICAL SYMBOL G CLEF}, from:")


def reviewed(folder: Path, files: dict[str, str], returns_at: Severity = Severity.DEFICIENCY) -> Review:
    """The review of files, written into a folder and named from there."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode("utf-8"))
    with chdir(folder):
        return review(sorted(files), returns_at=returns_at, with_amendments=True)


def failing(*_: object) -> Iterator[Verdict]:
    raise ZeroDivisionError("no such { thing }")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("site")


@pytest.fixture(scope="module")
def reviews(folder: Path) -> dict[str, Review]:
    """Reviews of every result, and some with awkward names and texts."""
    older = tern().replace("us 2023", "us 2017").replace("QH-07", "QH-08")
    files = {
        "clear": {"a.coax.yaml": tern("corrected")},
        "returned": {"b.coax.yaml": tern()},
        "concept": {"c.coax.yaml": tern().replace("stage: permit", "stage: concept")},
        "not understood": {"d.coax.yaml": "coaxwright: 1\ntitle: [\n", "e.coax.yaml": tern() + "color: red\n"},
        "awkward": {"häuser/a b#1 %20:é\N{HOUSE BUILDING}.coax.yaml": in_another_alphabet()},
        "two rulesets": {"f.coax.yaml": tern(), "g.coax.yaml": older},
        "CR LF, with a byte-order mark": {"h.coax.yaml": MARK + in_another_alphabet().replace("\n", "\r\n")},
        "braces and links": {"j.coax.yaml": tern().replace("to: STUDIO", "to: '[x](y){0}'")},
    }
    made = {name: reviewed(folder, texts) for name, texts in files.items()}
    made["advice returns"] = reviewed(folder, files["returned"], Severity.ADVICE)
    made["nothing"] = Review(())
    with chdir(folder):
        made["no file"] = review(["missing.coax.yaml"])
    listed = punch_list_of(read_text("coaxwright punch list: 1\noutstanding:\n", "h#1 é.coax-punch-list.yaml"))
    items = tuple(item for one in made["returned"].findings for item in items_of(one))
    made["outstanding"] = match_punch_list(made["returned"], replace(listed, items=items[1:]))
    made["mended"] = match_punch_list(made["clear"], replace(listed, items=items))
    made["nothing changed"] = Review((), since=Since("main", "0" * 40, 3))
    design = made["returned"].designs[0]
    left = replace(design, findings=design.findings[:1], stood=design.findings[1:], since="main {0} [a](b)")
    made["left out"] = Review((left,), since=Since("main {0} [a](b)", "0" * 40, 0, (design.file,)))
    person = replace(design.findings[0], outcome=Outcome.NEEDS_A_PERSON, severity=Severity.ADVICE, amendment=None)
    made["a person"] = Review((replace(design, findings=(person,)),)).returning_at(Severity.ADVICE)
    broken = dict(all_checks())
    broken["cable.run-length"] = replace(broken["cable.run-length"], judge=failing)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(importlib.import_module("coaxwright.rules.combine"), "all_checks", lambda: broken)
        made["crashed"] = reviewed(folder, {"i.coax.yaml": tern()})
    return made


@pytest.fixture(scope="module")
def logs(reviews: dict[str, Review]) -> dict[str, Log]:
    return {
        f"{name}, {profile}": json.loads(render(one, profile)) for name, one in reviews.items() for profile in PROFILES
    }


def runs(logs: dict[str, Log]) -> Iterator[tuple[str, Log]]:
    for name, log in logs.items():
        assert len(log["runs"]) == 1
        yield name, log["runs"][0]


def every(node: object, key: str) -> Iterator[Any]:
    """Each value under a key, at any depth."""
    if isinstance(node, dict):
        for own, value in node.items():
            if own == key:
                yield value
            yield from every(value, key)
    elif isinstance(node, list):
        for value in node:
            yield from every(value, key)


def regions(run: Log) -> Iterator[tuple[str, Log]]:
    """Each region of a run with the file it is in."""

    def walk(node: object) -> Iterator[tuple[str, Log]]:
        if isinstance(node, dict):
            if "artifactLocation" in node:
                name = unquote(node["artifactLocation"]["uri"])
                found = [node.get("region"), node.get("contextRegion")]
                found += [replacement["deletedRegion"] for replacement in node.get("replacements", ())]
                yield from ((name, region) for region in found if region is not None)
            for value in node.values():
                yield from walk(value)
        elif isinstance(node, list):
            for value in node:
                yield from walk(value)

    return walk(run)


def text_at(file: Path, region: Log) -> str:
    lines = re.split("\r\n|\n|\r", file.read_bytes().decode("utf-8").removeprefix(MARK))
    assert region["startLine"] == region["endLine"]
    line: str = lines[region["startLine"] - 1]
    return line[region["startColumn"] - 1 : region["endColumn"] - 1]


def test_the_schema_is_the_one_that_its_note_names() -> None:
    note = (DATA / "sarif-2.1.0-rtm.5.txt").read_text(encoding="utf-8")
    assert hashlib.sha256((DATA / "sarif-2.1.0-rtm.5.json").read_bytes()).hexdigest() in note
    jsonschema.Draft4Validator.check_schema(SCHEMA)
    assert SCHEMA["title"].endswith("Version 2.1.0-rtm.5 JSON Schema")


@pytest.mark.parametrize(
    ("value", "good"),
    [
        ("a%20b/c.yaml", True),
        ("a b", False),
        ("é", False),
        ("%2", False),
        ("a:b/c", True),
        ("1:b", False),
        ("x/1:b", True),
    ],
)
def test_the_format_check_tells_references_from_other_texts(value: str, good: bool) -> None:
    """RFC 3986, 4.2: the first segment of a relative reference holds no colon, or it would be a scheme."""
    assert is_uri_reference(value) is good


def test_every_log_is_valid(logs: dict[str, Log]) -> None:
    validator = jsonschema.Draft4Validator(SCHEMA, format_checker=FORMATS)
    mistakes = {
        name: [f"{error.json_path}: {error.message[:200]}" for error in validator.iter_errors(log)]
        for name, log in logs.items()
    }
    assert {name: found for name, found in mistakes.items() if found} == {}
    assert len(logs) == 34


def test_the_validator_would_see_a_mistake(logs: dict[str, Log]) -> None:
    validator = jsonschema.Draft4Validator(SCHEMA, format_checker=FORMATS)
    log = deepcopy(logs["returned, full"])
    log["runs"][0]["results"][0]["kind"] = "not met"
    log["runs"][0]["artifacts"][0]["location"]["uri"] = "a b"
    assert sorted(error.validator for error in validator.iter_errors(log)) == ["enum", "format"]


def test_columns_count_code_points(logs: dict[str, Log]) -> None:
    """3.14.27 columnKind."""
    assert {run["columnKind"] for _, run in runs(logs)} == {"unicodeCodePoints"}


def test_regions_begin_at_one_and_end_behind_their_start(logs: dict[str, Log]) -> None:
    """3.30.2: lines and columns count from 1; 3.30.8: the end column lies behind the last character."""
    count = 0
    for name, run in runs(logs):
        for _, region in regions(run):
            start, end = (region["startLine"], region["startColumn"]), (region["endLine"], region["endColumn"])
            assert (1, 1) <= start <= end, name
            count += 1
    assert count > 100


@pytest.mark.parametrize("name", ["returned", "awkward", "CR LF, with a byte-order mark"])
def test_snippets_are_the_text_of_their_regions(logs: dict[str, Log], folder: Path, name: str) -> None:
    """3.30.13 snippet; 3.30.2: a byte-order mark does not count."""
    snippets = 0
    for file, region in regions(logs[f"{name}, full"]["runs"][0]):
        if "snippet" in region:
            assert region["snippet"]["text"] == text_at(folder / file, region)
            snippets += 1
    assert snippets >= 22


def test_regions_after_letters_of_two_and_four_bytes_are_tight(logs: dict[str, Log]) -> None:
    """3.30.2, with columns in code points."""
    run = logs["awkward, full"]["runs"][0]
    texts = {
        result["ruleId"]: result["locations"][0]["physicalLocation"]["region"]["snippet"]["text"]
        for result in run["results"]
    }
    assert texts["plan.reference-known"] == "KITCHN"
    assert texts["bonding.conductor-size"] == "14 AWG copper"


def test_a_context_is_larger_than_its_region(logs: dict[str, Log]) -> None:
    """3.29.5: contextRegion is a proper superset of region (from memory)."""
    contexts = 0
    for _, run in runs(logs):
        for place in every(run, "physicalLocation"):
            if "contextRegion" in place:
                inner, outer = place["region"], place["contextRegion"]
                assert outer["startLine"] == inner["startLine"]
                assert outer["endLine"] == inner["endLine"]
                assert outer["startColumn"] <= inner["startColumn"]
                assert outer["endColumn"] >= inner["endColumn"]
                assert outer["endColumn"] - outer["startColumn"] > inner["endColumn"] - inner["startColumn"]
                contexts += 1
    assert contexts > 0


def test_rule_indexes_point_at_the_rule(logs: dict[str, Log]) -> None:
    """3.27.6 ruleIndex; 3.58.3 associatedRule, which has an id alone where no metadata is there (3.52.1)."""
    for name, run in runs(logs):
        rules = run["tool"]["driver"]["rules"]
        for result in run["results"]:
            assert rules[result["ruleIndex"]]["id"] == result["ruleId"], name
        for reference in every(run["invocations"], "associatedRule"):
            if "index" in reference:
                assert rules[reference["index"]]["id"] == reference["id"], name
    crashed = logs["crashed, full"]["runs"][0]["invocations"][0]["toolExecutionNotifications"]
    assert [note["associatedRule"]["id"] for note in crashed] == ["cable.run-length"]
    assert "index" in crashed[0]["associatedRule"]


def test_notification_indexes_point_at_the_descriptor(logs: dict[str, Log]) -> None:
    """3.58.2 descriptor; 3.52.3 the table of lookups."""
    seen = set()
    for _, run in runs(logs):
        for reference in every(run["invocations"], "descriptor"):
            assert run["tool"]["driver"]["notifications"][reference["index"]]["id"] == reference["id"]
            seen.add(reference["id"])
    compared = {"compared", "outstanding-findings", "left-out-findings"}
    assert seen == {"not-understood", "crash", "nothing-reviewed"} | compared


def test_references_to_clauses_resolve(logs: dict[str, Log]) -> None:
    """3.52.5 index and 3.54.2, by guid; 3.27.8 taxa of a result are among the relationships of its rule."""
    count = 0
    for name, run in runs(logs):
        taxonomies = {taxonomy["guid"]: taxonomy for taxonomy in run.get("taxonomies", ())}
        assert len(taxonomies) == len(run.get("taxonomies", ()))
        rules = run["tool"]["driver"]["rules"]
        targets = [[link["target"] for link in rule.get("relationships", ())] for rule in rules]
        taxa = [reference for result in run["results"] for reference in result.get("taxa", ())]
        for reference in [*taxa, *(target for links in targets for target in links)]:
            taxonomy = taxonomies[reference["toolComponent"]["guid"]]
            assert taxonomy["name"] == reference["toolComponent"]["name"]
            assert taxonomy["taxa"][reference["index"]]["id"] == reference["id"], name
            count += 1
        for result in run["results"]:
            assert all(reference in targets[result["ruleIndex"]] for reference in result.get("taxa", ()))
        supported = run["tool"]["driver"].get("supportedTaxonomies", [])
        assert [reference["guid"] for reference in supported] == list(taxonomies)
    assert count > 20


def test_a_taxonomy_holds_clauses_and_no_rules(logs: dict[str, Log]) -> None:
    """3.19.3: every taxonomy has taxa, and neither rules nor notifications."""
    taxonomies = [taxonomy for _, run in runs(logs) for taxonomy in run.get("taxonomies", ())]
    assert {taxonomy["name"] for taxonomy in taxonomies} >= {"NFPA 70", "ANSI/TIA-570"}
    for taxonomy in taxonomies:
        assert taxonomy["taxa"]
        assert not {"rules", "notifications"} & taxonomy.keys()


def test_only_failures_have_a_level(logs: dict[str, Log]) -> None:
    """3.27.9 kind, which is "fail" if it is absent; 3.27.10 level."""
    kinds = set()
    for _, run in runs(logs):
        for result in run["results"]:
            kind = result.get("kind", "fail")
            kinds.add(kind)
            assert ("level" in result) is (kind == "fail")
    assert kinds == {"fail", "open", "review"}


def test_locations_of_files_resolve(logs: dict[str, Log]) -> None:
    """3.4.2 and 3.4.5: with index and uri, both name one file; without artifacts, no index. 3.4.4 uriBaseId."""
    for name, run in runs(logs):
        artifacts = run.get("artifacts", [])
        for location in [*every(run, "artifactLocation"), *(artifact["location"] for artifact in artifacts)]:
            assert location["uriBaseId"] in run["originalUriBaseIds"]
            assert ("index" in location) is bool(artifacts), name
            if artifacts:
                assert artifacts[location["index"]]["location"]["uri"] == location["uri"]


def test_the_place_of_the_review_is_not_told(logs: dict[str, Log], folder: Path) -> None:
    """3.14.14: an absolute URI may be left out, for privacy and for the same bytes everywhere."""
    for name, log in logs.items():
        assert str(folder) not in json.dumps(log), name
        assert "uri" not in log["runs"][0]["originalUriBaseIds"]["%SRCROOT%"]


def test_names_with_other_characters_are_percent_encoded(logs: dict[str, Log], reviews: dict[str, Review]) -> None:
    """3.10.4: a URI holds no letter such as é; RFC 3986, 2.1 and 4.2: nor space, nor colon in a first segment."""
    for profile in PROFILES:
        locations = list(every(logs[f"awkward, {profile}"], "artifactLocation"))
        assert {location["uri"] for location in locations} == {
            "h%C3%A4user/a%20b%231%20%2520%3A%C3%A9%F0%9F%8F%A0.coax.yaml"
        }
        assert {unquote(location["uri"]) for location in locations} == {reviews["awkward"].designs[0].file}
        assert all(location["uri"].isascii() and ":" not in location["uri"] for location in locations)


def test_logical_locations_resolve(logs: dict[str, Log]) -> None:
    """3.33.3 index: what is said beside it equals the listed one; 3.33.5 a top-level full name equals the name;
    3.33.8 parentIndex."""
    kinds = set()
    for name, run in runs(logs):
        listed = run.get("logicalLocations", [])
        for used in every(run["results"], "logicalLocations"):
            for location in used:
                assert listed[location["index"]]["fullyQualifiedName"] == location["fullyQualifiedName"], name
        for location in listed:
            kinds.add(location["kind"])
            if "parentIndex" in location:
                parent = listed[location["parentIndex"]]
                assert location["fullyQualifiedName"].startswith(parent["fullyQualifiedName"] + "/")
            else:
                assert location["name"] == location["fullyQualifiedName"]
    assert kinds == {"design", "place", "cable", "device", "bonding conductor"}


def test_what_must_be_unique_is(logs: dict[str, Log]) -> None:
    """3.7.3; 3.28.2: the ids of the locations of a result differ."""
    for name, run in runs(logs):
        arrays = [*every(run, "rules"), *every(run, "taxa"), *every(run, "artifacts"), *every(run, "logicalLocations")]
        for array in [*arrays, *every(run, "relatedLocations"), *every(run, "relationships")]:
            texts = [json.dumps(element, sort_keys=True) for element in array]
            assert len(texts) == len(set(texts)), name
        for related in every(run, "relatedLocations"):
            ids = [location["id"] for location in related]
            assert len(ids) == len(set(ids))


def test_fingerprints_have_versioned_names(logs: dict[str, Log]) -> None:
    """3.27.17 and 3.5.4.2: the last part of a name is "v" and a number."""
    names = {key for _, run in runs(logs) for used in every(run, "partialFingerprints") for key in used}
    assert names == {"coaxwrightIdentity/v1", "coaxwrightProblem/v1"}
    assert all(re.fullmatch(r"[A-Za-z]+/v[0-9]+", name) for name in names)


def test_a_direct_producer_sets_no_final_fingerprint(logs: dict[str, Log]) -> None:
    """3.27.16 fingerprints and 3.27.4 correlationGuid are left to systems that manage results."""
    results = [result for _, run in runs(logs) for result in run["results"]]
    assert results
    assert not any({"fingerprints", "correlationGuid", "guid"} & result.keys() for result in results)


@pytest.mark.parametrize("profile", PROFILES)
def test_fingerprints_stay_when_lines_come_in_and_the_file_moves(tmp_path: Path, profile: Profile) -> None:
    """3.27.17, appendix B: no line, no path."""

    def fingerprints(one: Review) -> list[tuple[str, str]]:
        results = json.loads(render(one, profile))["runs"][0]["results"]
        return sorted((result["ruleId"], result["partialFingerprints"]["coaxwrightIdentity/v1"]) for result in results)

    before = fingerprints(reviewed(tmp_path, {"before.coax.yaml": tern()}))
    after = fingerprints(
        reviewed(
            tmp_path, {"moved/after.coax.yaml": "# one\n# two\n\n" + tern().replace("length: 26 ft", "length: 27 ft")}
        )
    )
    assert before == after
    assert len(set(before)) == len(before) >= 9


def test_braces_and_links_of_an_author_have_no_meaning(logs: dict[str, Log]) -> None:
    """3.11.5: braces are doubled; 3.11.6: what looks like a link would be one."""
    run = logs["braces and links, full"]["runs"][0]
    texts = [result["message"]["text"] for result in run["results"]]
    assert any(text.startswith("'[x] (y){{0}}' is not a device of this design.") for text in texts)
    assert any(result["properties"]["found"].startswith("'[x](y){0}' is not") for result in run["results"])
    note = logs["crashed, full"]["runs"][0]["invocations"][0]["toolExecutionNotifications"][0]
    assert "ZeroDivisionError: no such {{ thing }}." in note["message"]["text"]
    for name, run in runs(logs):
        for message in [*every(run, "message"), *every(run, "help"), *every(run, "shortDescription")]:
            if isinstance(message, dict):
                assert not re.search(r"(?<!\{)(?:\{\{)*\{(?!\{)", message["text"]), name
                assert "](" not in message["text"], name


def test_a_run_with_an_error_notification_has_failed(logs: dict[str, Log]) -> None:
    """3.20.21: an error among the notifications means that the run failed; 3.20.14; 3.20.9 exitCode."""
    status = {}
    for name, run in runs(logs):
        (invocation,) = run["invocations"]
        errors = any(note["level"] == "error" for note in invocation["toolExecutionNotifications"])
        assert invocation["executionSuccessful"] is not errors, name
        status[name.rpartition(",")[0]] = invocation["exitCode"]
    assert status == {
        "clear": 0,
        "returned": 1,
        "advice returns": 1,
        "concept": 1,
        "not understood": 2,
        "no file": 2,
        "awkward": 1,
        "braces and links": 1,
        "two rulesets": 1,
        "CR LF, with a byte-order mark": 1,
        "nothing": 3,
        "a person": 0,
        "crashed": 3,
        "outstanding": 0,
        "mended": 0,
        "left out": 0,
        "nothing changed": 0,
    }


def test_an_exception_is_told_only_of_crashes(logs: dict[str, Log]) -> None:
    """3.58.9 exception."""
    notes = [note for _, run in runs(logs) for note in run["invocations"][0]["toolExecutionNotifications"]]
    assert {note["descriptor"]["id"] for note in notes if "exception" in note} == {"crash"}
    kinds = [note["exception"]["kind"] for note in notes if "exception" in note]
    assert set(kinds) == {"ZeroDivisionError"}


def test_fixes_made_as_the_standard_says_mend_the_finding(logs: dict[str, Log], tmp_path: Path) -> None:
    """3.57.1 and 3.57.3: remove the region, then insert the content."""
    made = 0
    for result in logs["awkward, full"]["runs"][0]["results"]:
        for fix in result.get("fixes", ()):
            (change,) = fix["artifactChanges"]
            (replacement,) = change["replacements"]
            region = replacement["deletedRegion"]
            lines = in_another_alphabet().split("\n")
            line = lines[region["startLine"] - 1]
            new = replacement["insertedContent"]["text"]
            lines[region["startLine"] - 1] = line[: region["startColumn"] - 1] + new + line[region["endColumn"] - 1 :]
            mended = json.loads(render(reviewed(tmp_path, {"mended.coax.yaml": "\n".join(lines)})))["runs"][0][
                "results"
            ]
            remaining = [other["partialFingerprints"] for other in mended]
            assert result["partialFingerprints"] not in remaining
            made += 1
    assert made == 3


def test_no_times_are_told(logs: dict[str, Log]) -> None:
    """Appendix F: a deterministic log has none. The names of such properties end in Utc."""
    for name, log in logs.items():
        assert not re.search(r'Utc": ', json.dumps(log)), name
