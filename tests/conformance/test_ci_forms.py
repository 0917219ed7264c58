"""The forms that CI systems read: JUnit XML, code-quality JSON, workflow commands. Each is read by its reader's rules.

Sources: ``data/junit.txt`` for the first two; for the third the runner that takes commands out of a log:
actions/runner, src/Runner.Common/ActionCommand.cs (``TryParseV2``), of which ``parsed`` below follows each step.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from lxml import etree

from coaxwright.findings import Finding, Varied
from coaxwright.reports import annotations, code_quality, junit
from coaxwright.reviewing import WHOLE_DESIGN, Crash, DesignReview, Review, review
from coaxwright.rules import Severity

TOP = Path(__file__).parents[2]
DATA = Path(__file__).parent / "data"
CASES = etree.XMLSchema(etree.parse(DATA / "junit.xsd"))
QUALITY = jsonschema.Draft202012Validator(json.loads((DATA / "code_quality.schema.json").read_text(encoding="utf-8")))
SITES = sorted((TOP / "examples").rglob("*.coax.yaml"))
AWKWARD = (
    "<b>&amp;&lt;\x1b[2J]]>\x00\x08\x0c\x7f\x85\ufffe\uffff\ud800",
    "100 %, 50%0A: a,b=c\r\n::error file=x::y\r##[error]z",
    "\N{RIGHT-TO-LEFT OVERRIDE}cba\N{LINE SEPARATOR}\N{POP DIRECTIONAL FORMATTING}\tx  y",
    "\"quoted\" 'twice' \\u0041 {0} é \N{HOUSE BUILDING}",
)


def spoilt(design: DesignReview, text: str) -> DesignReview:
    """A design with a text wherever an author's may be."""

    def of(finding: Finding) -> Finding:
        return replace(
            finding,
            subject=replace(finding.subject, tag=text, where=text),
            place=replace(finding.place, file=f"a {text}.yaml"),
            found=text,
            required=text,
            remedy=text,
            remarks=(text,),
            varied=Varied(text, text, "", finding.place),
        )

    return replace(
        design,
        file=f"a {text}.yaml",
        title=text,
        job=text,
        findings=tuple(map(of, design.findings)),
        crashes=(Crash("cable.run-length", text, text), Crash(WHOLE_DESIGN, "", text)),
    )


@pytest.fixture(scope="module")
def reviews(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Review]:
    """The example sites as they are, files that are not understood, hostile texts, and nothing."""
    folder = tmp_path_factory.mktemp("plans")
    (folder / "a.coax.yaml").write_text("coaxwright: 1\ntitle: [\n", encoding="utf-8")
    (folder / "b.coax.yaml").write_text("coaxwright: 1\ncolor: red\nclour: red\n", encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(TOP)
        sites = review([path.relative_to(TOP) for path in SITES])
        patch.chdir(folder)
        broken = review(["."])
        none = review(["missing.coax.yaml"])
    first = next(design for design in sites.designs if len(design.findings) > 9)
    made = {f"awkward {number}": Review((spoilt(first, text),)) for number, text in enumerate(AWKWARD)}
    made |= {"sites": sites, "advice returns": sites.returning_at(Severity.ADVICE)}
    return {**made, "broken": broken, "no file": none, "nothing": Review(())}


NAMES = [*(f"awkward {number}" for number in range(len(AWKWARD))), "sites", "advice returns", "broken", "no file"]


def read_strictly(text: str) -> Any:
    """A document read without any mending or guessing; lxml mends nothing unless asked to."""
    parser = etree.XMLParser(recover=False, resolve_entities=False, no_network=True, load_dtd=False)
    return etree.fromstring(text.encode("utf-8"), parser)


@pytest.mark.parametrize("name", [*NAMES, "nothing"])
def test_junit_keeps_to_the_schema(name: str, reviews: dict[str, Review]) -> None:
    root = read_strictly(junit.render(reviews[name]))
    assert CASES.validate(root), str(CASES.error_log)


@pytest.mark.parametrize("name", [*NAMES, "nothing"])
def test_the_totals_of_junit_are_what_a_reader_counts(name: str, reviews: dict[str, Review]) -> None:
    root = read_strictly(junit.render(reviews[name]))
    for group in [root, *root.iter("testsuite")]:
        assert int(group.get("tests")) == len(list(group.iter("testcase")))
        for total, mark in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
            if total in group.attrib:
                assert int(group.get(total)) == len(list(group.iter(mark))), (group.get("name"), total)


@pytest.mark.parametrize("name", NAMES)
def test_a_server_comes_to_the_result_of_the_review(name: str, reviews: dict[str, Review]) -> None:
    """A server fails a build that has a failure or an error. The example sites as corrected are clear."""
    root = read_strictly(junit.render(reviews[name]))
    results = {
        suite.get("name"): any(len(list(suite.iter(mark))) for mark in ("failure", "error"))
        for suite in root.iter("testsuite")
    }
    assert list(results.values()) == [design.result != "clear" for design in reviews[name].designs]
    if name == "sites":
        assert set(results.values()) == {True, False}


BROKEN = {
    "two marks": ("<failure ", '<skipped type="x" /><failure '),
    "the name of another": ('name="bonding.conductor-size"', 'name="bonding.conductor-present"'),
    "no class": (' classname="examples', ' class="examples'),
    "a number in words": ('errors="0"', 'errors="none"'),
    "an element of our own": ("<system-err />", "<system-err /><findings />"),
    "no suite": ("testsuite ", "suite "),
}


@pytest.mark.parametrize("fault", BROKEN)
def test_the_schema_refuses(fault: str, reviews: dict[str, Review]) -> None:
    before, after = BROKEN[fault]
    text = junit.render(reviews["sites"])
    assert before in text
    changed = text.replace(before, after)
    if fault == "no suite":
        changed = changed.replace("</testsuite>", "</suite>")
    assert not CASES.validate(read_strictly(changed))


@pytest.mark.parametrize("name", [*NAMES, "nothing"])
def test_code_quality_keeps_to_the_documentation(name: str, reviews: dict[str, Review]) -> None:
    text = code_quality.render(reviews[name])
    assert text.startswith("["), "no byte-order mark"
    found = json.loads(text.encode("utf-8").decode("utf-8"))
    assert [error.message for error in QUALITY.iter_errors(found)] == []
    assert len({item["fingerprint"] for item in found}) == len(found)
    expected = sum(len(one.findings) + len(one.problems) + len(one.crashes) for one in reviews[name].designs)
    assert len(found) == expected


@pytest.mark.parametrize(
    "changed",
    [
        {"severity": "high"},
        {"fingerprint": ""},
        {"description": None},
        {"location": {"path": "/a.yaml", "lines": {"begin": 1}}},
        {"location": {"path": "a.yaml", "lines": {"begin": 0}}},
        {"location": {"path": "a.yaml"}},
    ],
    ids=str,
)
def test_the_documentation_refuses(changed: dict[str, Any], reviews: dict[str, Review]) -> None:
    first, *_ = json.loads(code_quality.render(reviews["sites"]))
    assert QUALITY.is_valid([first])
    assert not QUALITY.is_valid([{**first, **changed}])
    assert not QUALITY.is_valid(first)


@dataclass
class Command:
    """What the runner makes of a line."""

    name: str
    properties: dict[str, str]
    data: str


REGISTERED = {"error", "warning", "notice", "debug", "group", "endgroup", "add-mask", "stop-commands", "add-matcher"}
"""Of the commands that the runner knows; any of them in a title would be a way in."""


def parsed(line: str) -> Command | None:
    line = line.lstrip()
    if not line.startswith("::"):
        return None
    end = line.find("::", 2)
    if end < 0:
        return None
    name, _, listed = line[2:end].partition(" ")
    if name not in REGISTERED:
        return None
    properties = {}
    for part in filter(None, listed.strip().split(",")):
        key, _, value = part.partition("=")
        if value:
            properties[key] = unescaped(value, {"%0D": "\r", "%0A": "\n", "%3A": ":", "%2C": ",", "%25": "%"})
    return Command(name, properties, unescaped(line[end + 2 :], {"%0D": "\r", "%0A": "\n", "%25": "%"}))


def unescaped(text: str, escapes: dict[str, str]) -> str:
    for escape, meant in escapes.items():
        text = text.replace(escape, meant)
    return text


def commands(text: str) -> Iterator[Command]:
    for line in re.split("\r\n|\r|\n", text):
        found = parsed(line)
        if found:
            yield found


@pytest.mark.parametrize("name", NAMES)
def test_the_runner_takes_out_each_finding_and_nothing_else(name: str, reviews: dict[str, Review]) -> None:
    designs = reviews[name].designs
    found = list(commands(annotations.render(reviews[name])))
    assert len(found) == sum(len(one.findings) + len(one.problems) + len(one.crashes) for one in designs)
    assert {command.name for command in found} <= {"error", "warning", "notice"}
    for command in found:
        assert set(command.properties) <= {"file", "line", "col", "title"}
        assert {"file", "title"} <= set(command.properties)
        assert all(int(command.properties.get(number, 1)) >= 1 for number in ("line", "col"))


def test_the_runner_reads_what_was_meant(reviews: dict[str, Review]) -> None:
    found = {
        (
            at["file"],
            int(at["line"]),
            int(at["col"]),
            at["title"].split(": ")[1].split()[0],
            command.data.partition("\n")[0],
        )
        for command in commands(annotations.render(reviews["sites"]))
        for at in [command.properties]
    }
    expected = {
        (one.place.file, one.place.span.start.line, one.place.span.start.column, one.rule, one.found.rstrip(".") + ".")
        for one in reviews["sites"].findings
    }
    assert found == expected


def test_awkward_texts_come_through_as_one_line_each(reviews: dict[str, Review]) -> None:
    command = next(one for one in commands(annotations.render(reviews["awkward 1"])) if one.name == "notice")
    said = "100 %, 50%0A: a,b=c ::error file=x::y ##[error]z"
    assert command.properties["file"] == f"a {said}.yaml"
    assert command.properties["title"].endswith(f" {said}")
    assert command.data.splitlines()[0] == f"{said}."
