"""A review that tells apart what was known before: by a punch list, by a git revision, or by both."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path

from coaxwright.reviewing.model import DesignReview, PunchListMatch, Review
from coaxwright.reviewing.pipeline import review_asked
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.run_options import USUAL_RUN_OPTIONS, RunOptions
from coaxwright.reviewing.search import Given
from coaxwright.reviewing.settings import SettingsTree


def review_compared(
    paths: Iterable[str | Path | Given],
    asked: ReviewRequest,
    punch_list: str | Path | None,
    since: str | None,
    run_options: RunOptions = USUAL_RUN_OPTIONS,
) -> Review:
    """Review as it is asked, and mark what is on the punch list; of a revision, leave out what stood there.

    Where no list is named, that of the settings counts for each design, but on the reviewer's terms.
    Raises PunchListError and RepositoryError, NothingToReview as ``review`` does.
    """
    if punch_list is not None:
        from coaxwright.reviewing.punch_list_match import match_punch_list, read_list

        listed = read_list(punch_list)
        return match_punch_list(_reviewed(paths, asked, since, run_options), listed)
    done = _reviewed(paths, asked, since, run_options)
    return done if asked.reviewers_terms else _held_by_settings(done)


def _reviewed(
    paths: Iterable[str | Path | Given], asked: ReviewRequest, since: str | None, run_options: RunOptions
) -> Review:
    if since is None:
        return review_asked(paths, asked, run_options)
    from coaxwright.reviewing.baseline import review_since

    return review_since(paths, asked, since, run_options)


def _held_by_settings(review: Review) -> Review:
    """Each design held against the list that its settings name; one that is not there yet holds nothing."""
    tree = SettingsTree(reads_rulesets=False)
    named = [tree.of(Path(design.file)).punch_list for design in review.designs]
    lists = sorted({said.value for said in named if said is not None and Path(said.value).exists()})
    if not lists:
        return review
    from coaxwright.reviewing.punch_list_match import match_punch_list, read_list

    designs: Sequence[DesignReview] = review.designs
    told: list[PunchListMatch] = []
    for name in lists:
        of_it = [index for index, said in enumerate(named) if said is not None and said.value == name]
        held = match_punch_list(replace(review, designs=tuple(designs[index] for index in of_it)), read_list(name))
        told += held.punch_lists
        marked = dict(zip(of_it, held.designs, strict=True))
        designs = [marked.get(index, design) for index, design in enumerate(designs)]
    return replace(review, designs=tuple(designs), punch_lists=tuple(told))
