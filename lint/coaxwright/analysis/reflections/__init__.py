"""Where adding decibels is not good enough, and what the network does there when its waves are solved for."""

from coaxwright.analysis.reflections.model_error import ModelError, SolvedService, solve_service
from coaxwright.analysis.reflections.model_warnings import Mismatch, ModelWarning, doubts, mismatches
from coaxwright.analysis.reflections.parts import NotSolved

__all__ = [
    "Mismatch",
    "ModelError",
    "ModelWarning",
    "NotSolved",
    "SolvedService",
    "doubts",
    "mismatches",
    "solve_service",
]
