"""A firm's catalogue and rulesets, which a design names and which stand beside it: used, and told at their place."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

STOCK = """coaxwright catalogue: 1
classes:
  van 6:
    like: series 6
    source: data sheet of the reel
    attenuation: {table: {5 MHz: 0.5 dB/100 ft, 1002 MHz: 5 dB/100 ft}}
devices:
  quiet splitter:
    like: 2-way splitter
    paths: [{from: in, to: out, band: 5 MHz to 1218 MHz, nominal: 3.4 dB}]
"""
HOUSE = """ruleset: house
edition: 1
title: House rules (invented)
builds on: [trade 1]
documents: {house: {name: the house rules}}
off:
  jacket.outdoor-rated: {reason: asked for at the shop}
"""
DESIGN = """coaxwright: 1
title: Whimbrel Cottage (invented)
basis: {rulesets: [firm/house.coax-ruleset.yaml], catalogues: [firm/van.coax-catalogue.yaml]}
services: {net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz, level: [5 dBmV at 1002 MHz]}}}
devices:
  DROP: {kind: service drop}
  SP: {kind: splitter, ways: 2, model: quiet splitter}
  TV: {kind: outlet, serves: [net]}
cables:
  C-1: {from: DROP, to: SP, type: van 6, length: 100 ft}
  C-2: {from: SP, to: TV, type: series 6, length: 10 ft}
"""


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = tmp_path / "plans"
    (folder / "firm").mkdir(parents=True)
    (folder / "a.coax.yaml").write_text(DESIGN, encoding="utf-8")
    (folder / "firm" / "van.coax-catalogue.yaml").write_text(STOCK, encoding="utf-8")
    (folder / "firm" / "house.coax-ruleset.yaml").write_text(HOUSE, encoding="utf-8")
    return folder


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def told(coax, site: Path, *paths: str) -> tuple[int, list[str]]:
    done = coax("review", *(paths or ("a.coax.yaml",)), "--as", "json", cwd=site)
    assert done.stderr == ""
    problems = [problem for design in json.loads(done.stdout)["designs"] for problem in design["problems"]]
    return done.returncode, [problem["message"] for problem in problems]


def test_levels_are_computed_with_the_figures_of_the_firm(coax, site: Path) -> None:
    done = coax("levels", "a.coax.yaml", "--as", "json", cwd=site)
    levels = json.loads(done.stdout)
    (outlet,) = levels["services"][0]["outlets"]
    losses = {step["what"]: step["losses_db"][-1] for step in outlet["chain"]}
    # at a frequency of the table the loss is the table's: 5 dB per 100 ft, and 3.4 dB as the data sheet says
    assert losses["C-1"] == pytest.approx(5.0, abs=5e-5)
    assert losses["SP"] == pytest.approx(3.4)
    assert [(own["name"], own["file"]) for own in levels["own_figures"]] == [
        ("van 6", "firm/van.coax-catalogue.yaml"),
        ("quiet splitter", "firm/van.coax-catalogue.yaml"),
    ]


def test_the_rules_are_those_of_the_firm(coax, site: Path) -> None:
    done = coax("review", "a.coax.yaml", "--as", "json", cwd=site)
    findings = json.loads(done.stdout)["designs"][0]["findings"]
    assert not [finding for finding in findings if finding["rule"] == "jacket.outdoor-rated"]
    (cited,) = [coax("cite", "protection.antenna-end", "--for", "a.coax.yaml", cwd=site)]
    assert cited.returncode == 0
    assert "protection.antenna-end" in cited.stdout


def test_naming_a_firm_file_reviews_the_designs_that_use_it(coax, site: Path) -> None:
    (site / "b.coax.yaml").write_text(DESIGN.replace("firm/", "gone/"), encoding="utf-8")
    for name in ("firm/house.coax-ruleset.yaml", "firm/van.coax-catalogue.yaml"):
        done = coax("review", name, "--as", "json", cwd=site)
        assert [design["file"] for design in json.loads(done.stdout)["designs"]] == ["a.coax.yaml"]


def test_a_firm_file_that_no_design_names(coax, site: Path) -> None:
    (site / "firm" / "old.coax-catalogue.yaml").write_text(STOCK, encoding="utf-8")
    done = coax("review", "firm/old.coax-catalogue.yaml", cwd=site)
    assert done.returncode == 2
    assert "no design below the working folder names this file" in " ".join((done.stdout + done.stderr).split())


@pytest.mark.parametrize(
    ("file", "old", "new", "message"),
    [
        (
            "a.coax.yaml",
            "firm/van.coax-catalogue.yaml",
            "firm/car.coax-catalogue.yaml",
            "there is no file 'firm/car.coax-catalogue.yaml'; looked for it at firm/car.coax-catalogue.yaml",
        ),
        (
            "a.coax.yaml",
            "firm/van.coax-catalogue.yaml",
            "../van.coax-catalogue.yaml",
            "'../van.coax-catalogue.yaml' lies outside the folder under review; keep the files of a design in one "
            "folder tree",
        ),
        (
            "a.coax.yaml",
            "firm/house.coax-ruleset.yaml",
            "/etc/house.coax-ruleset.yaml",
            "'/etc/house.coax-ruleset.yaml' is a path of one machine; write the path relative to this file",
        ),
        (
            "firm/van.coax-catalogue.yaml",
            "like: series 6",
            "like: series 60",
            "there is no 'series 60'; did you mean 'series 6'?",
        ),
        (
            "firm/van.coax-catalogue.yaml",
            "coaxwright catalogue: 1\n",
            "",
            "this is not a catalogue of this format; a catalogue begins with 'coaxwright catalogue: 1'",
        ),
        (
            "firm/house.coax-ruleset.yaml",
            "builds on:",
            "build on:",
            "the file has no field 'build on'; did you mean 'builds on'?",
        ),
        (
            "firm/house.coax-ruleset.yaml",
            "reason: asked",
            "why: asked",
            "jacket.outdoor-rated has no 'reason'; write 'reason: …'",
        ),
        (
            "firm/house.coax-ruleset.yaml",
            "ruleset: house",
            "ruleset: us",
            "there is a ruleset 'us' already; give this one another name",
        ),
        ("a.coax.yaml", "model: quiet splitter", "model: van 6", None),
        (
            "a.coax.yaml",
            "ways: 2, model",
            "ways: 3, model",
            "'quiet splitter' is a splitter with ways: 2, and the device is said to be a splitter with ways: 3; "
            "make the two agree",
        ),
    ],
)  # fmt: skip
def test_one_clear_error_at_its_place(coax, site: Path, file: str, old: str, new: str, message: str | None) -> None:
    edit(site / file, old, new)
    status, messages = told(coax, site)
    if message is None:  # a name that nothing has is a finding, as any other reference is
        assert (status, messages) == (1, [])
        return
    assert status == 2
    assert message in messages
    lines = (site / file).read_text(encoding="utf-8").split("\n")
    done = coax("review", "a.coax.yaml", cwd=site)
    at = next(words for words in done.stdout.splitlines() if words.startswith(f"{file}:"))
    number = int(at.split(":")[1])
    assert 1 <= number <= len(lines)
    if new:
        assert new.split("\n")[0] in lines[number - 1]


def test_a_link_that_leads_out_of_the_tree_is_not_followed(coax, site: Path) -> None:
    outside = site.parent / "van.coax-catalogue.yaml"
    outside.write_text(STOCK, encoding="utf-8")
    inside = site / "firm" / "van.coax-catalogue.yaml"
    inside.unlink()
    inside.symlink_to(outside)
    status, messages = told(coax, site)
    assert status == 2
    assert messages == [
        "'firm/van.coax-catalogue.yaml' lies outside the folder under review; keep the files of a design in one folder "
        "tree"
    ]


def test_a_design_of_its_own_figures_names_itself(coax, site: Path) -> None:
    own = (
        STOCK.replace("coaxwright catalogue: 1\n", "catalogue:\n")
        .replace("\n", "\n  ")
        .replace("  catalogue:", "catalogue:")
    )
    text = DESIGN.replace(", catalogues: [firm/van.coax-catalogue.yaml]", "") + own.rstrip(" ")
    (site / "a.coax.yaml").write_text(text, encoding="utf-8")
    shown = json.loads(coax("show", "a.coax.yaml", "--as", "json", cwd=site).stdout)
    assert [(one["name"], one["file"], one["used by"]) for one in shown["design"]["own figures"]] == [
        ("van 6", "a.coax.yaml", ["C-1"]),
        ("quiet splitter", "a.coax.yaml", ["SP"]),
    ]
    page = coax("show", "a.coax.yaml", cwd=site).stdout
    assert "FIGURES OF YOUR OWN\n  van 6 (cable class): data sheet of the reel; in a.coax.yaml; used by C-1\n" in page
