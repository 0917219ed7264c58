"""A result is found again while nothing has changed that bears on it, and never otherwise."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from coaxwright.findings import Result
from coaxwright.reviewing.cache import opening, results
from coaxwright.reviewing.cache.results import ingredients_of
from coaxwright.reviewing.reading import draw_design
from coaxwright.reviewing.search import Found
from coaxwright.rules import Severity

HEAD = "coaxwright: 1\ntitle: Pipit Lane 4 (invented)\n"
BASIS = "basis: {rulesets: [trade 1]}\n"
A_DROP = "devices: {DROP: {kind: coax drop, owner: operator}}\n"
DEVICES = "devices: {SP: {kind: splitter, ways: 2}}\ncables: {C-1: {from: SP, to: NOWHERE, type: series 6}}\n"
"""With findings: the cable leads nowhere, and its length is not stated."""
PART = "coaxwright part: 1\n"
HOUSE = """ruleset: house
edition: 3
title: House rules (invented)
documents: {house: {name: the house rules, edition: "2026"}}
builds on: [trade 1]
"""


def write(name: str, text: str) -> None:
    Path(name).parent.mkdir(parents=True, exist_ok=True)
    Path(name).write_text(text, encoding="utf-8")


def test_what_has_not_changed_is_not_judged_again(kept: Callable) -> None:
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    write("b/c.coax.yaml", HEAD + BASIS)
    assert kept().judged == ["a.coax.yaml", "b/c.coax.yaml"]
    assert kept().judged == []
    assert kept("a.coax.yaml").judged == []
    write("a.coax.yaml", HEAD + BASIS)
    assert kept().judged == ["a.coax.yaml"]


def test_a_result_is_found_by_content_not_by_status(kept: Callable) -> None:
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    kept()
    status = os.stat("a.coax.yaml")
    changed = (HEAD + BASIS + DEVICES).replace("C-1", "C-7")
    write("a.coax.yaml", changed)
    os.utime("a.coax.yaml", ns=(status.st_atime_ns, status.st_mtime_ns))
    assert os.stat("a.coax.yaml").st_size == status.st_size
    assert kept().judged == ["a.coax.yaml"]
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    assert kept().judged == []


def test_a_name_is_part_of_a_result(kept: Callable) -> None:
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    kept()
    os.rename("a.coax.yaml", "b.coax.yaml")
    assert kept().judged == ["b.coax.yaml"]


@pytest.mark.parametrize(
    "asked",
    [
        {"returns_at": Severity.VIOLATION},
        {"with_amendments": True},
        {"honours_variances": False},
    ],
    ids=lambda asked: next(iter(asked)),
)
def test_what_is_asked_is_part_of_a_result(kept: Callable, asked: dict[str, object]) -> None:
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    kept()
    assert kept(**asked).judged == ["a.coax.yaml"]
    assert kept(**asked).judged == []
    assert kept().judged == []


def test_a_day_is_part_of_a_result_where_anything_depends_on_it(kept: Callable) -> None:
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    variance = "{rule: level.unused-terminated, item: SP, reason: a, granted by: b, until: 2026-05-31}"
    write("v.coax.yaml", f"{HEAD}{BASIS}{DEVICES}variances: [{variance}]\n")
    before = kept(as_of=date(2026, 5, 31))
    assert kept(as_of=date(2026, 6, 1)).judged == ["v.coax.yaml"]
    again = kept(as_of=date(2026, 5, 31))
    assert again.judged == []
    assert again.review == before.review
    assert [design.as_of for design in again.review.designs] == ["", "2026-05-31"]


def test_a_part_that_changes(kept: Callable) -> None:
    write("a.coax.yaml", f"{HEAD}{BASIS}includes: [sheets/p.coax-part.yaml]\n")
    write("sheets/p.coax-part.yaml", f"{PART}includes: [q.coax-part.yaml]\n")
    write("sheets/q.coax-part.yaml", PART + DEVICES)
    kept()
    assert kept().judged == []
    write("sheets/q.coax-part.yaml", PART + DEVICES.replace("C-1", "C-7"))
    told = kept()
    assert told.judged == ["a.coax.yaml"]
    assert any(finding.subject.tag == "C-7" for finding in told.review.findings)


def test_a_part_that_appears_later_and_goes_again(kept: Callable) -> None:
    write("a.coax.yaml", f"{HEAD}{BASIS}includes: [p.coax-part.yaml]\n")
    assert kept().review.designs[0].result is Result.NOT_UNDERSTOOD
    write("p.coax-part.yaml", PART + DEVICES)
    assert kept().review.designs[0].result is Result.RETURNED
    Path("p.coax-part.yaml").unlink()
    assert kept().review.designs[0].result is Result.NOT_UNDERSTOOD


def test_a_part_that_cannot_be_read_any_more(kept: Callable) -> None:
    write("a.coax.yaml", f"{HEAD}{BASIS}includes: [p.coax-part.yaml]\n")
    write("p.coax-part.yaml", PART + DEVICES)
    kept()
    Path("p.coax-part.yaml").write_bytes(b"\xff")
    assert kept().review.designs[0].result is Result.NOT_UNDERSTOOD


def test_a_ruleset_and_a_catalogue_that_a_design_names(kept: Callable) -> None:
    write("firm/h.coax-ruleset.yaml", HOUSE)
    write("firm/s.coax-catalogue.yaml", "coaxwright catalogue: 1\nclasses: {van 6: {like: series 6}}\n")
    named = "basis: {rulesets: [firm/h.coax-ruleset.yaml], catalogues: [firm/s.coax-catalogue.yaml]}\n"
    write("a.coax.yaml", HEAD + named + DEVICES)
    before = kept()
    assert kept().judged == []
    write("firm/h.coax-ruleset.yaml", f"{HOUSE}off: {{cable.run-length: {{reason: an invented one}}}}\n")
    told = kept()
    assert told.judged == ["a.coax.yaml"]
    assert len(told.review.designs[0].rules) == len(before.review.designs[0].rules) - 1
    assert kept().judged == []
    write("firm/s.coax-catalogue.yaml", "coaxwright catalogue: 1\nclasses: {van 6: {like: series 59}}\n")
    assert kept().judged == ["a.coax.yaml"]


def test_a_link_that_is_led_elsewhere(kept: Callable) -> None:
    write("one/p.coax-part.yaml", PART + DEVICES)
    write("two/p.coax-part.yaml", PART + DEVICES.replace("C-1", "C-7"))
    os.symlink("one", "sheets")
    write("a.coax.yaml", f"{HEAD}{BASIS}includes: [sheets/p.coax-part.yaml]\n")
    kept()
    assert kept().judged == []
    os.remove("sheets")
    os.symlink("two", "sheets")
    told = kept()
    assert told.judged == ["a.coax.yaml"]
    assert {finding.place.file for finding in told.review.findings} == {"two/p.coax-part.yaml"}


def test_a_link_to_a_file_of_the_same_content_that_is_led_elsewhere(kept: Callable) -> None:
    """The content is the same, the names in the findings are not."""
    write("one/p.coax-part.yaml", PART + DEVICES)
    shutil.copytree("one", "two")
    os.symlink("one/p.coax-part.yaml", "p.coax-part.yaml")
    write("a.coax.yaml", f"{HEAD}{BASIS}includes: [p.coax-part.yaml]\n")
    kept()
    os.remove("p.coax-part.yaml")
    os.symlink("two/p.coax-part.yaml", "p.coax-part.yaml")
    assert {finding.place.file for finding in kept().review.findings} == {"two/p.coax-part.yaml"}


def test_a_design_that_is_a_link_to_another_folder(kept: Callable) -> None:
    """Its parts lie where it lies itself."""
    for folder, tag in (("one", "C-1"), ("two", "C-7")):
        write(f"{folder}/a.coax.yaml", f"{HEAD}{BASIS}includes: [p.coax-part.yaml]\n")
        write(f"{folder}/p.coax-part.yaml", PART + DEVICES.replace("C-1", tag))
    os.symlink("one/a.coax.yaml", "a.coax.yaml")
    kept("a.coax.yaml")
    os.remove("a.coax.yaml")
    os.symlink("two/a.coax.yaml", "a.coax.yaml")
    assert "C-7" in {finding.subject.tag for finding in kept("a.coax.yaml").review.findings}


def test_a_folder_that_is_renamed(kept: Callable) -> None:
    write("old/a.coax.yaml", f"{HEAD}{BASIS}includes: [p.coax-part.yaml]\n")
    write("old/p.coax-part.yaml", PART + DEVICES)
    kept()
    os.rename("old", "new")
    told = kept()
    assert told.judged == ["new/a.coax.yaml"]
    assert {finding.place.file for finding in told.review.findings} == {"new/p.coax-part.yaml"}


def test_how_far_names_may_lead_depends_on_the_working_folder(kept: Callable, monkeypatch: pytest.MonkeyPatch) -> None:
    """From above, the part lies in the tree; from the folder below, the design of the same name has it outside."""
    write("top/p.coax-part.yaml", PART + DEVICES)
    for folder in ("top", "top/sub"):
        write(f"{folder}/below/a.coax.yaml", f"{HEAD}{BASIS}includes: [../p.coax-part.yaml]\n")
    write("top/sub/p.coax-part.yaml", PART + DEVICES)
    monkeypatch.chdir("top")
    assert kept("below/a.coax.yaml").review.designs[0].result is Result.RETURNED
    monkeypatch.chdir("sub")
    Path("p.coax-part.yaml").unlink()
    assert kept("below/a.coax.yaml").review.designs[0].result is Result.NOT_UNDERSTOOD
    monkeypatch.chdir("below")
    assert kept("a.coax.yaml").review.designs[0].result is Result.NOT_UNDERSTOOD


def test_another_program_finds_nothing_and_keeps_its_own(kept: Callable, monkeypatch: pytest.MonkeyPatch) -> None:
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    kept()
    monkeypatch.setattr(opening, "program", lambda: "another")
    assert kept().judged == ["a.coax.yaml"]
    assert kept().judged == []


def test_a_program_that_is_being_written_keeps_nothing(kept: Callable, monkeypatch: pytest.MonkeyPatch) -> None:
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    monkeypatch.setattr(opening, "program", lambda: None)
    assert kept().judged == ["a.coax.yaml"]
    assert kept().judged == ["a.coax.yaml"]


def test_mistakes_of_a_file_that_is_read_are_kept(kept: Callable) -> None:
    write("a.coax.yaml", HEAD + BASIS + "devices: {SP: {kind: splitterr}}\n")
    assert kept().review.designs[0].problems
    told = kept()
    assert told.judged == []
    assert told.review.designs[0].problems[0].nearest == "splitter"


def test_what_is_incomplete_is_not_kept(kept: Callable, monkeypatch: pytest.MonkeyPatch) -> None:
    write("a.coax.yaml", HEAD + BASIS + A_DROP)

    def fail(*_: object) -> None:
        raise RecursionError("too deep")

    with monkeypatch.context() as patched:
        from coaxwright.reviewing import pipeline

        patched.setattr(pipeline, "judge", fail)
        assert kept().review.designs[0].result is Result.INCOMPLETE
    assert kept().review.designs[0].result is Result.CLEAR


def test_a_file_that_changed_while_it_was_read_is_kept_as_it_was_read(kept: Callable, monkeypatch) -> None:
    """The digest is that of the bytes that were judged, not of those that lie there a moment later."""
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    real = results.ingredients_of

    def after_a_change(found: Found, drawn: object) -> object:
        write("a.coax.yaml", HEAD + BASIS + A_DROP)
        return real(found, drawn)

    monkeypatch.setattr(results, "ingredients_of", after_a_change)
    from coaxwright.reviewing import review

    assert review(["."], from_cache=True).designs[0].result is Result.RETURNED
    monkeypatch.setattr(results, "ingredients_of", real)
    assert kept().review.designs[0].result is Result.CLEAR
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    told = kept()
    assert told.judged == []
    assert told.review.designs[0].result is Result.RETURNED


def test_a_byte_order_mark_is_part_of_the_content(kept: Callable) -> None:
    Path("a.coax.yaml").write_bytes(b"\xef\xbb\xbf" + (HEAD + BASIS + DEVICES).encode())
    kept()
    assert kept().judged == []
    write("a.coax.yaml", HEAD + BASIS + DEVICES)
    assert kept().judged == ["a.coax.yaml"]


def test_the_ingredients_of_a_design_in_several_files() -> None:
    write("a.coax.yaml", f"{HEAD}{BASIS}includes: [sub/p.coax-part.yaml]\n")
    write("sub/p.coax-part.yaml", PART)
    found = Found("a.coax.yaml", Path("a.coax.yaml"))
    made = ingredients_of(found, draw_design(found.path, found.name))
    assert made is not None
    part = str(Path("sub/p.coax-part.yaml").resolve())
    assert [path for path, _ in made.files] == ["a.coax.yaml", part]
    assert made.links == ((part, part),)
    assert made.here == str(Path.cwd())
    Path("sub/p.coax-part.yaml").unlink()
    assert ingredients_of(found, draw_design(found.path, found.name)) is None
    assert ingredients_of(found, None) is None
