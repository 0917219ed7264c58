"""From paths to a review."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from coaxwright.findings import Identity
from coaxwright.review.judge import judge, not_understood
from coaxwright.review.model import RETURNS_AT, DesignReview, Review
from coaxwright.review.search import Found, find_designs
from coaxwright.rules import Severity, Shelf, shipped_shelf
from coaxwright.source import Document, Position, Problem, ReadError, Span, read_file


def review(
    paths: Iterable[str | Path], *, returns_at: Severity = RETURNS_AT, with_amendments: bool = False
) -> Review:
    """Review every design at ``paths``: files, or folders with ``*.coax.yaml`` files.

    ``returns_at`` is the severity from which a finding returns a design; ``with_amendments`` proves and adds the exact
    changes that would mend findings, which takes a second look at the design for each.
    Raises NothingToReview where folders alone are given and hold no design.
    """
    shelf = shipped_shelf()
    designs = tuple(_review_one(found, shelf, with_amendments) for found in find_designs([Path(path) for path in paths]))
    return Review(designs, returns_at)


def review_document(document: Document, shelf: Shelf, with_amendments: bool = False) -> DesignReview:
    """Review one document that was read already."""
    judged = judge(document, shelf)
    return _with_amendments(judged, document, shelf) if with_amendments else judged


def _review_one(found: Found, shelf: Shelf, with_amendments: bool) -> DesignReview:
    if found.fault:
        start = Position(1, 1, 0)
        return not_understood(found.name, (Problem(found.name, Span(start, start), found.fault),), shelf)
    try:
        document = read_file(found.path, found.name)
    except ReadError as error:
        return not_understood(found.name, (error.problem,), shelf)
    return review_document(document, shelf, with_amendments)


def _with_amendments(judged: DesignReview, document: Document, shelf: Shelf) -> DesignReview:
    from coaxwright.amend import prove

    known = frozenset(finding.identity for finding in judged.findings)

    def identities(copy: Document) -> Iterable[Identity] | None:
        again = judge(copy, shelf)
        return None if again.problems or again.crashes else [finding.identity for finding in again.findings]

    findings = tuple(
        replace(finding, amendment=prove(document, finding, known, identities)) if finding.mend else finding
        for finding in judged.findings
    )
    return replace(judged, findings=findings)
