"""A varied finding stays in sight in every form; one whose variance is not honoured says so."""

from __future__ import annotations

import json
from contextlib import chdir
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from coaxwright.reports import json_report, sarif, text
from coaxwright.reviewing import Review, review
from coaxwright.shipped import shipped

DESIGN = """\
coaxwright: 1
title: Turnstone Wharf 30 (invented)
basis: {rulesets: [us 2023], occupancy: multifamily dwelling}
places: {closet: {}, den: {}}
services: {net: {kind: cable broadband, from: DROP}}
devices:
  DROP: {kind: coax drop, place: closet, owner: operator}
  SP0:  {kind: splitter, ways: 4, place: closet}
cables:
  R-1: {from: DROP, to: SP0, type: series 6 quad, length: 3 m}
typical:
  flat:
    devices:
      SP: {kind: splitter, ways: 2, place: closet}
      TV: {kind: outlet, place: den, serves: [net]}
    cables:
      C-0: {from: SP0, to: SP, type: series 6 quad, length: 9 m}
      C-1: {from: SP.out-1, to: TV, type: series 6 quad, length: 9 m}
units:
  flat-1 to flat-4: {like: flat}
variances:
  - {rule: level.unused-terminated, item: flat/SP, reason: "capped {on} site", granted by: the owner, until: 2027}
"""
RULE = "level.unused-terminated"
WORDS = "capped {on} site; granted by the owner, until 2027"


def reviewed(folder: Path, honoured: bool) -> Review:
    (folder / "wharf.coax.yaml").write_text(DESIGN, encoding="utf-8")
    with chdir(folder):
        return review(["wharf.coax.yaml"], as_of=date(2026, 7, 1), honours_variances=honoured, with_amendments=True)


@pytest.fixture
def taken(tmp_path: Path) -> Review:
    return reviewed(tmp_path, True)


@pytest.fixture
def shown(tmp_path: Path) -> Review:
    return reviewed(tmp_path, False)


def one_line(told: str) -> str:
    return " ".join(told.split())


def test_the_text_tells_it_apart_from_what_is_to_be_corrected(taken: Review) -> None:
    told = text.render(taken, 100)
    items, _, section = told.partition("Under variance: found, and granted as exceptions\n")
    assert RULE not in items
    assert "variances as of 2026-07-01\n" in items
    assert f"{RULE}, flat-1/SP (closet), also in flat-2 to flat-4, wharf.coax.yaml:14:7" in one_line(section)
    assert f"variance {WORDS} (wharf.coax.yaml:22:5)" in one_line(section)
    assert one_line(section).count(" 1 under variance; ") == 1
    assert all(len(line) <= 100 for line in told.splitlines())


def test_the_text_says_what_is_not_honoured(shown: Review) -> None:
    told = text.render(shown, 100)
    assert "Varied:" not in told
    assert " varied" not in told
    note = f"note A variance is recorded, and not honoured in this review: {WORDS}"
    assert note in one_line(told)
    assert f"DEFICIENCY {RULE} flat-1/SP" in one_line(told)


@pytest.mark.parametrize("honoured", [True, False])
def test_json_keeps_to_its_schema(tmp_path: Path, honoured: bool) -> None:
    told: Any = json.loads(json_report.render(reviewed(tmp_path, honoured)))
    schema = json.loads((shipped("schemas") / "review-1.schema.json").read_text(encoding="utf-8"))
    assert [error.message for error in Draft202012Validator(schema).iter_errors(told)] == []
    (finding,) = (one for one in told["designs"][0]["findings"] if one["rule"] == RULE)
    assert (finding["varied"]["honoured"], finding["returns"], told["totals"]["varied"]) == (
        honoured,
        not honoured,
        int(honoured),
    )
    finding["returns"] = True
    finding["varied"]["honoured"] = True
    assert [error.json_path for error in Draft202012Validator(schema).iter_errors(told)] != []


def test_totals_count_a_finding_once(taken: Review) -> None:
    totals = json.loads(json_report.render(taken))["totals"]
    counted = sum(totals["not met"].values()) + totals["cannot be judged"] + totals["needs a person"]
    assert totals["findings"] == counted + totals["varied"]


# SARIF 2.1.0, 3.27.23: the lists of suppressions of a run's results are all there, or none is; 3.35.3: the status.
@pytest.mark.parametrize(("honoured", "status"), [(True, "accepted"), (False, "rejected")])
def test_sarif_suppresses_or_rejects(tmp_path: Path, honoured: bool, status: str) -> None:
    (run,) = json.loads(sarif.render(reviewed(tmp_path, honoured)))["runs"]
    lists = {result["ruleId"]: result["suppressions"] for result in run["results"]}
    ((one,), *others) = sorted(lists.values(), key=len, reverse=True)
    assert others == [[]] * (len(lists) - 1)
    assert lists[RULE] == [one]
    assert (one["kind"], one["status"], one["justification"]) == ("inSource", status, WORDS)
    assert one["location"]["physicalLocation"]["region"]["startLine"] == 22


def test_a_code_host_gets_what_is_not_honoured(tmp_path: Path) -> None:
    for honoured in (True, False):
        (run,) = json.loads(sarif.render(reviewed(tmp_path, honoured), "code host"))["runs"]
        notes = [note["descriptor"]["id"] for note in run["invocations"][0]["toolExecutionNotifications"]]
        assert (RULE in {result["ruleId"] for result in run["results"]}) is not honoured
        assert ("varied-findings" in notes) is honoured
        assert not any("suppressions" in result for result in run["results"])
