"""A firm's catalogue and rulesets, which a design names and which stand beside it: used, and told at their place."""

from __future__ import annotations

import json
import re
from itertools import permutations
from pathlib import Path

import pytest
import yaml

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
  DROP: {kind: coax drop}
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
            "the program's catalogue has no cable class 'series 60'; did you mean 'series 6'?",
        ),
        (
            "firm/van.coax-catalogue.yaml",
            "coaxwright catalogue: 1\n",
            "",
            "this is not a catalogue; a catalogue begins with 'coaxwright catalogue: 1'",
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
            "a ruleset 'us' comes with the program; give this one another name",
        ),
        ("a.coax.yaml", "model: quiet splitter", "model: van 6", None),
        (
            "firm/house.coax-ruleset.yaml",
            "jacket.outdoor-rated",
            "jacket.outdor-rated",
            "jacket.outdor-rated is not there to be switched off; did you mean 'jacket.outdoor-rated'?",
        ),
        ("firm/house.coax-ruleset.yaml", "[trade 1]", "[trade 9]", "that edition is not here; of trade there are 1"),
        (
            "firm/house.coax-ruleset.yaml",
            "[trade 1]",
            "[trad 1]",
            "no ruleset of that name; there are trade, us, house; did you mean 'trade 1'?",
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
    assert (
        "AUTHOR-SUPPLIED VALUES\n  van 6 (cable class): data sheet of the reel; in a.coax.yaml; used by C-1\n" in page
    )


def test_a_model_of_another_size_and_one_that_nobody_has_are_findings(coax, site: Path) -> None:
    edit(site / "a.coax.yaml", "ways: 2, model", "ways: 3, model")
    edit(site / "a.coax.yaml", "TV: {", "SP2: {kind: splitter, ways: 2, model: quiet spliter}\n  TV: {")
    done = coax("review", "a.coax.yaml", "--as", "json", cwd=site)
    findings = json.loads(done.stdout)["designs"][0]["findings"]
    assert done.returncode == 1
    assert [finding["found"] for finding in findings if finding["rule"] == "plan.reference-known"] == [
        "SP is a splitter with 3 ways, and its model 'quiet splitter' is a splitter with 2 ways",
        "'quiet spliter' is not a model of this design",
    ]


def test_what_is_taken_on_the_author_s_word_stands_in_every_form_of_a_review(coax, site: Path) -> None:
    page = coax("review", "a.coax.yaml", "--width", "160", cwd=site).stdout
    where = "firm/van.coax-catalogue.yaml"
    assert f"\nauthor-supplied values: van 6 ({where}), quiet splitter ({where})\n" in page
    assert "judged by house 1 (firm/house.coax-ruleset.yaml)" in page
    design = json.loads(coax("review", "a.coax.yaml", "--as", "json", cwd=site).stdout)["designs"][0]
    assert design["own figures"] == [
        {"name": "van 6", "kind": "cable class", "file": where, "document": "data sheet of the reel",
         "used by": ["C-1"]},
        {"name": "quiet splitter", "kind": "device", "file": where, "document": f"the author of {where}",
         "used by": ["SP"]},
    ]  # fmt: skip
    assert design["rulesets"] == {
        "named": ["house 1 (firm/house.coax-ruleset.yaml)"],
        "in effect": ["trade 1", "house 1"],
    }
    sarif = json.loads(coax("review", "a.coax.yaml", "--as", "sarif", cwd=site).stdout)
    assert sarif["runs"][0]["artifacts"][0]["properties"]["own figures"] == design["own figures"]


def test_mistakes_of_the_design_and_of_every_file_it_names_are_told_together(coax, site: Path) -> None:
    edit(site / "a.coax.yaml", "length: 10 ft", "length: 10")
    edit(site / "firm" / "van.coax-catalogue.yaml", "like: 2-way splitter", "like: 2-way spliter")
    edit(site / "firm" / "house.coax-ruleset.yaml", "builds on:", "build on:")
    done = coax("review", "a.coax.yaml", "--as", "json", cwd=site)
    assert done.returncode == 2
    assert [problem["message"] for problem in json.loads(done.stdout)["designs"][0]["problems"]] == [
        "10 has no unit; write '10 ft' or '10 m'",
        "the file has no field 'build on'; did you mean 'builds on'?",
        "the program's catalogue has no device '2-way spliter'; did you mean '2-way splitter'?",
    ]
    for place in (
        "a.coax.yaml:11:51",
        "firm/house.coax-ruleset.yaml:4:1",
        "firm/van.coax-catalogue.yaml:9:11",
    ):
        assert f"\n{place}\n" in coax("review", "a.coax.yaml", cwd=site).stdout


def test_the_other_designs_go_on_and_a_file_at_fault_stands_for_those_that_name_it(coax, site: Path) -> None:
    (site / "b.coax.yaml").write_text(DESIGN.replace("firm/house.coax-ruleset.yaml", "trade 1"), encoding="utf-8")
    (site / "firm" / "house.coax-ruleset.yaml").write_text("ruleset: [\n", encoding="utf-8")
    done = coax("review", ".", "--as", "json", cwd=site)
    assert done.returncode == 2
    results = {design["file"]: design["result"] for design in json.loads(done.stdout)["designs"]}
    assert results["a.coax.yaml"] == "not understood"
    assert results["b.coax.yaml"] in ("clear", "returned")
    named = coax("review", "firm/house.coax-ruleset.yaml", cwd=site)
    assert named.returncode == 2
    assert "firm/house.coax-ruleset.yaml:1:10" in named.stdout
    assert "b.coax.yaml" not in named.stdout


def test_the_order_of_files_does_not_show(coax, site: Path) -> None:
    (site / "firm" / "more.coax-catalogue.yaml").write_text(
        "coaxwright catalogue: 1\nclasses: {shop 7: {like: series 6}}\n", encoding="utf-8"
    )
    catalogues = ["firm/van.coax-catalogue.yaml", "firm/more.coax-catalogue.yaml"]
    said = set()
    for seed, order in enumerate(permutations(catalogues)):
        edited = DESIGN.replace("catalogues: [firm/van.coax-catalogue.yaml]", f"catalogues: [{', '.join(order)}]")
        (site / "a.coax.yaml").write_text(edited, encoding="utf-8")
        (site / "b.coax.yaml").write_text(edited.replace("Whimbrel", "Godwit"), encoding="utf-8")
        for paths in permutations(["a.coax.yaml", "b.coax.yaml"]):
            said.add(coax("review", *paths, "--as", "json", cwd=site, PYTHONHASHSEED=str(seed)).stdout)
    assert len(said) == 1


def test_a_part_holds_no_catalogue_and_names_no_files(coax, site: Path) -> None:
    edit(site / "a.coax.yaml", "services:", "includes: [p.coax-part.yaml]\nservices:")
    part = "coaxwright part: 1\nbasis: {rulesets: [trade 1]}\ncatalogue: {classes: {x 7: {like: series 6}}}\n"
    (site / "p.coax-part.yaml").write_text(part, encoding="utf-8")
    status, messages = told(coax, site)
    assert status == 2
    assert messages == [
        "'basis' belongs in the design that includes this part; take it out here",
        "'catalogue' belongs in the design that includes this part; take it out here",
    ]


def test_a_file_beside_a_drawn_in_part_still_tells_its_mistakes(coax, site: Path) -> None:
    edit(site / "a.coax.yaml", "services:", "includes: [p.coax-part.yaml]\nservices:")
    (site / "p.coax-part.yaml").write_text("coaxwright part: 1\nplaces: {den: {exposure: indors}}\n", encoding="utf-8")
    edit(site / "firm" / "van.coax-catalogue.yaml", "like: series 6", "like: series 60")
    status, messages = told(coax, site)
    assert status == 2
    assert messages == [
        "the program's catalogue has no cable class 'series 60'; did you mean 'series 6'?",
        "'indors' is not a known exposure; did you mean 'indoors'?",
    ]


def test_wording_with_more_than_the_name_of_a_value_is_refused(coax, site: Path) -> None:
    text = HOUSE + (
        "set:\n  plan.reference-known:\n    words:\n"
        "      none: {found: '{written.__class__}', required: a, remedy: b}\n"
        "      unknown: {found: '{written!r:>99999999}', required: a, remedy: b}\n"
    )
    (site / "firm" / "house.coax-ruleset.yaml").write_text(text, encoding="utf-8")
    status, messages = told(coax, site)
    assert status == 2
    assert messages == ["plan.reference-known: unknown: braces hold the name of a value, such as {written}"]


def test_the_hook_hands_over_the_files_of_a_firm() -> None:
    """The pattern of the hook's files, tried on names as the hook's tool does."""
    hooks = yaml.safe_load((Path(__file__).parents[2] / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    pattern = re.compile(hooks[0]["files"])
    for name in ("a.coax.yaml", "p.coax-part.yaml", "firm/van.coax-catalogue.yaml", "firm/house.coax-ruleset.yaml"):
        assert pattern.search(name), name
    for name in ("coax-settings.yaml", "plans/coax-settings.yaml"):
        assert pattern.search(name), name
    for name in ("a.yaml", "van.catalogue.yaml", "a.coax.yaml.txt", "coax-ruleset.yml", "my-coax-settings.yaml"):
        assert not pattern.search(name), name
