"""A design in several files: read, judged and mended where each part stands; refused where they make no design."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from coaxwright.findings import Result
from coaxwright.reviewing import DesignReview, review
from coaxwright.source import Limits, ReadError, read_file

EXAMPLE = Path(__file__).parents[2] / "examples" / "tern-cottage" / "as-drawn.coax.yaml"
TEXT = EXAMPLE.read_text(encoding="utf-8")
HEAD = "coaxwright: 1\ntitle: Sanderling Quay 2 (invented)\nbasis: {rulesets: [trade 1]}\n"
OUTLET = "{kind: outlet, place: den}"


@pytest.fixture(autouse=True)
def _in_tmp(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def write(**files: str) -> None:
    for name, text in files.items():
        path = Path(name.replace("__", "/").replace("_part", ".coax-part.yaml").replace("_site", ".coax.yaml"))
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def one(path: str = "a.coax.yaml") -> DesignReview:
    (design,) = review([path]).designs
    return design


def told(design: DesignReview) -> list[str]:
    return [str(problem) for problem in design.problems]


def divided(text: str) -> tuple[str, str, str]:
    cables, bonding = text.index("\ncables:\n") + 1, text.index("\nbonding:\n") + 1
    return text[:cables], text[cables:bonding], text[bonding:]


def test_a_divided_design_is_judged_as_the_whole_one() -> None:
    head, cables, bonding = divided(TEXT)
    drawn = "stage: permit\nincludes: [parts/cables.coax-part.yaml]"
    write(
        whole_site=TEXT,
        a_site=head.replace("stage: permit", drawn),
        parts__cables_part="coaxwright part: 1\nincludes: [../bonds.coax-part.yaml]\n" + cables,
        bonds_part="coaxwright part: 1\n" + bonding,
    )
    (divided_up, whole) = review(["."], with_amendments=True).designs
    assert (divided_up.file, whole.file) == ("a.coax.yaml", "whole.coax.yaml")
    assert {f.identity for f in divided_up.findings} == {f.identity for f in whole.findings}
    assert sorted(f.found for f in divided_up.findings) == sorted(f.found for f in whole.findings)
    assert {f.place.file for f in divided_up.findings} == {
        "a.coax.yaml",
        "bonds.coax-part.yaml",
        "parts/cables.coax-part.yaml",
    }
    for finding in divided_up.findings:
        lines = Path(finding.place.file).read_text(encoding="utf-8").splitlines()
        assert finding.place.line_text == lines[finding.place.span.start.line - 1]
    mended = {f.rule: (f.place.file, f.amendment.text) for f in divided_up.findings if f.amendment is not None}
    assert mended == {
        "plan.reference-known": ("parts/cables.coax-part.yaml", "KITCHEN"),
        "jacket.outdoor-rated": ("parts/cables.coax-part.yaml", "series 6 quad copper outdoor"),
        "bonding.conductor-size": ("bonds.coax-part.yaml", "10 AWG copper"),
    }


def test_naming_a_part_reviews_the_designs_that_draw_it_in() -> None:
    part = f"coaxwright part: 1\ndevices: {{TV1: {OUTLET}}}\n"
    write(
        a_site=HEAD + "includes: [rooms.coax-part.yaml]\nplaces: {den: {}}\n",
        b_site=HEAD.replace("Quay 2", "Quay 3"),
        rooms_part=part,
        lone_part=part,
    )
    assert one("rooms.coax-part.yaml").file == "a.coax.yaml"
    assert told(one("lone.coax-part.yaml")) == [
        "lone.coax-part.yaml:1:1: no design below the working folder includes this part"
    ]
    assert [design.file for design in review(["rooms.coax-part.yaml", "a.coax.yaml"]).designs] == ["a.coax.yaml"]


def test_a_part_drawn_in_twice_is_there_once() -> None:
    write(
        a_site=HEAD + "includes: [b.coax-part.yaml, c.coax-part.yaml]\nplaces: {den: {}}\n",
        b_part="coaxwright part: 1\nincludes: [d.coax-part.yaml]\n",
        c_part="coaxwright part: 1\nincludes: [d.coax-part.yaml]\n",
        d_part=f"coaxwright part: 1\ndevices: {{101: {OUTLET}}}\n",
    )
    design = one()
    assert design.problems == ()
    assert design.findings == ()
    assert design.result is Result.CLEAR


def test_a_cycle_is_told_once_with_its_way() -> None:
    write(
        a_site=HEAD + "includes: [b.coax-part.yaml]\n",
        b_part="coaxwright part: 1\nincludes: [c.coax-part.yaml]\n",
        c_part="coaxwright part: 1\nincludes: [b.coax-part.yaml]\n",
    )
    assert told(one()) == [
        "c.coax-part.yaml:2:12: 'b.coax-part.yaml' includes itself "
        "(b.coax-part.yaml > c.coax-part.yaml > b.coax-part.yaml); take one of these lines out"
    ]


@pytest.mark.parametrize(
    ("written", "message"),
    [
        ("gone.coax-part.yaml", "there is no part 'gone.coax-part.yaml'; looked for it at gone.coax-part.yaml"),
        ("b.yaml", "'b.yaml' is not named like a part; name the file '….coax-part.yaml'"),
        ("/etc/x.coax-part.yaml", "is a path of one machine; write the path relative to this file"),
        ("../x.coax-part.yaml", "lies outside the folder under review; keep the files of a design in one folder tree"),
        ("out.coax-part.yaml", "lies outside the folder under review; keep the files of a design in one folder tree"),
        ("loop.coax-part.yaml", "'loop.coax-part.yaml' is a link that leads nowhere; name the file itself"),
    ],
)
def test_a_part_that_cannot_be_drawn_in(written: str, message: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    outside = tmp_path_factory.mktemp("outside") / "x.coax-part.yaml"
    outside.write_text("coaxwright part: 1\n", encoding="utf-8")
    Path("out.coax-part.yaml").symlink_to(outside)
    Path("loop.coax-part.yaml").symlink_to("loop.coax-part.yaml")
    write(a_site=HEAD + f"includes: [{written}]\n")
    (problem,) = told(one())
    assert problem.startswith("a.coax.yaml:4:12: ")
    assert problem.endswith(message)


def test_one_tag_in_two_files() -> None:
    write(
        a_site=HEAD + f"includes: [b.coax-part.yaml]\nplaces: {{den: {{}}}}\ndevices:\n  TV1: {OUTLET}\n",
        b_part=f"coaxwright part: 1\ndevices:\n  TV1: {OUTLET}\n",
    )
    assert told(one()) == [
        "b.coax-part.yaml:3:3: 'TV1' stands in two files, first in a.coax.yaml, line 7; give one of them another tag"
    ]


def test_mistakes_of_all_files_are_told_together() -> None:
    write(
        a_site=HEAD + "includes: [b.coax-part.yaml, c.coax-part.yaml]\nplaces: {den: {exposure: indors}}\n",
        b_part="coaxwright part: 1\ntitle: x\nnotes: y\ndevices: {SP: {kind: spliter}}\n",
        c_part="coaxwright: 1\ncables: {C-1: {from: A, to: B, type: series 6, length: 5}}\n",
    )
    assert told(one()) == [
        "a.coax.yaml:5:26: 'indors' is not a known exposure; did you mean 'indoors'?",
        "b.coax-part.yaml:2:1: 'title' belongs in the design that includes this part; take it out here",
        "b.coax-part.yaml:3:1: a part has no field 'notes'; did you mean 'note'?",
        "b.coax-part.yaml:4:22: 'spliter' is not a known kind; did you mean 'splitter'?",
        "c.coax-part.yaml:1:1: this is a whole design; a part begins with 'coaxwright part: 1'",
        "c.coax-part.yaml:2:56: 5 has no unit; write '5 ft' or '5 m'",
    ]


def test_an_unreadable_part_is_told_in_the_part() -> None:
    write(a_site=HEAD + "includes: [b.coax-part.yaml]\n", b_part="coaxwright part: 1\ndevices: [\n")
    (problem,) = told(one())
    assert problem.startswith("b.coax-part.yaml:2:10: the text ends before this value does")


def test_a_file_that_changes_while_it_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    write(a_site=HEAD)
    real = os.fstat
    calls: list[int] = []

    def changing(handle: int) -> os.stat_result:
        calls.append(handle)
        if len(calls) == 2:
            with Path("a.coax.yaml").open("a", encoding="utf-8") as file:
                file.write("# saved by another hand\n")
        return real(handle)

    monkeypatch.setattr(os, "fstat", changing)
    with pytest.raises(ReadError, match="the file changed while it was read; review it again when it is saved"):
        read_file(Path("a.coax.yaml"), "a.coax.yaml", Limits())
    assert len(calls) == 2
