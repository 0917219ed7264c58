"""Patterns of files in settings."""

from __future__ import annotations

import time
from fnmatch import fnmatchcase
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.reviewing.settings.patterns import Pattern, what_is_wrong

TOP = Path("/plans")
MEANT = {
    "archive": ("archive/a.coax.yaml", "archive/2010/b/a.coax.yaml"),
    "archive/": ("archive/a.coax.yaml",),
    "a.coax.yaml": ("a.coax.yaml",),
    "drafts/*.coax.yaml": ("drafts/a.coax.yaml",),
    "**/drafts": ("drafts/a.coax.yaml", "x/y/drafts/z/a.coax.yaml"),
    "**/a.coax.yaml": ("a.coax.yaml", "x/y/a.coax.yaml"),
    "x/**/a.coax.yaml": ("x/a.coax.yaml", "x/y/z/a.coax.yaml"),
    "x/**": ("x/a.coax.yaml", "x/y/a.coax.yaml"),
    "**": ("a.coax.yaml", "x/y/a.coax.yaml"),
    "flat-?": ("flat-1/a.coax.yaml",),
    "**/old-*/**/*.coax.yaml": ("old-1/a.coax.yaml", "x/old-/y/z/a.coax.yaml"),
    "**/x/**/x/a.coax.yaml": ("x/x/a.coax.yaml", "x/x/x/a.coax.yaml", "y/x/z/x/x/a.coax.yaml"),
    "[a].coax.yaml": ("[a].coax.yaml",),
}
NOT_MEANT = {
    "archive": ("archive.coax.yaml", "x/archive/a.coax.yaml", "Archive/a.coax.yaml", "archives/a.coax.yaml"),
    "drafts/*.coax.yaml": ("drafts/x/a.coax.yaml", "a.coax.yaml"),
    "**/drafts": ("drafts-2/a.coax.yaml",),
    "x/**/a.coax.yaml": ("a.coax.yaml", "y/x/a.coax.yaml"),
    "flat-?": ("flat-12/a.coax.yaml", "flat-/a.coax.yaml"),
    "**/x/**/x/a.coax.yaml": ("x/a.coax.yaml",),
    "[a].coax.yaml": ("a.coax.yaml",),
    "*": (),
}


@pytest.mark.parametrize(("written", "file"), [(written, file) for written in MEANT for file in MEANT[written]])
def test_what_a_pattern_means(written: str, file: str) -> None:
    assert what_is_wrong(written) is None
    assert Pattern(written, TOP).means(TOP / file)


@pytest.mark.parametrize(("written", "file"), [(written, file) for written in NOT_MEANT for file in NOT_MEANT[written]])
def test_what_a_pattern_does_not_mean(written: str, file: str) -> None:
    assert not Pattern(written, TOP).means(TOP / file)


def test_nothing_outside_of_its_folder_is_meant() -> None:
    assert not Pattern("**", TOP).means(Path("/other/a.coax.yaml"))
    assert Pattern("a", TOP / "x").means(TOP / "x" / "a")
    assert not Pattern("a", TOP / "x").means(TOP / "a")


@given(st.text("ab*?", min_size=1, max_size=8), st.text("ab", min_size=1, max_size=8))
def test_within_a_name_the_signs_mean_what_a_shell_means(pattern: str, name: str) -> None:
    """The standard library's matching of names as a shell does it is the oracle; ``**`` within a name is one ``*``."""
    if pattern == "**":
        pattern = "*"
    assert Pattern(pattern, TOP).means(TOP / name) is fnmatchcase(name, pattern)


@pytest.mark.parametrize(("written", "name"), [("*a" * 60 + "b", "a" * 200), ("**/a/" * 40 + "b", "/".join("a" * 90))])
def test_no_pattern_takes_long(written: str, name: str) -> None:
    begin = time.perf_counter()
    assert not Pattern(written, TOP).means(TOP / name)
    assert time.perf_counter() - begin < 2  # one that tries every way would take longer than the universe


WRONG = {
    "/archive": "begins at the top of one machine",
    "../other": "has a step that leads nowhere",
    "a/./b": "has a step that leads nowhere",
    "a//b": "has a step that leads nowhere",
    "": "has a step that leads nowhere",
    "a\\b": "has a backslash in it",
    "a**": "stands for whole folders",
    "x/**y/z": "stands for whole folders",
}


@pytest.mark.parametrize("written", WRONG)
def test_what_is_no_pattern(written: str) -> None:
    wrong = what_is_wrong(written)
    assert wrong is not None
    assert WRONG[written] in wrong[0]
    assert wrong[1]
