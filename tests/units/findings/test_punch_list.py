"""What a punch list holds, how it is read, and what is wrong with one that cannot be."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from coaxwright.findings import Finding, Identity, Outcome, Varied
from coaxwright.findings.preexisting import FindingRank, FindingState, new_identities, new_units, rank_of, was
from coaxwright.findings.punch_list import PunchListError, items_of, read_punch_list
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.shipped import shipped
from coaxwright.source import read_text

HEAD = "coaxwright punch list: 1\noutstanding:\n"
ITEM = "  - {design: QH-07/T-1, rule: bonding.conductor-length, item: GB1, kind: device, severity: violation}\n"
SITE = """\
coaxwright: 1
title: Dotterel Close 4 (invented)
basis: {rulesets: [trade 1]}
places: {closet: {}, den: {}}
typical:
  flat:
    devices:
      SP: {kind: splitter, ways: 3, place: closet}
      TV: {kind: outlet, place: den}
    cables:
      C-1: {from: SP.out-1, to: TV, type: series 6}
units:
  flat-1 to flat-4: {like: flat}
"""


@pytest.fixture(scope="module")
def findings() -> tuple[Finding, ...]:
    found = judge(read_text(SITE, "row.coax.yaml"), shipped_registry()).findings
    assert found
    return found


def not_met(findings: tuple[Finding, ...]) -> Finding:
    return next(one for one in findings if one.outcome is Outcome.NOT_MET and len(one.instances) == 4)


def read(folder: Path, text: str, name: str = "site.coax-punch-list.yaml") -> tuple[Identity, ...]:
    path = folder / name
    path.write_bytes(text.encode("utf-8"))
    return tuple(item.identity for item in read_punch_list(path, name).items)


def refused(folder: Path, text: str) -> list[str]:
    with pytest.raises(PunchListError) as error:
        read(folder, text)
    return [str(problem) for problem in error.value.problems]


def test_an_item_is_an_identity_with_how_grave_it_was(tmp_path: Path) -> None:
    path = tmp_path / "a.coax-punch-list.yaml"
    more = "  - {design: QH-07, rule: plan.length-stated, item: C-1, second: house, facet: net, kind: cable,\n"
    path.write_text(
        f"{HEAD}{ITEM}{more}     severity: advice, outcome: cannot be judged}}  # asked\n", encoding="utf-8"
    )
    first, second = read_punch_list(path, path.name).items
    assert first.identity == Identity("QH-07/T-1", "bonding.conductor-length", "device", "GB1")
    assert first.gravity == FindingRank(Severity.VIOLATION, FindingState.NOT_MET)
    assert second.identity == Identity("QH-07", "plan.length-stated", "cable", "C-1", "house", "net")
    assert second.gravity == FindingRank(Severity.ADVICE, FindingState.CANNOT_BE_JUDGED)


def test_tags_and_jobs_that_look_like_numbers_are_taken_as_written(tmp_path: Path) -> None:
    (identity,) = read(tmp_path, HEAD + ITEM.replace("GB1", "012").replace("QH-07/T-1", "1.10"))
    assert (identity.subject, identity.design) == ("012", "1.10")


@pytest.mark.parametrize("empty", ["outstanding:\n", "outstanding: []\n", "outstanding:   # nothing\n", "outstanding:"])
def test_a_list_may_be_empty(tmp_path: Path, empty: str) -> None:
    assert read(tmp_path, f"coaxwright punch list: 1\n{empty}") == ()


def test_an_item_may_stand_twice(tmp_path: Path) -> None:
    assert len(set(read(tmp_path, HEAD + ITEM + ITEM))) == 1


NAME = "site.coax-punch-list.yaml"
WRONG = {
    "coaxwright: 1\ntitle: x\n": [
        f"{NAME}:1:1: this is not a punch list; a punch list begins with 'coaxwright punch list: 1'"
    ],
    "": [f"{NAME}:1:1: this is not a punch list; a punch list begins with 'coaxwright punch list: 1'"],
    HEAD.replace("1", "2"): [
        f"{NAME}:1:24: this program reads punch lists of format 1; write 'coaxwright punch list: 1'"
    ],
    "coaxwright punch list: 1\n": [f"{NAME}:1:1: the punch list has no 'outstanding'; write 'outstanding: …'"],
    HEAD + ITEM.replace("severity: violation", "severity: voilation"): [
        f"{NAME}:3:92: 'voilation' cannot stand for 'severity'; write one of violation, deficiency, advice; "
        "did you mean 'violation'?"
    ],
    HEAD + ITEM.replace("kind:", "knid:"): [
        f"{NAME}:3:5: entry 1 of 'outstanding' has no 'kind'; write 'kind: …'",
        f"{NAME}:3:68: entry 1 of 'outstanding' has no field 'knid'; did you mean 'kind'?",
    ],
    HEAD + ITEM.replace("bonding.conductor-length", "bonding"): [
        f"{NAME}:3:31: 'bonding' cannot stand for 'rule'; write 'bonding.conductor-length'"
    ],
    HEAD + "  - GB1\n": [f"{NAME}:3:5: 'GB1' cannot stand for 'outstanding'; write a group of 'key: value' lines"],
    HEAD + ITEM + "<<<<<<< HEAD\n" + ITEM + "=======\n>>>>>>> other\n": [
        f"{NAME}:4:1: the marks of a merge stand here that was not finished; keep the items of both sides, "
        "and take the lines with the marks out"
    ],
    HEAD + ITEM.replace("GB1", "&x GB1"): [
        f"{NAME}:3:63: the anchor &x is not used in a design; write the value out where it is needed"
    ],
}


@pytest.mark.parametrize("text", WRONG, ids=[str(number) for number in range(len(WRONG))])
def test_what_is_wrong_is_told_with_its_place(tmp_path: Path, text: str) -> None:
    assert refused(tmp_path, text) == WRONG[text]


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(PunchListError, match="cannot be opened"):
        read_punch_list(tmp_path / "none.coax-punch-list.yaml", "none.coax-punch-list.yaml")


def test_the_schema_is_one_and_describes_everything() -> None:
    schema = json.loads((shipped("schemas") / "punch-list-1.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    for one in (schema, schema["$defs"]["item"]):
        assert one["additionalProperties"] is False
        assert all(entry["description"] for entry in one["properties"].values())


class TestWhatIsRecorded:
    def test_an_item_for_each_unit(self, findings: tuple[Finding, ...]) -> None:
        finding = not_met(findings)
        items = list(items_of(finding))
        assert [item.identity.subject.partition("/")[0] for item in items] == list(finding.instances)
        assert {item.gravity for item in items} == {FindingRank(finding.severity, FindingState.NOT_MET)}

    def test_nothing_that_is_varied_due_later_or_for_a_person(self, findings: tuple[Finding, ...]) -> None:
        finding = not_met(findings)
        varied = Varied("r", "g", "", finding.place)
        assert list(items_of(replace(finding, varied=varied))) == []
        assert list(items_of(replace(finding, outcome=Outcome.NEEDS_A_PERSON))) == []
        assert list(items_of(replace(finding, outcome=Outcome.CANNOT_BE_JUDGED, due_later="as-built"))) == []
        assert len(list(items_of(replace(finding, varied=replace(varied, honoured=False))))) == 4
        assert len(list(items_of(replace(finding, outcome=Outcome.CANNOT_BE_JUDGED)))) == 4


class TestWhatIsKnown:
    """Pairs of what was known and what is found: known only where nothing about it has become graver."""

    @pytest.mark.parametrize(
        ("before", "now", "known"),
        [
            (("advice", FindingState.NOT_MET), ("advice", FindingState.NOT_MET), True),
            (("violation", FindingState.NOT_MET), ("advice", FindingState.NOT_MET), True),
            (("advice", FindingState.NOT_MET), ("violation", FindingState.NOT_MET), False),
            (("deficiency", FindingState.CANNOT_BE_JUDGED), ("deficiency", FindingState.NOT_MET), False),
            (("deficiency", FindingState.NOT_MET), ("deficiency", FindingState.CANNOT_BE_JUDGED), True),
            (("violation", FindingState.VARIED), ("violation", FindingState.NOT_MET), False),
            (("violation", FindingState.NOT_MET), ("violation", FindingState.VARIED), False),
            (("violation", FindingState.VARIED), ("violation", FindingState.VARIED), True),
            (("advice", FindingState.DUE_LATER), ("advice", FindingState.CANNOT_BE_JUDGED), False),
            (("advice", FindingState.PERSON), ("advice", FindingState.PERSON), True),
        ],
    )
    def test_by_how_grave_it_was(
        self, before: tuple[str, FindingState], now: tuple[str, FindingState], known: bool
    ) -> None:
        assert FindingRank(Severity(before[0]), before[1]).covers(FindingRank(Severity(now[0]), now[1])) is known

    def test_unit_by_unit(self, findings: tuple[Finding, ...]) -> None:
        finding = not_met(findings)
        gravity = rank_of(finding)
        some = dict.fromkeys(finding.identities[:2], (gravity,))
        fresh = new_identities(finding, some)
        assert fresh == finding.identities[2:]
        assert new_units(finding, fresh) == finding.instances[2:]
        lesser = FindingRank(Severity.ADVICE, FindingState.CANNOT_BE_JUDGED)
        assert was(finding, {finding.identities[3]: (lesser,)}) == "advice, cannot be judged"
        assert was(finding, {}) == ""
