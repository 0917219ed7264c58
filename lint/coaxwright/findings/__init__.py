"""Findings: what they hold, what identifies them, their order and how they fold."""

from coaxwright.findings.finding import Amendment, Finding, Identity, Place, VarianceTerms, Varied
from coaxwright.findings.fold import Folded, fold, gathered
from coaxwright.findings.outcome import Outcome, Result

__all__ = [
    "Amendment",
    "Finding",
    "Folded",
    "Identity",
    "Outcome",
    "Place",
    "Result",
    "VarianceTerms",
    "Varied",
    "fold",
    "gathered",
]
