"""The pipeline: find designs, read, judge, gather.

This room and the function that runs it share a name in the public interface, ``coaxwright.review(paths)``: importing
the room sets that very attribute of the package. So the room itself can be called, and both are one.

Its names are imported when they are first used: a result that is kept is answered without the rules.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from coaxwright.review.judge import judge as judge
    from coaxwright.review.model import WHOLE_DESIGN as WHOLE_DESIGN
    from coaxwright.review.model import Crash as Crash
    from coaxwright.review.model import DesignReview as DesignReview
    from coaxwright.review.model import Review as Review
    from coaxwright.review.model import RuleTally as RuleTally
    from coaxwright.review.pipeline import review as review
    from coaxwright.review.scope import KeptBy as KeptBy
    from coaxwright.review.scope import LeftOutDesign as LeftOutDesign
    from coaxwright.review.scope import NotAsked as NotAsked
    from coaxwright.review.scope import Scope as Scope
    from coaxwright.review.search import Found as Found
    from coaxwright.review.search import NothingToReview as NothingToReview
    from coaxwright.review.search import find_designs as find_designs
    from coaxwright.review.selection import SelectionError as SelectionError
    from coaxwright.rules import Severity

_HOMES = {
    "Crash": "model",
    "DesignReview": "model",
    "Found": "search",
    "KeptBy": "scope",
    "LeftOutDesign": "scope",
    "NotAsked": "scope",
    "NothingToReview": "search",
    "Review": "model",
    "RuleTally": "model",
    "Scope": "scope",
    "SelectionError": "selection",
    "WHOLE_DESIGN": "model",
    "find_designs": "search",
    "review": "pipeline",
}

__all__ = [
    "RETURNS_AT",
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
        workers: int | None = 1,
        from_cache: bool = False,
    ) -> Review:
        from coaxwright.review.pipeline import review

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
            workers=workers,
            from_cache=from_cache,
        )

    def __getattr__(self, name: str) -> object:
        home = _HOMES.get(name)
        if home is None:
            raise AttributeError(f"module {self.__name__!r} has no attribute {name!r}")
        return getattr(import_module(f"{self.__name__}.{home}"), name)

    @property
    def judge(self) -> object:
        """The function, not its module of the same name, which loading that module would put here."""
        return import_module(f"{self.__name__}.judge").judge

    @judge.setter
    def judge(self, _: ModuleType) -> None:
        """The import system's own wish is not followed."""


sys.modules[__name__].__class__ = _Room
