"""An exception from the drawing office to the inspector: it stays in sight in every form, and it ends."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

GRANTED = """\
variances:
  - rule: plan.length-stated
    item: C-1
    reason: the loft is opened in spring
    granted by: the site engineer
    until: 2026-06-30
"""
DESIGN = """\
coaxwright: 1
title: Turnstone Wharf 20 (invented)
basis: {rulesets: [trade 1]}
places: {closet: {}, den: {}}
devices:
  SP1: {kind: splitter, ways: 2, place: closet}
  TV1: {kind: outlet, place: den}
  TV2: {kind: outlet, place: den}
cables:
  C-1: {from: SP1, to: TV1, type: series 6, length: 25 m, route: [closet: 3 m, den: 9 m]}
  C-2: {from: SP1, to: TV2, type: series 6, length: 9 m}
"""


@pytest.fixture
def wharf(site: Path) -> Path:
    (site / "plain.coax.yaml").write_text(DESIGN, encoding="utf-8")
    path = site / "wharf.coax.yaml"
    path.write_text(DESIGN + GRANTED, encoding="utf-8")
    return path


def test_it_holds_through_its_last_day_and_no_longer(coax, wharf: Path) -> None:
    assert coax("review", "plain.coax.yaml").returncode == 1
    holds = coax("review", wharf.name, "--as-of", "2026-06-30")
    assert (holds.returncode, holds.stderr) == (0, "")
    assert "variances as of 2026-06-30" in holds.stdout
    assert "CLEAR: 1 under variance;" in holds.stdout
    assert "plan.length-stated, C-1" in holds.stdout
    assert "the loft is opened in spring; granted by the site engineer, until 2026-06-30" in holds.stdout
    ended = coax("review", wharf.name, "--as-of", "2026-07-01")
    assert ended.returncode == 1
    assert "varied" not in ended.stdout
    assert "ended with 2026-06-30" in ended.stdout


def test_today_is_the_day_where_none_is_named(coax, wharf: Path) -> None:
    wharf.write_text(DESIGN + GRANTED.replace("2026-06-30", "2019"), encoding="utf-8")
    assert coax("review", wharf.name).returncode == 1
    wharf.write_text(DESIGN + GRANTED.replace("2026-06-30", "2099"), encoding="utf-8")
    assert coax("review", wharf.name).returncode == 0


@pytest.mark.parametrize("day", ["tomorrow", "2026-6-1", "2026-02-30", "20260601", "2026-W10-1", ""])
def test_a_day_that_is_none_is_refused(coax, wharf: Path, day: str) -> None:
    told = coax("review", wharf.name, "--as-of", day)
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr == f"coaxwright: --as-of takes a day such as 2026-05-31, not {day!r}\n"


def test_programs_see_it_as_json(coax, wharf: Path) -> None:
    told = json.loads(coax("review", wharf.name, "--as", "json", "--as-of", "2026-01-31").stdout)
    (design,) = told["designs"]
    (finding,) = design["findings"]
    assert (told["result"], told["totals"]["varied"], told["totals"]["findings"]) == ("clear", 1, 1)
    assert set(told["totals"]["not met"].values()) == {0}
    assert design["as of"] == "2026-01-31"
    assert finding["returns"] is False
    place = finding["varied"].pop("place")
    assert finding["varied"] == {
        "reason": "the loft is opened in spring",
        "granted by": "the site engineer",
        "until": "2026-06-30",
        "honoured": True,
    }
    assert (place["file"], place["line"]) == (wharf.name, DESIGN.count("\n") + 2)


def test_an_audit_sees_it_as_a_suppression_and_a_code_host_is_told_of_it(coax, wharf: Path) -> None:
    (run,) = json.loads(coax("review", ".", "--as", "sarif", "--as-of", "2026-01-31").stdout)["runs"]
    suppressed = [result for result in run["results"] if result["suppressions"]]
    assert len(run["results"]) > 1
    ((one,),) = [result["suppressions"] for result in suppressed]
    assert (one["kind"], one["status"]) == ("inSource", "accepted")
    assert one["justification"] == "the loft is opened in spring; granted by the site engineer, until 2026-06-30"
    assert one["location"]["physicalLocation"]["region"]["startLine"] == DESIGN.count("\n") + 2
    (host,) = json.loads(coax("review", wharf.name, "--as", "sarif-code-host", "--as-of", "2026-01-31").stdout)["runs"]
    (note,) = host["invocations"][0]["toolExecutionNotifications"]
    assert host["results"] == []
    assert (note["descriptor"]["id"], note["level"]) == ("varied-findings", "note")


def test_a_mistake_in_a_part_is_placed_in_the_part(coax, wharf: Path, site: Path) -> None:
    (site / "den.coax-part.yaml").write_text("coaxwright part: 1\ndevices:\n  TV9: {kind: outlt}\n", encoding="utf-8")
    wharf.write_text(DESIGN.replace("places:", "includes: [den.coax-part.yaml]\nplaces:"), encoding="utf-8")
    told = coax("review", wharf.name, "--as", "json")
    assert told.returncode == 2
    (problem,) = json.loads(told.stdout)["designs"][0]["problems"]
    assert (problem["file"], problem["line"]) == ("den.coax-part.yaml", 3)
