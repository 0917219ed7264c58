"""The pipeline: find designs, read, judge, gather.

Its names are imported when they are first used: a result that is kept is answered without the rules.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coaxwright.reviewing.judging import judge as judge
    from coaxwright.reviewing.model import RETURNS_AT as RETURNS_AT
    from coaxwright.reviewing.model import WHOLE_DESIGN as WHOLE_DESIGN
    from coaxwright.reviewing.model import Crash as Crash
    from coaxwright.reviewing.model import DesignReview as DesignReview
    from coaxwright.reviewing.model import Review as Review
    from coaxwright.reviewing.model import RuleTally as RuleTally
    from coaxwright.reviewing.pipeline import review as review
    from coaxwright.reviewing.scope import KeptBy as KeptBy
    from coaxwright.reviewing.scope import LeftOutDesign as LeftOutDesign
    from coaxwright.reviewing.scope import Scope as Scope
    from coaxwright.reviewing.scope import SkippedRule as SkippedRule
    from coaxwright.reviewing.search import Found as Found
    from coaxwright.reviewing.search import NothingToReview as NothingToReview
    from coaxwright.reviewing.search import find_designs as find_designs
    from coaxwright.reviewing.selection import SelectionError as SelectionError

_HOMES = {
    "RETURNS_AT": "model",
    "Crash": "model",
    "DesignReview": "model",
    "Found": "search",
    "KeptBy": "scope",
    "LeftOutDesign": "scope",
    "SkippedRule": "scope",
    "NothingToReview": "search",
    "Review": "model",
    "RuleTally": "model",
    "Scope": "scope",
    "SelectionError": "selection",
    "WHOLE_DESIGN": "model",
    "find_designs": "search",
    "judge": "judging",
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
    "NothingToReview",
    "Review",
    "RuleTally",
    "Scope",
    "SelectionError",
    "SkippedRule",
    "find_designs",
    "judge",
    "review",
]


def __getattr__(name: str) -> object:
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{home}"), name)
