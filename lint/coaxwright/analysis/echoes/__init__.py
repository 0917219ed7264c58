"""Where adding decibels is not good enough, and what the network does there when its waves are solved for."""

from coaxwright.analysis.echoes.departures import Departure, SolvedService, solve_service
from coaxwright.analysis.echoes.doubts import Doubt, Mismatch, doubts, mismatches
from coaxwright.analysis.echoes.parts import NotSolved

__all__ = [
    "Departure",
    "Doubt",
    "Mismatch",
    "NotSolved",
    "SolvedService",
    "doubts",
    "mismatches",
    "solve_service",
]
