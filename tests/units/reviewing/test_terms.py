"""The rules and the catalogue of a design: put together from the program's and from files that stand beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.catalogue import CableType, load_catalogue
from coaxwright.design import NotUnderstood, understand
from coaxwright.reviewing import pipeline, review
from coaxwright.reviewing.effective_rules import RulesAndCatalogue, RuleSources
from coaxwright.reviewing.reading import read_design
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import Document, referenced_files

EDITIONS = ", ".join(shipped_registry().editions("us"))
STOCK = "coaxwright catalogue: 1\nclasses: {van 6: {like: series 6}}\n"
HOUSE = """ruleset: house
edition: 3
title: House rules (invented)
documents: {house: {name: the house rules, edition: "2026"}}
"""
HARDER = """set:
  protection.antenna-end:
    severity: advice
    limits: {reach: {value: 20 ft (6.0 m), document: house}}
"""


@pytest.fixture(autouse=True)
def _in_tmp(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def write(name: str, text: str) -> None:
    Path(name).parent.mkdir(parents=True, exist_ok=True)
    Path(name).write_text(text, encoding="utf-8")


def design(rulesets: str = "trade 1", catalogues: str = "", more: str = "", name: str = "a.coax.yaml") -> Document:
    named = f", catalogues: [{catalogues}]" if catalogues else ""
    write(name, f"coaxwright: 1\ntitle: Dotterel Row 2 (invented)\nbasis: {{rulesets: [{rulesets}]{named}}}\n{more}")
    return read_design(Path(name), name)


def terms(document: Document, bases: RuleSources | None = None) -> RulesAndCatalogue:
    return (bases or RuleSources(shipped_registry())).of_design(document, understand(document))


def told(document: Document) -> list[str]:
    with pytest.raises(NotUnderstood) as refused:
        terms(document)
    return [str(problem) for problem in refused.value.problems]


def test_a_design_that_adds_nothing_has_the_program_s_own() -> None:
    assert terms(design()).catalogue is load_catalogue()


@pytest.mark.parametrize("rulesets", ["trade 1, h.coax-ruleset.yaml", "h.coax-ruleset.yaml, trade 1"])
def test_a_firm_s_rules_work_on_the_program_s_whatever_the_order(rulesets: str) -> None:
    write("h.coax-ruleset.yaml", HOUSE + HARDER)
    basis = terms(design(rulesets)).basis
    rule = basis.rule("protection.antenna-end")
    assert basis.rulesets == ("trade 1", "house 3")
    assert (rule.severity, rule.origins["severity"], rule.origins["title"]) == (Severity.ADVICE, "house 3", "trade 1")
    (reach,) = [limit for limit in rule.limits.all() if limit.name == "reach"]
    assert (reach.value.text, reach.origin, str(reach.source)) == ("20 ft (6.0 m)", "house 3", "the house rules (2026)")


def test_a_firm_s_ruleset_may_build_on_another_that_the_basis_names() -> None:
    write(
        "base.coax-ruleset.yaml", HOUSE.replace("ruleset: house", "ruleset: branch") + "builds on: [trade 1]\n" + HARDER
    )
    write("h.coax-ruleset.yaml", HOUSE + "builds on: [branch 3]\n" + HARDER.replace("advice", "violation"))
    basis = terms(design("h.coax-ruleset.yaml, base.coax-ruleset.yaml")).basis
    assert basis.rulesets == ("trade 1", "branch 3", "house 3")
    assert basis.rule("protection.antenna-end").severity is Severity.VIOLATION
    assert told(design("h.coax-ruleset.yaml", name="b.coax.yaml")) == [
        "h.coax-ruleset.yaml:5:13: no ruleset of that name; there are trade, us, house"
    ]


AT_FAULT = [
    ("build on: []\n", ["5:1: the file has no field 'build on'; did you mean 'builds on'?"]),
    ("builds on: [us 1999]\n", [f"5:13: that edition is not here; of us there are {EDITIONS}"]),
    ("builds on: [house 3]\n", None),
    (
        "off: {plan.loop: {reason: r}}\n",
        ["5:7: plan.loop is not there to be switched off; did you mean 'plan.loop-free'?"],
    ),
    (
        HARDER.replace("reach:", "rech:"),
        ["8:14: the check of protection.antenna-end has no limit 'rech'; it has reach"],
    ),
    (HARDER.replace("20 ft (6.0 m)", "20 dB"), ["8:29: the limit reach: '20 dB' is not a length"]),
    (HARDER.replace("document: house", "document: huose"), ["8:54: the document 'huose' is not listed; listed are"]),
    (HARDER.replace("advice", "grave"), ["7:15: 'grave' cannot stand for 'severity'; write one of violation,"]),
    (
        "set: {plan.reference-known: {severity: violation}}\n",
        ["5:40: plan.reference-known is a violation without a published source"],
    ),
    (
        "set: {plan.reference-known: {check: reference-know}}\n",
        ["5:37: plan.reference-known: there is no check 'reference-know'; did you mean 'plan.reference-known'?"],
    ),
    (
        "set: {plan.reference-known: {words: {none: {found: '{x}', required: a, remedy: b}}}}\n",
        ["5:52: plan.reference-known: none: there is no value 'x'; there are written, wanted"],
    ),
    (
        "set: {plan.reference-known: {words: {non: {found: a, required: a, remedy: b}}}}\n",
        ["5:38: plan.reference-known: its check has no case 'non'; it has misspelt,"],
    ),
    (
        "cautions: {dust: {text: Mind the dust., source: {document: huose}}}\n",
        ["5:60: the document 'huose' is not listed; listed are house"],
    ),
    (
        "set:\n  plan.reference-know: {due: permit}\n"
        "  plan.port-single-use: {limits: {x: {value: 1 ft, document: house}}}\n"
        "off: {plan.loops-free: {reason: r}}\n",
        [
            "6:3: plan.reference-know is not there to set; did you mean 'plan.reference-known'?",
            "7:35: the check of plan.port-single-use has no limit 'x'; it takes none",
            "8:7: plan.loops-free is not there to be switched off; did you mean 'plan.loop-free'?",
        ],
    ),
]


@pytest.mark.parametrize(("text", "said"), AT_FAULT, ids=[text.partition("\n")[0] for text, _ in AT_FAULT])
def test_what_is_wrong_with_a_ruleset_is_told_in_its_file(text: str, said: list[str] | None) -> None:
    write("h.coax-ruleset.yaml", HOUSE + text)
    found = told(design("trade 1, h.coax-ruleset.yaml"))
    if said is None:
        assert found == ["a.coax.yaml:3:29: 'house 3': the ruleset builds on itself: house 3 -> house 3"]
        return
    assert len(found) == len(said)
    for one, wanted in zip(found, said, strict=True):
        assert one.startswith(f"h.coax-ruleset.yaml:{wanted}")


def test_two_rulesets_of_one_name() -> None:
    write("a.coax-ruleset.yaml", HOUSE)
    write("b.coax-ruleset.yaml", HOUSE)
    write("c.coax-ruleset.yaml", HOUSE.replace("edition: 3", "edition: 4"))
    write("d.coax-ruleset.yaml", HOUSE.replace("ruleset: house", "ruleset: trade"))
    assert told(design("a.coax-ruleset.yaml, b.coax-ruleset.yaml")) == [
        "b.coax-ruleset.yaml:1:10: a.coax-ruleset.yaml is house 3 as well; give one of them another name or edition"
    ]
    assert told(design("a.coax-ruleset.yaml, c.coax-ruleset.yaml")) == [
        "a.coax.yaml:3:41: 'house 4': house 3 is named as well; one edition of a ruleset can bind a design"
    ]
    assert told(design("d.coax-ruleset.yaml")) == [
        "d.coax-ruleset.yaml:1:10: a ruleset 'trade' comes with the program; give this one another name"
    ]
    assert terms(design("a.coax-ruleset.yaml, ./a.coax-ruleset.yaml")).basis.rulesets == ("house 3",)


def test_a_ruleset_that_is_not_here_is_told_where_the_design_names_it() -> None:
    assert told(design("trade 1, us 1999")) == [
        f"a.coax.yaml:3:29: 'us 1999': that edition is not here; of us there are {EDITIONS}"
    ]


def test_mistakes_of_rulesets_and_catalogues_are_told_together() -> None:
    write("h.coax-ruleset.yaml", "ruleset: house\n")
    write("i.coax-ruleset.yaml", "ruleset: inner\n")
    write("s.coax-catalogue.yaml", STOCK.replace("series 6", "seires 6"))
    own = "catalogue: {classes: {x 7: {like: series 66}}}\n"
    found = told(design("h.coax-ruleset.yaml, i.coax-ruleset.yaml", "s.coax-catalogue.yaml", own))
    assert [one.partition(": ")[0] for one in found] == [
        "a.coax.yaml:4:35",
        "h.coax-ruleset.yaml:1:1",
        "i.coax-ruleset.yaml:1:1",
        "s.coax-catalogue.yaml:2:25",
    ]


def test_files_and_a_design_s_own_entries_make_one_catalogue() -> None:
    write("s.coax-catalogue.yaml", STOCK)
    document = design(catalogues="s.coax-catalogue.yaml", more="catalogue: {classes: {x 7: {like: series 11}}}\n")
    catalogue = terms(document).catalogue
    assert {name: entry.file for name, entry in catalogue.own.items()} == {
        "van 6": "s.coax-catalogue.yaml",
        "x 7": "a.coax.yaml",
    }
    for phrase in ("van 6 outdoor", "x 7"):
        assert isinstance(catalogue.cable_type(phrase), CableType)
    write("s.coax-catalogue.yaml", STOCK.replace("van 6", "x 7"))
    again = design(catalogues="s.coax-catalogue.yaml", more="catalogue: {classes: {x 7: {like: series 11}}}\n")
    assert told(again) == [
        "a.coax.yaml:4:23: 'x 7' is there twice, first in s.coax-catalogue.yaml, line 2; give one of them another name"
    ]


def test_a_catalogue_is_put_together_once_for_all_designs_that_name_the_same_files() -> None:
    write("s.coax-catalogue.yaml", STOCK)
    write("t.coax-catalogue.yaml", STOCK.replace("van 6", "cab 6"))
    bases = RuleSources(shipped_registry())
    one = terms(design(catalogues="s.coax-catalogue.yaml, t.coax-catalogue.yaml"), bases)
    other = terms(design(catalogues="t.coax-catalogue.yaml, s.coax-catalogue.yaml", name="b.coax.yaml"), bases)
    assert one.catalogue is other.catalogue
    assert one.basis is other.basis
    assert terms(design(catalogues="s.coax-catalogue.yaml"), bases).catalogue is not one.catalogue
    assert terms(design(), bases).catalogue is load_catalogue()  # nothing of one design is left to the next


def test_a_file_of_a_firm_is_read_once_in_a_run(monkeypatch: pytest.MonkeyPatch) -> None:
    write("s.coax-catalogue.yaml", STOCK)
    write("h.coax-ruleset.yaml", "ruleset: [\n")
    for number in range(5):
        named = ", catalogues: [s.coax-catalogue.yaml]" if number else ""
        basis = f"basis: {{rulesets: [h.coax-ruleset.yaml]{named}}}"
        write(f"{number}.coax.yaml", f"coaxwright: 1\ntitle: Dotterel Row {number} (invented)\n{basis}\n")
    read: list[str] = []
    real = referenced_files.read_file

    def counting(path: Path, name: str, limits: object) -> Document:
        read.append(name)
        return real(path, name)

    monkeypatch.setattr(referenced_files, "read_file", counting)
    assert len(review(["."]).designs) == 5
    assert sorted(read) == ["h.coax-ruleset.yaml", "s.coax-catalogue.yaml"]
    assert len(review(["s.coax-catalogue.yaml"]).designs) == 4
    assert len(read) == 4  # a new run reads them again


def test_a_text_that_came_without_its_files() -> None:
    write("h.coax-ruleset.yaml", HOUSE)
    document = design("h.coax-ruleset.yaml")
    alone = Document(document.name, document.text, document.data, document.spots, document.numbers)
    judged = pipeline.review_document(alone, shipped_registry())
    assert [str(problem) for problem in judged.problems] == [
        "a.coax.yaml:3:20: 'h.coax-ruleset.yaml': the file was not read"
    ]
