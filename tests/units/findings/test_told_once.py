"""Which unit's words stand for several, and where the findings of a design's parts stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.findings import Finding
from coaxwright.reviewing import judge, review
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text


def of_rule(text: str, rule: str) -> list[Finding]:
    return [one for one in judge(read_text(text, "row.coax.yaml"), shipped_registry()).findings if one.rule == rule]


def fed(lengths: dict[str, str]) -> str:
    """Units that are alike but for the cable outside that feeds each of them through a ground block."""
    units = "".join(f"  {tag}: {{like: flat, but: {{cables: {{D: {{from: {tag}-GB}}}}}}}}\n" for tag in lengths)
    feeds = "".join(
        f"  Z-{tag}: {{from: DROP, to: {tag}-GB, type: series 6, length: {length}}}\n"
        for tag, length in lengths.items()
    )
    blocks = "".join(f"  {tag}-GB: {{kind: ground block, place: cellar}}\n" for tag in lengths)
    return (
        "coaxwright: 1\ntitle: Ruff Row 9 (invented)\nbasis: {rulesets: [trade 1]}\nplaces: {cellar: {}}\n"
        "services: {bb: {kind: terrestrial TV, from: DROP, down: {band: 54 MHz to 1002 MHz}}}\n"
        f"devices:\n  DROP: {{kind: coax drop, place: cellar}}\n{blocks}cables:\n{feeds}"
        "typical:\n  flat:\n    devices: {TV: {kind: outlet, place: cellar, serves: [bb]}}\n"
        "    cables: {D: {from: DROP, to: TV, type: series 6, length: 300 ft}}\n"
        f"units:\n{units}"
    )


@pytest.mark.parametrize(
    ("lengths", "worst", "instances"),
    [
        ({"a": "5 ft", "b": "40 ft", "c": "9 ft"}, "b", ("b", "a", "c")),
        ({"a": "40 ft", "b": "40 ft", "c": "9 ft"}, "a", ("a", "b", "c")),
        ({"a": "5 ft", "b": "6 ft", "c": "39.5 ft"}, "c", ("c", "a", "b")),
    ],
)
def test_the_worst_of_several_units_is_told(lengths: dict[str, str], worst: str, instances: tuple[str, ...]) -> None:
    (finding,) = of_rule(fed(lengths), "cable.run-length")
    total_ft = 300 + float(lengths[worst].split()[0])
    assert finding.found.startswith(f"Z-{worst} + {worst}/D is {total_ft:g} ft")
    assert finding.subject.tag.startswith(f"{worst}/D")
    assert finding.instances == instances
    # The identity holds no value: whichever is the worst, it is the same.
    assert finding.identity.subject == "flat/D"
    assert {one.subject for one in finding.identities} == {"a/D", "b/D", "c/D"}


def test_findings_and_mistakes_of_the_designs_own_file_come_before_those_of_its_parts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    main = tmp_path / "z.coax.yaml"
    for name, place in (("a", "attc"), ("b", "attic")):
        text = f"coaxwright part: 1\ndevices:\n  {name}-TV: {{kind: outlet, place: {place}}}\n"
        (tmp_path / f"{name}.coax-part.yaml").write_text(text, encoding="utf-8")
    head = "coaxwright: 1\ntitle: Ruff Row 11 (invented)\nbasis: {rulesets: [trade 1]}\n"
    main.write_text(
        head + "includes: [b.coax-part.yaml, a.coax-part.yaml]\nplaces: {loft: {}}\n"
        "devices: {TV: {kind: outlet, place: lofd}}\n",
        encoding="utf-8",
    )
    (told,) = review([main]).designs
    assert [one.place.file for one in told.findings if one.rule == "plan.reference-known"] == [
        "z.coax.yaml",
        "a.coax-part.yaml",
        "b.coax-part.yaml",
    ]
    main.write_text(main.read_text(encoding="utf-8").replace("kind: outlet", "kind: outlt"), encoding="utf-8")
    part = tmp_path / "a.coax-part.yaml"
    part.write_text(part.read_text(encoding="utf-8").replace("kind: outlet", "kind: outlt"), encoding="utf-8")
    (told,) = review([main]).designs
    assert [one.file for one in told.problems] == ["z.coax.yaml", "a.coax-part.yaml"]
