"""Twelve like flats, described once: judged as if they were written out, and told once where they are alike."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.findings import Finding
from coaxwright.reports import json_report, sarif
from coaxwright.reports.instances import units
from coaxwright.reports.text import render
from coaxwright.reviewing import DesignReview, Review, review
from coaxwright.reviewing.pipeline import review_document
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.rules import shipped_registry
from coaxwright.source import Splice, apply, read_text

SCHEMA = json.loads(
    (Path(__file__).parents[2] / "schemas" / "review-1.schema.json").read_text(encoding="utf-8"),
)
SECTIONS = ("places", "devices", "cables", "bonding")
Things = dict[str, dict[str, dict[str, Any]]]
HEAD: dict[str, Any] = {
    "coaxwright": 1,
    "title": "Heron Court (invented)",
    "basis": {"rulesets": ["us 2023"], "occupancy": "multifamily dwelling"},
    "buildings": {"house": {"entry": "cellar"}},
    "services": {"broadband": {"kind": "cable broadband", "from": "DROP", "down": {"band": "54 MHz to 1002 MHz"}}},
}
SITE: Things = {
    "places": {"cellar": {"building": "house"}, "riser": {"building": "house", "exposure": "riser"}},
    "devices": {
        "DROP": {"kind": "coax drop", "place": "cellar", "owner": "operator"},
        "GB": {"kind": "ground block", "place": "cellar"},
    },
    "cables": {"F-1": {"from": "DROP", "to": "GB", "type": "series 6", "length": "4 ft"}},
    "bonding": {
        "IBT": {"kind": "intersystem bonding termination", "place": "cellar", "electrode": "service"},
        "B-1": {"from": "GB", "to": "IBT", "conductor": "14 AWG copper", "length": "9 ft"},
    },
}
FLAT: Things = {
    "places": {"hall": {"building": "house"}, "lounge": {"building": "house"}},
    "devices": {
        "SP": {"kind": "splitter", "ways": 2, "place": "hall"},
        "TV": {"kind": "outlet", "place": "lounge", "serves": ["broadband"]},
        "BED": {"kind": "outlet", "place": "hall", "serves": ["broadbnd"]},
        "ROD": {"kind": "ground block", "place": "hall"},
    },
    "cables": {
        "C-1": {"from": "SP", "to": "TV", "type": "series 6 tri", "route": [{"hall": "6 ft"}, {"lounge": "318 ft"}]},
        "C-2": {"from": "SP.out-1", "to": "BED", "type": "series 6 tri", "route": [{"hal": "3 ft"}]},
        "C-3": {"from": "SP.out-1", "to": "ROD", "type": "series 6", "length": "3 ft"},
    },
    "bonding": {"B": {"from": "ROD", "to": "IBT", "conductor": "18 AWG copper"}},
}
OWN = {*FLAT["places"], *FLAT["devices"], "hal"}
"""The tags that a flat's things refer to, with the one that is mistyped for the flat's hall."""
CHANGES: dict[str, tuple[str, str, dict[str, Any]]] = {
    "longer": ("cables", "C-1", {"route": [{"hall": "6 ft"}, {"lounge": "325 ft"}]}),
    "short": ("cables", "C-1", {"route": [{"lounge": "25 ft"}]}),
    "other class": ("cables", "C-1", {"type": "10 mm 50 ohm low-loss"}),
    "thicker": ("bonding", "B", {"conductor": "10 AWG copper", "length": "300 ft"}),
    "existing": ("devices", "ROD", {"state": "existing"}),
    "tenant's": ("cables", "C-2", {"owner": "tenant", "length": "3 ft"}),
    "mistyped": ("cables", "C-2", {"to": "BEDD"}),
}


def flats(differing: dict[int, tuple[list[str], list[str]]], count: int) -> dict[str, Any]:
    """A design with so many flats; by number, the names of the changes, and what is left out."""
    lines: dict[str, Any] = {}
    alike: list[int] = []

    def close() -> None:
        if alike:
            first, last = f"flat-{alike[0]:02}", f"flat-{alike[-1]:02}"
            lines[first if len(alike) == 1 else f"{first} to {last}"] = {"like": "flat"}
            alike.clear()

    for number in range(1, count + 1):
        names, left_out = differing.get(number, ([], []))
        if not names and not left_out:
            alike.append(number)
            continue
        close()
        line: dict[str, Any] = {"like": "flat"}
        for name in names:
            section, tag, change = CHANGES[name]
            line.setdefault("but", {}).setdefault(section, {}).setdefault(tag, {}).update(change)
        if left_out:
            line["leaves out"] = left_out
        lines[f"flat-{number:02}"] = line
    close()
    return {**HEAD, **SITE, "typical": {"flat": FLAT}, "units": lines}


def written_out(differing: dict[int, tuple[list[str], list[str]]], count: int) -> dict[str, Any]:
    """The same, written by hand."""
    sections: Things = {section: dict(things) for section, things in SITE.items()}
    for number in range(1, count + 1):
        names, left_out = differing.get(number, ([], []))
        own = f"flat-{number:02}"
        there = OWN - set(left_out)

        def full(value: Any, own: str = own, there: set[str] = there) -> Any:
            if isinstance(value, list):
                return [full(one) for one in value]
            if isinstance(value, dict):
                return {full(key): leg for key, leg in value.items()}
            tag = str(value).partition(".")[0]
            return f"{own}/{value}" if tag in there or (tag == "BEDD" and "BED" in there) else value

        for section in SECTIONS:
            for tag, thing in FLAT[section].items():
                if tag in left_out:
                    continue
                whole = dict(thing)
                for name in names:
                    if CHANGES[name][:2] == (section, tag):
                        whole.update(CHANGES[name][2])
                sections[section][f"{own}/{tag}"] = {
                    key: full(value) if key in {"from", "to", "place", "on", "route"} else value
                    for key, value in whole.items()
                }
    return {**HEAD, **sections}


def reviewed(design: dict[str, Any], *, with_amendments: bool = False) -> DesignReview:
    """JSON is YAML: the design goes the whole way from its text."""
    text = json.dumps(design, indent=1)
    done = review_document(
        read_text(text, "x.coax.yaml"), shipped_registry(), ReviewRequest(with_amendments=with_amendments)
    )
    assert done.problems == ()
    assert done.crashes == ()
    return done


def each(findings: tuple[Finding, ...]) -> Iterator[tuple[object, ...]]:
    """What is told, for each unit by itself: who, by which rule, how serious."""
    for finding in findings:
        for identity in finding.identities:
            name = identity.subject.partition("/")[0]
            facet = finding.identity.facet.replace(f"{name}/", "flat/")
            yield (
                identity.rule, identity.kind, identity.subject, identity.second, facet, finding.outcome,
                finding.severity, finding.subject.owner, finding.subject.state,
            )  # fmt: skip


DIFFERING = st.dictionaries(
    st.integers(1, 12),
    st.tuples(
        st.lists(st.sampled_from(sorted(CHANGES)), max_size=3, unique=True),
        st.lists(st.sampled_from(["TV", "BED", "C-3", "B", "ROD", "lounge"]), max_size=3, unique=True),
    ).filter(lambda one: not {CHANGES[name][1] for name in one[0]} & set(one[1])),
    max_size=4,
)


@settings(deadline=None, max_examples=60)
@given(count=st.integers(1, 12), differing=DIFFERING)
def test_a_design_with_units_is_judged_as_the_one_written_out(
    count: int, differing: dict[int, tuple[list[str], list[str]]]
) -> None:
    told, twin = reviewed(flats(differing, count)), reviewed(written_out(differing, count))
    assert sorted(each(told.findings)) == sorted(each(twin.findings))
    assert told.tallies == twin.tallies
    assert told.result is twin.result
    texts = {one.identity: (one.found, one.required, one.remedy) for one in twin.findings}
    by_key = {(identity.rule, identity.kind, identity.subject): text for identity, text in texts.items()}
    for finding in told.findings:
        key = (finding.rule, finding.identity.kind, str(finding.subject.path[1]))
        assert (finding.found, finding.required, finding.remedy) in texts.values(), key
        assert key in by_key
    identities = [finding.identity for finding in told.findings]
    assert len(set(identities)) == len(identities)


def by_subject(review: DesignReview) -> dict[tuple[str, str, str], Finding]:
    return {(one.rule, one.identity.subject, one.identity.facet): one for one in review.findings}


def test_what_is_wrong_with_the_typical_unit_is_told_once_and_what_differs_by_itself() -> None:
    told = by_subject(reviewed(flats({13: (["longer"], ["BED", "C-2"])}, 13)))
    run = told["cable.run-length", "flat/C-1", ""]
    assert run.instances == tuple(f"flat-{number:02}" for number in range(1, 13))
    assert run.found.startswith("flat-01/C-1 is 324 ft")
    assert run.root == ("typical", "flat", "cables", "C-1", "route")
    own = told["cable.run-length", "flat-13/C-1", ""]
    assert own.instances == ("flat-13",)
    assert own.root == ("units", "flat-13", "but", "cables", "C-1", "route")
    mistyped = told["plan.reference-known", "flat/C-2", "route.0.flat/hal"]
    assert mistyped.instances == run.instances
    assert told["bonding.conductor-size", "flat/B", ""].instances == (*run.instances, "flat-13")


def test_another_flat_changes_no_identity() -> None:
    differing: dict[int, tuple[list[str], list[str]]] = {3: (["short"], []), 7: (["other class"], ["TV"])}
    before, after = reviewed(flats(differing, 12)), reviewed(flats(differing, 13))
    assert [one.identity for one in before.findings] == [one.identity for one in after.findings]
    assert [one.identity.fingerprint for one in before.findings] == [one.identity.fingerprint for one in after.findings]


def test_one_thing_of_the_typical_unit_that_comes_out_differently_has_two_identities() -> None:
    # C-2 is the tenant's in two flats: what is wrong with it is written in the typical unit, and is theirs to change.
    told = by_subject(reviewed(flats({2: (["tenant's"], []), 4: (["tenant's"], [])}, 5)))
    mistyped = {
        key[1]: (one.instances, one.place.span.start.line) for key, one in told.items() if key[2] == "route.0.flat/hal"
    }
    line = mistyped["flat/C-2"][1]
    assert mistyped == {
        "flat/C-2": (("flat-01", "flat-03", "flat-05"), line),
        "flat-02/C-2": (("flat-02", "flat-04"), line),
    }


def test_an_amendment_of_the_typical_unit_says_what_it_changes() -> None:
    design = flats({5: (["mistyped"], [])}, 12)
    text = json.dumps(design, indent=1)
    document = read_text(text, "x.coax.yaml")
    done = review_document(document, shipped_registry(), ReviewRequest(with_amendments=True))
    told = by_subject(done)
    hall = told["plan.reference-known", "flat/C-2", "route.0.flat/hal"].amendment
    assert hall is not None
    assert (hall.written, hall.text) == ('"hal"', "hall")
    assert hall.changes == tuple(f"flat-{number:02}" for number in range(1, 13))
    bed = told["plan.reference-known", "flat-05/C-2", "to"].amendment
    assert bed is not None
    assert (bed.text, bed.changes) == ("BED", ("flat-05",))
    mended = apply(text, [Splice.of(hall.span, f'"{hall.text}"'), Splice.of(bed.span, f'"{bed.text}"')])
    after = review_document(read_text(mended, "x.coax.yaml"), shipped_registry())
    gone = {one.identity for one in done.findings} - {one.identity for one in after.findings}
    assert told["plan.reference-known", "flat/C-2", "route.0.flat/hal"].identity in gone
    assert told["plan.reference-known", "flat-05/C-2", "to"].identity in gone


def test_every_report_says_which_units(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("x.coax.yaml").write_text(json.dumps(flats({5: (["short"], [])}, 12), indent=1), encoding="utf-8")
    done = review(["x.coax.yaml"], with_amendments=True)
    text = render(done, 100)
    assert "    found        flat-01/C-1 is 324 ft of series 6" in text
    assert "    also in      flat-02 to flat-04 and flat-06 to flat-12\n" in text
    assert "which changes flat-01 to flat-12" in " ".join(text.split())
    told = json.loads(json_report.render(done))
    assert list(jsonschema.Draft202012Validator(SCHEMA).iter_errors(told)) == []
    (run,) = (one for one in told["designs"][0]["findings"] if one["rule"] == "cable.run-length")
    assert run["instances"] == [f"flat-{number:02}" for number in range(1, 13) if number != 5]
    assert any(one["amendment"] and len(one["amendment"]["changes"]) == 12 for one in told["designs"][0]["findings"])
    results = json.loads(sarif.render(done))["runs"][0]["results"]
    (result,) = (one for one in results if one["ruleId"] == "cable.run-length")
    assert result["properties"]["instances"] == run["instances"]
    assert "Also in flat-02 to flat-04 and flat-06 to flat-12." in result["message"]["text"]
    fixes = [fix["description"]["text"] for one in results for fix in one.get("fixes", ())]
    assert any(fix.endswith(", which changes flat-01 to flat-12") for fix in fixes)
    host = json.loads(sarif.render(done, "code host"))["runs"][0]["results"]
    assert any("Also in flat-02" in one["message"]["text"] for one in host)


@pytest.mark.parametrize(
    ("names", "shown"),
    [
        ([], ""),
        (["a"], "a"),
        (["a", "b", "c"], "a, b and c"),
        (["f-08", "f-09", "f-10", "f-12"], "f-08 to f-10 and f-12"),
        (["f-8", "f-9", "f-10"], "f-8 to f-10"),
        (["f-1", "f-2", "g-3"], "f-1, f-2 and g-3"),
        (["1a", "2a", "3a", "3b"], "1a to 3a and 3b"),
        ([f"f-{number}" for number in range(1, 26, 2)], "f-1, f-3, f-5, f-7, f-9, f-11 … and 7 more"),
    ],
)
def test_units_for_people(names: list[str], shown: str) -> None:
    assert units(names) == shown


def test_units_in_parts_are_judged_and_mended_where_they_stand(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    design = flats({2: (["longer"], [])}, 3)
    files = {
        "x.coax.yaml": {key: value for key, value in design.items() if key not in {"typical", "units"}}
        | {"includes": ["a.coax-part.yaml", "b.coax-part.yaml"]},
        "a.coax-part.yaml": {"coaxwright part": 1, "typical": design["typical"]},
        "b.coax-part.yaml": {"coaxwright part": 1, "units": design["units"]},
    }
    for name, data in files.items():
        Path(name).write_text(json.dumps(data, indent=1), encoding="utf-8")
    (divided,) = review(["a.coax-part.yaml"], with_amendments=True).designs
    whole = reviewed(design, with_amendments=True)
    assert divided.problems == ()
    assert {one.identity for one in divided.findings} == {one.identity for one in whole.findings}
    told = by_subject(divided)
    assert told["cable.run-length", "flat/C-1", ""].place.file == "a.coax-part.yaml"
    assert told["cable.run-length", "flat-02/C-1", ""].place.file == "b.coax-part.yaml"
    amended = {key for key, one in told.items() if one.amendment is not None}
    assert amended == {key for key, one in by_subject(whole).items() if one.amendment is not None}
    assert ("plan.reference-known", "flat/C-2", "route.0.flat/hal") in amended


def test_a_typical_unit_of_which_there_is_none_is_no_plant() -> None:
    done = reviewed({**HEAD, **SITE, "typical": {"flat": FLAT}})
    assert done.findings == reviewed({**HEAD, **SITE}).findings
    assert Review((done,)).exit_status == 0


def test_the_flats_of_the_guide_are_understood() -> None:
    guide = (Path(__file__).parents[2] / "docs" / "guide.md").read_text(encoding="utf-8")
    (block,) = re.findall(r"```text\n(typical:\n.*?)```", guide, re.DOTALL)
    (trunk,) = re.findall(r"`(T-1: \{.*?\})`", guide)
    head = "\n".join(f"{key}: {json.dumps(value)}" for key, value in {**HEAD, "places": SITE["places"]}.items())
    devices = "devices: {SP0: {kind: splitter, ways: 2, place: riser}, DROP: {kind: coax drop, place: cellar}}"
    done = review_document(read_text(f"{head}\n{devices}\ncables:\n  {trunk}\n{block}", "x"), shipped_registry())
    assert done.problems == ()
    # what is free on the splitters has no terminator in this sketch
    assert {finding.rule for finding in done.findings} <= {"level.unused-terminated"}
    devices_judged = next(tally.met for tally in done.tallies if tally.rule == "plan.port-single-use")
    assert devices_judged == 2 + 12 * 3 + 2
