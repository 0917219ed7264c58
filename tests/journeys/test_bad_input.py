"""Files made to be a nuisance: each ends in one clear error, or a bounded number of them, soon and in little memory."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from coaxwright.findings import Result
from coaxwright.reviewing import DesignReview, review
from coaxwright.source import Limits
from coaxwright.source.problem import MOST_PROBLEMS

HEAD = "coaxwright: 1\ntitle: Sanderling Quay 2 (invented)\nbasis: {rulesets: [trade 1]}\n"
MILLION = 1_000_000
MEMORY_BYTES = 1_500_000_000
"""What an ordinary machine of a review has margin; a file of the largest size takes 0.6 GB."""
MORE = (
    f"a.coax.yaml:1:1: there are more mistakes than the {MOST_PROBLEMS:,} that are told at most; put these right first"
)
PROGRAM = f"""
import resource, sys
resource.setrlimit(resource.RLIMIT_AS, ({MEMORY_BYTES}, {MEMORY_BYTES}))
from coaxwright.reviewing import review
(design,) = review(["a.coax.yaml"]).designs
print(len(design.problems), design.result, sep="\\n")
print(*map(str, design.problems[:2]), sep="\\n")
"""


@pytest.fixture(autouse=True)
def _in_tmp(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def write(path: str, text: str) -> None:
    Path(path).parent.mkdir(parents=True, exist_ok=True)
    Path(path).write_text(text, encoding="utf-8")


def one(path: str = "a.coax.yaml") -> DesignReview:
    (design,) = review([path]).designs
    return design


def told(design: DesignReview) -> list[str]:
    return [str(problem) for problem in design.problems]


def listed(entries: Iterator[str]) -> str:
    return HEAD + f"cables: {{C: {{from: A, to: B, type: series 6, route: [{', '.join(entries)}]}}}}\n"


def devices(entries: Iterator[str]) -> str:
    return HEAD + f"devices: {{{', '.join(entries)}}}\n"


TOO_LONG = "a.coax.yaml:4:53: this list holds more than 10,000 entries; no list of a design is so long"
TOO_MANY = "a.coax.yaml:1:1: the file holds more than 1,000,000 values; divide the site into several files"
LARGE: dict[str, tuple[Callable[[], str], list[str]]] = {
    "a route of a million words": (lambda: listed("p" for _ in range(MILLION)), [TOO_LONG]),
    "a route of a million places": (lambda: listed("p: 1 m" for _ in range(MILLION)), [TOO_LONG]),
    "a million lists": (lambda: listed("[]" for _ in range(MILLION)), [TOO_LONG]),
    "a million keys": (lambda: devices(f"{number:x}: 1" for number in range(MILLION)), [TOO_MANY]),
    "a million keys of nothing": (lambda: devices(f"{number:x}" for number in range(MILLION)), [TOO_MANY]),
    "a million lines": (lambda: HEAD + "\n" * MILLION + "]", ["a.coax.yaml:1000004:1: this line does not line up with "
                        "the keys above it; check its indentation"]),
    "one text of 17 million characters": (lambda: HEAD + f"note: {'x' * 17 * MILLION}\n",
                        ["a.coax.yaml:1:1: the file is larger than 16 MB; divide the site into several files"]),
    "a route of ten thousand words": (lambda: listed("p" for _ in range(Limits().entries)),
                        [MORE, "a.coax.yaml:4:54: 'p' has no length; write '- p: 38 ft'"]),
    "a hundred thousand wrong devices": (lambda: devices(f"d{number}: {{kind: x}}" for number in range(100_000)),
                        [MORE, "a.coax.yaml:4:22: 'x' is not a known kind; write one of "]),
    "a hundred thousand wrong fields": (lambda: devices(["D: {kind: outlet, " + ", ".join(f"f{n}: 1" for n in
                        range(100_000)) + "}"]), [MORE, "a.coax.yaml:4:29: an outlet has no field 'f0'"]),
    "a hundred thousand wrong units": (lambda: HEAD + "units: {" + ", ".join(f"u{number}: {{like: x}}" for number in
                        range(100_000)) + "}\n", [MORE, "a.coax.yaml:4:20: there is no typical unit 'x'"]),
}  # fmt: skip


@pytest.mark.skipif(sys.platform != "linux", reason="the bound on memory is one of Linux")
@pytest.mark.parametrize("name", LARGE)
def test_a_large_file_ends_in_a_bounded_number_of_errors(command_server, name: str) -> None:
    """Soon, since the server waits for no command longer than a minute: ten times what the slowest of these takes."""
    make, expected = LARGE[name]
    write("a.coax.yaml", make())
    done = command_server.run([], Path.cwd(), {}, program=PROGRAM)
    count, result, *problems = done.stdout.splitlines()
    assert (done.stderr, result) == ("", Result.NOT_UNDERSTOOD)
    assert int(count) == (1 if len(expected) == 1 else MOST_PROBLEMS + 1)
    assert all(problem.startswith(start) for problem, start in zip(problems, expected, strict=True)), problems


def test_mistakes_up_to_the_bound_are_all_told() -> None:
    write("a.coax.yaml", devices(f"d{number}: {{kind: x}}" for number in range(MOST_PROBLEMS)))
    assert len(told(one())) == MOST_PROBLEMS
    assert MORE not in told(one())


def test_a_part_that_draws_itself_in() -> None:
    write("a.coax.yaml", HEAD + "includes: [b.coax-part.yaml]\n")
    write("b.coax-part.yaml", "coaxwright part: 1\nincludes: [./x/../b.coax-part.yaml]\n")
    Path("x").mkdir()
    assert told(one()) == [
        "b.coax-part.yaml:2:12: './x/../b.coax-part.yaml' includes itself (b.coax-part.yaml > b.coax-part.yaml); "
        "take one of these lines out"
    ]


def test_a_circle_by_way_of_a_link() -> None:
    write("a.coax.yaml", HEAD + "includes: [b.coax-part.yaml]\n")
    write("b.coax-part.yaml", "coaxwright part: 1\nincludes: [deep/c.coax-part.yaml]\n")
    Path("deep").mkdir()
    Path("deep/c.coax-part.yaml").symlink_to("../b.coax-part.yaml")
    assert told(one()) == [
        "b.coax-part.yaml:2:12: 'deep/c.coax-part.yaml' includes itself (b.coax-part.yaml > b.coax-part.yaml); "
        "take one of these lines out"
    ]


def test_a_part_in_a_folder_that_is_a_link_to_elsewhere(tmp_path_factory: pytest.TempPathFactory) -> None:
    outside = tmp_path_factory.mktemp("outside")
    (outside / "b.coax-part.yaml").write_text("coaxwright part: 1\n", encoding="utf-8")
    Path("parts").symlink_to(outside)
    write("a.coax.yaml", HEAD + "includes: [parts/b.coax-part.yaml]\n")
    (problem,) = told(one())
    assert problem.startswith("a.coax.yaml:4:12: 'parts/b.coax-part.yaml' lies outside the folder under review; keep")


def test_a_design_that_is_a_link_to_elsewhere(tmp_path_factory: pytest.TempPathFactory) -> None:
    outside = tmp_path_factory.mktemp("outside") / "b.coax.yaml"
    outside.write_text(HEAD, encoding="utf-8")
    Path("a.coax.yaml").symlink_to(outside)
    assert told(one(".")) == ["a.coax.yaml:1:1: this link leads out of the folder under review"]


def test_more_parts_than_any_site_has() -> None:
    names = [f"p{number:04}.coax-part.yaml" for number in range(1_002)]
    for name in names:
        write(name, "coaxwright part: 1\n")
    write("a.coax.yaml", HEAD + f"includes: [{', '.join(names)}]\n")
    assert {problem.partition(": ")[2] for problem in told(one())} == {
        "the design includes more than 1,000 parts; divide the site into several designs"
    }


def test_every_tag_twice_in_two_files() -> None:
    tags = ", ".join(f"p{number}: {{}}" for number in range(MOST_PROBLEMS + 1))
    write("a.coax.yaml", HEAD + f"includes: [b.coax-part.yaml]\nplaces: {{{tags}}}\n")
    write("b.coax-part.yaml", f"coaxwright part: 1\nplaces: {{{tags}}}\n")
    problems = told(one())
    assert problems[0] == MORE
    assert problems[1] == (
        "b.coax-part.yaml:2:10: 'p0' stands in two files, first in a.coax.yaml, line 5; give one of them another tag"
    )
    assert len(problems) == MOST_PROBLEMS + 1


def test_a_unit_that_differs_in_what_is_not_there() -> None:
    typical = "typical: {flat: {devices: {TV: {kind: outlet}}}}\n"
    write("a.coax.yaml", HEAD + typical + "units: {flat-1: {like: flat, but: {devices: {VT: {place: hall}}}}}\n")
    assert told(one()) == ["a.coax.yaml:5:46: flat has no 'VT' in its devices; its devices are TV"]
