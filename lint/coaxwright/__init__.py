"""Coaxwright: review of coaxial wiring designs against rules, with reasons, sources and remedies.

The names in ``__all__`` are the public interface; each is imported when it is first used, so that asking for the
version costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from coaxwright.version import VERSION as __version__  # noqa: N811

if TYPE_CHECKING:
    from coaxwright.analysis import Analysis as Analysis
    from coaxwright.computing import levels as levels
    from coaxwright.design import Design as Design
    from coaxwright.errors import CoaxwrightError as CoaxwrightError
    from coaxwright.findings import Finding as Finding
    from coaxwright.findings import Outcome as Outcome
    from coaxwright.loading import load as load
    from coaxwright.loading import load_network as load_network
    from coaxwright.network import Known as Known
    from coaxwright.network import Network as Network
    from coaxwright.network import Unknown as Unknown
    from coaxwright.network import build_network as build_network
    from coaxwright.reports.levels import SiteLevels as SiteLevels
    from coaxwright.reviewing import Review as Review
    from coaxwright.reviewing import review as review
    from coaxwright.rules import Severity as Severity

_HOMES = {
    "Analysis": "coaxwright.analysis",
    "CoaxwrightError": "coaxwright.errors",
    "Design": "coaxwright.design",
    "Finding": "coaxwright.findings",
    "Known": "coaxwright.network",
    "Outcome": "coaxwright.findings",
    "Network": "coaxwright.network",
    "Review": "coaxwright.reviewing",
    "Severity": "coaxwright.rules",
    "SiteLevels": "coaxwright.reports.levels",
    "Unknown": "coaxwright.network",
    "build_network": "coaxwright.network",
    "levels": "coaxwright.computing",
    "load": "coaxwright.loading",
    "load_network": "coaxwright.loading",
    "review": "coaxwright.reviewing",
}

__all__ = [
    "Analysis",
    "CoaxwrightError",
    "Design",
    "Finding",
    "Known",
    "Network",
    "Outcome",
    "Review",
    "Severity",
    "SiteLevels",
    "Unknown",
    "__version__",
    "build_network",
    "levels",
    "load",
    "load_network",
    "review",
]


_FORMER_NAMES = {"Plant": "Network", "build_plant": "build_network", "load_plant": "load_network"}
"""Names of earlier versions, which keep working."""


def __getattr__(name: str) -> object:
    name = _FORMER_NAMES.get(name, name)
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module 'coaxwright' has no attribute {name!r}")
    return getattr(import_module(home), name)


def __dir__() -> list[str]:
    return sorted(__all__)
