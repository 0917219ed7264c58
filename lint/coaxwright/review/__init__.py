"""The pipeline: find designs, read, judge, gather."""

from coaxwright.review.judge import judge
from coaxwright.review.model import Crash, DesignReview, Review, RuleTally
from coaxwright.review.pipeline import review
from coaxwright.review.search import Found, NothingToReview, find_designs

__all__ = [
    "Crash",
    "DesignReview",
    "Found",
    "NothingToReview",
    "Review",
    "RuleTally",
    "find_designs",
    "judge",
    "review",
]
