"""A review that tells apart what was known before: by a punch list, by a git revision, or by both."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from coaxwright.review.asked import Asked
from coaxwright.review.model import Review
from coaxwright.review.pipeline import review_asked


def review_compared(
    paths: Iterable[str | Path], asked: Asked, punch_list: str | Path | None, since: str | None
) -> Review:
    """Review as it is asked, and mark what is on the punch list; of a revision, leave out what stood there.

    Raises PunchListError and RepositoryError before anything is reviewed, NothingToReview as ``review`` does.
    """
    from coaxwright.review.outstanding import held_against, read_list
    from coaxwright.review.since import review_since

    listed = read_list(punch_list) if punch_list is not None else None
    done = review_asked(paths, asked) if since is None else review_since(paths, asked, since)
    return done if listed is None else held_against(done, listed)
