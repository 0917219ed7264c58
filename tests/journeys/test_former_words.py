"""Files in former words give the review of those in the present words, and `renew` rewrites them."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest

DESIGN = """\
coaxwright: 1
title: Knot House (invented)
basis: {rulesets: [us 2023, firm.coax-ruleset.yaml], catalogues: [stock.coax-catalogue.yaml]}
draws in: [roof.coax-part.yaml]      # the antenna
buildings: {house: {entry: wall, occupancy: one-family dwelling}}
places:
  wall: {building: house, exposure: outdoors}
  den: {building: house}
services: {broadband: {kind: cable broadband, from: DROP}}
devices:
  DROP: {kind: service drop, place: wall}
  GB1: {kind: ground block, place: wall}
  EQ: {kind: equaliser, value: 3 dB, place: den}
  POE: {kind: filter, variant: in-home data, place: den}
  TV: {kind: outlet, place: den, serves: [broadband]}
cables:
  C-1: {from: DROP, to: GB1, type: reel 7, length: 9 ft, colour: black}
  C-2:
    from: GB1
    to: EQ
    type: series 6 quad outdoor
    route: [wall: 5 ft, den: {length: 20 ft, tightest bend: 1 in}]   # tight
  C-3: {from: EQ, to: POE, type: series 6, length: 2 ft}
  C-4: {from: POE, to: TV, type: series 6, length: 12 ft}
raceways:
  R-1: {kind: rigid plastic conduit, trade size: 3/4}
bonding:
  IBT: {kind: intersystem termination, place: wall, electrode: GES}
  GES: {kind: building electrode system, place: wall}
  B-1: {from: GB1, to: IBT, conductor: 14 AWG aluminium, length: 30 ft}
"""
PART = """\
coaxwright part: 1
places: {roof: {building: house, exposure: rooftop}}
devices:
  ANT: {kind: antenna, place: roof, mast: {on: power service mast, height: 6 ft}}
bonding:
  ROD: {kind: ground rod, place: wall, length: 7 ft, metal: galvanised steel}
"""
RULESET = """\
ruleset: firm
edition: 1
title: The firm (invented)
documents: {practice: {name: the firm's practice, confidence: common practice}}
set:
  bonding.conductor-length:
    words:
      long: {is: "{thing} is bonded far away", should be: near, remedy: move it}
"""
CATALOGUE = """\
coaxwright catalogue: 1
classes:
  reel 7: {like: series 7, source: its maker, centres: {copper: {size: 16 AWG}}, defaults: {centre: copper}}
devices:
  our drop: {like: service drop, source: its maker}
"""
FILES = {
    "knot.coax.yaml": DESIGN,
    "roof.coax-part.yaml": PART,
    "firm.coax-ruleset.yaml": RULESET,
    "stock.coax-catalogue.yaml": CATALOGUE,
}


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    folder = tmp_path / "plan"
    folder.mkdir()
    for name, text in FILES.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def reviewed(coax: Any, plan: Path, *options: str) -> Any:
    done = coax("review", "knot.coax.yaml", "--as", "json", "--as-of", "2026-12-01", *options, cwd=plan)
    assert done.returncode == 1, (done.stdout, done.stderr)
    return json.loads(done.stdout)


def without_text(told: Any) -> Any:
    """A review without where in the text things stand, which differs with the length of words."""
    if isinstance(told, dict):
        return {key: without_text(value) for key, value in told.items() if key not in ("place", "start", "end")}
    return [without_text(value) for value in told] if isinstance(told, list) else told


def test_the_review_is_the_same_before_and_after(coax: Any, plan: Path) -> None:
    before = reviewed(coax, plan)
    (design,) = before["designs"]
    assert design["problems"] == []
    assert "GB1 is bonded far away" in [finding["found"] for finding in design["findings"]]
    done = coax("renew", "knot.coax.yaml", cwd=plan)
    assert (done.returncode, done.stderr) == (0, "")
    after = reviewed(coax, plan)
    fingerprints = [[finding["fingerprint"] for finding in told["designs"][0]["findings"]] for told in (before, after)]
    assert fingerprints[0] == fingerprints[1]
    assert without_text(after) == without_text(before)


def test_renew_rewrites_the_words_and_nothing_else(coax: Any, plan: Path) -> None:
    done = coax("renew", "knot.coax.yaml", cwd=plan)
    assert (done.returncode, done.stderr) == (0, "")
    assert "knot.coax.yaml:4:1: 'draws in' is now 'includes'\n" in done.stdout
    assert "stock.coax-catalogue.yaml:3:47: 'centres' is now 'centers'\n" in done.stdout
    assert "firm.coax-ruleset.yaml:8:14: 'is' is now 'found'\n" in done.stdout
    wanted = DESIGN
    for old, new in (
        ("draws in:", "includes:"),
        ("kind: service drop", "kind: coax drop"),
        ("kind: equaliser", "kind: equalizer"),
        ("variant: in-home data", "variant: point-of-entry"),
        ("colour:", "color:"),
        ("tightest bend:", "bend radius:"),
        ("rigid plastic conduit", "rigid PVC conduit"),
        ("intersystem termination", "intersystem bonding termination"),
        ("building electrode system", "grounding electrode system"),
    ):
        wanted = wanted.replace(old, new)
    assert (plan / "knot.coax.yaml").read_text(encoding="utf-8") == wanted
    assert "on: service mast, height" in (plan / "roof.coax-part.yaml").read_text(encoding="utf-8")
    assert "{found:" in (plan / "firm.coax-ruleset.yaml").read_text(encoding="utf-8")
    assert "like: coax drop" in (plan / "stock.coax-catalogue.yaml").read_text(encoding="utf-8")
    again = coax("renew", "knot.coax.yaml", cwd=plan)
    assert (again.returncode, again.stdout) == (0, "knot.coax.yaml is of format 1 already\n")


def test_a_design_that_would_not_be_understood_stays(coax: Any, plan: Path) -> None:
    file = plan / "knot.coax.yaml"
    file.write_text(DESIGN.replace("kind: outlet", "kind: outlt"), encoding="utf-8")
    done = coax("renew", "knot.coax.yaml", cwd=plan)
    assert done.returncode == 2
    assert "knot.coax.yaml:15:14: 'outlt' is not a known kind" in done.stderr
    assert "draws in" in file.read_text(encoding="utf-8")


def test_into_is_for_a_design_of_one_file(coax: Any, plan: Path) -> None:
    done = coax("renew", "knot.coax.yaml", "--into", "new.coax.yaml", cwd=plan)
    assert done.returncode == 2
    assert "other files of knot.coax.yaml have to be renewed too" in done.stderr


def test_an_earlier_punch_list_and_variance_still_match(coax: Any, plan: Path) -> None:
    assert coax("punch-list", "l.coax-punch-list.yaml", "knot.coax.yaml", cwd=plan).returncode == 0
    assert coax("renew", "knot.coax.yaml", cwd=plan).returncode == 0
    told = reviewed(coax, plan, "--returns-at", "advice")
    done = coax("review", "knot.coax.yaml", "--punch-list", "l.coax-punch-list.yaml", cwd=plan)
    assert told["designs"][0]["findings"]
    assert done.returncode == 0, done.stdout


def test_nothing_is_told_of_a_former_word(coax: Any, plan: Path) -> None:
    told = coax("review", "knot.coax.yaml", cwd=plan).stdout
    for word in ("former", "deprecated", "renew"):
        assert word not in told


def test_a_kept_review_is_found_again(coax: Any, plan: Path, tmp_path: Path) -> None:
    shutil.rmtree(tmp_path / "kept", ignore_errors=True)
    first, again = (
        coax("review", "knot.coax.yaml", cwd=plan, COAXWRIGHT_CACHE=str(tmp_path / "kept")).stdout for _ in range(2)
    )
    assert first == again
