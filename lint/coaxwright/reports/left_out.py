"""The designs that settings leave out of a review, as a page of their own behind the pages of the others. Markdown."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.reports import wording
from coaxwright.reports.markdown import plain, wrapped
from coaxwright.reviewing import Review


def pages(review: Review, width: int) -> list[str]:
    """The page, within ``width`` columns; none where nothing is left out."""
    return ["\n".join(_lines(review, max(60, width)))] if review.left_out else []


def _lines(review: Review, width: int) -> Iterator[str]:
    yield "# Left out of this review"
    yield ""
    yield from wrapped("Settings leave these designs out when a folder is searched. Nothing is said of them.", width)
    yield ""
    for design in review.left_out[: wording.MOST_ITEMS]:
        text = wording.one_line(f"{design.name}: {design.reason} ({design.origin})")
        yield from wrapped(plain(text), width, "- ")
    if len(review.left_out) > wording.MOST_ITEMS:
        yield f"- {len(review.left_out) - wording.MOST_ITEMS} more"
