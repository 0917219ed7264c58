"""The pipeline: find designs, read, judge, gather.

This room and the function that runs it share a name in the public interface, ``coaxwright.review(paths)``: importing
the room sets that very attribute of the package. So the room itself can be called, and both are one.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path
from types import ModuleType

from coaxwright.review.judge import judge
from coaxwright.review.model import WHOLE_DESIGN, Crash, DesignReview, Review, RuleTally
from coaxwright.review.pipeline import review
from coaxwright.review.scope import KeptBy, LeftOutDesign, NotAsked, Scope
from coaxwright.review.search import Found, NothingToReview, find_designs
from coaxwright.review.selection import SelectionError
from coaxwright.rules import Severity

__all__ = [
    "WHOLE_DESIGN",
    "Crash",
    "DesignReview",
    "Found",
    "KeptBy",
    "LeftOutDesign",
    "NotAsked",
    "NothingToReview",
    "Review",
    "RuleTally",
    "Scope",
    "SelectionError",
    "find_designs",
    "judge",
    "review",
]


class _Room(ModuleType):
    """A module that can be called like its main function."""

    def __call__(
        self,
        paths: Iterable[str | Path],
        *,
        returns_at: Severity | None = None,
        with_amendments: bool = False,
        as_of: date | None = None,
        honours_variances: bool = True,
        punch_list: str | Path | None = None,
        since: str | None = None,
        only: Iterable[str] = (),
        leave_out: Iterable[str] = (),
        reviewers_terms: Iterable[str | Path] = (),
        texts: Mapping[str, str | bytes] | None = None,
    ) -> Review:
        return review(
            paths,
            returns_at=returns_at,
            with_amendments=with_amendments,
            as_of=as_of,
            honours_variances=honours_variances,
            punch_list=punch_list,
            since=since,
            only=only,
            leave_out=leave_out,
            reviewers_terms=reviewers_terms,
            texts=texts,
        )


sys.modules[__name__].__class__ = _Room
