"""A cache of the test's own, a working folder beside it, and a review that tells what it had to judge anew."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from time import sleep
from typing import Any

import pytest

from coaxwright.reviewing import Review, pipeline, review
from coaxwright.reviewing.cache.program import program


@dataclass
class ReviewResults:
    """A review, and the designs that were judged for it."""

    review: Review
    judged: list[str]


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of the cache; the working folder is another one."""
    while program() is None:  # the program was written a moment ago
        sleep(0.1)
    work = tmp_path / "work"
    work.mkdir()
    monkeypatch.chdir(work)
    monkeypatch.setenv("COAXWRIGHT_CACHE", str(tmp_path / "cache"))
    return tmp_path / "cache"


@pytest.fixture
def kept(monkeypatch: pytest.MonkeyPatch) -> Callable[..., ReviewResults]:
    """Review from the cache; the same as without it, whatever the test has done before."""
    judged: list[str] = []
    real = pipeline.judge

    def counting(document: Any, *others: Any) -> Any:
        judged.append(document.name)
        return real(document, *others)

    monkeypatch.setattr(pipeline, "judge", counting)

    def run(*paths: str, **asked: Any) -> ReviewResults:
        judged.clear()
        found = review(paths or ["."], from_cache=True, **asked)
        told = ReviewResults(found, sorted(set(judged)))
        assert found == review(paths or ["."], **asked)
        return told

    return run
