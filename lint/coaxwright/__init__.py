"""Coaxwright: review of coaxial wiring designs against rules, with reasons, sources and remedies.

The names in ``__all__`` are the public interface; each is imported when it is first used, so that asking for the
version costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from coaxwright.version import VERSION as __version__  # noqa: N811

if TYPE_CHECKING:
    from coaxwright.design import Design as Design
    from coaxwright.errors import CoaxwrightError as CoaxwrightError
    from coaxwright.findings import Finding as Finding
    from coaxwright.findings import Outcome as Outcome
    from coaxwright.loading import load as load
    from coaxwright.plant import Plant as Plant
    from coaxwright.plant import build_plant as build_plant
    from coaxwright.review import Review as Review
    from coaxwright.review import review as review
    from coaxwright.rules import Severity as Severity

_HOMES = {
    "CoaxwrightError": "coaxwright.errors",
    "Design": "coaxwright.design",
    "Finding": "coaxwright.findings",
    "Outcome": "coaxwright.findings",
    "Plant": "coaxwright.plant",
    "Review": "coaxwright.review",
    "Severity": "coaxwright.rules",
    "build_plant": "coaxwright.plant",
    "load": "coaxwright.loading",
    "review": "coaxwright.review",
}

__all__ = [
    "CoaxwrightError",
    "Design",
    "Finding",
    "Outcome",
    "Plant",
    "Review",
    "Severity",
    "__version__",
    "build_plant",
    "load",
    "review",
]


def __getattr__(name: str) -> object:
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module 'coaxwright' has no attribute {name!r}")
    return getattr(import_module(home), name)


def __dir__() -> list[str]:
    return sorted(__all__)
