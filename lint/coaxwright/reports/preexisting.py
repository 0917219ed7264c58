"""What was known before a review, in words, for every form of the report."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.findings import Finding
from coaxwright.findings.punch_list import Item
from coaxwright.reports.instances import units
from coaxwright.reviewing import DesignReview, Review
from coaxwright.reviewing.model import Since

_FEW = 5


def new_in(finding: Finding) -> str:
    """In which repeated units a finding is new that is known in the others."""
    return f"New in {units(finding.new_in)}; known before in the other units"


def stood(design: DesignReview) -> str:
    """``12 further findings stood at main already``; empty where nothing is left out of a design."""
    number = len(design.stood)
    return f"{number} further {_findings(number)} stood at {design.since} already" if number else ""


def lines(review: Review, design: DesignReview | None = None) -> Iterator[str]:
    """What there is to say of a comparison besides the findings, each in a sentence: all, or what is of one design."""
    if review.since is not None:
        if design is None:
            yield from _unchanged(review.since, review.nothing_changed)
        for file in review.since.not_understood:
            if design is None or file == design.file:
                yield f"{file} was not understood in full at {review.since.revision}: what it held may count as new."
    for held in review.punch_lists:
        gone = [gone_item for gone_item in held.gone if design is None or gone_item.identity.design == design.design]
        if not gone:
            continue
        number = len(gone)
        shown = "; ".join(item(gone_item) for gone_item in gone[:_FEW])
        more = f"; and {number - _FEW} more" if number > _FEW else ""
        said, them = ("item of {} is", "it") if number == 1 else ("items of {} are", "them")
        said = said.format(held.name)
        yield f"{number} {said} no longer found: {shown}{more}. 'coaxwright punch-list' with --prune takes {them} off."
    yield from _twins(review, design)


def _twins(review: Review, about: DesignReview | None) -> Iterator[str]:
    """Files that are one design by job and sheet, where something is known of it: so a copy that kept the job hides."""
    files: dict[str, list[DesignReview]] = {}
    for design in review.designs:
        if design.design:
            files.setdefault(design.design, []).append(design)
    for identity, twins in files.items():
        known = any(twin.stood or any(finding.outstanding for finding in twin.findings) for twin in twins)
        if len(twins) < 2 or not known or (about is not None and about.design != identity):
            continue
        names = [twin.file for twin in twins]
        more = f" and {len(names) - _FEW} more" if len(names) > _FEW else ""
        yield (
            f"{', '.join(names[:_FEW])}{more} are one design by their job and sheet, {identity}: what is known of one "
            "counts as known of the others. Give each a job or sheet of its own."
        )


def _unchanged(since: Since, nothing_changed: bool) -> Iterator[str]:
    number = since.unchanged
    if nothing_changed:
        were = "the one design is as it was" if number == 1 else f"all {number} designs are as they were"
        yield f"Nothing changed since {since.revision}: {were}."
    elif number == 1:
        yield f"1 further design did not change since {since.revision} and was not reviewed."
    elif number:
        yield f"{number} further designs did not change since {since.revision} and were not reviewed."


def item(item: Item) -> str:
    """An item of a punch list: ``bonding.conductor-length, GB1 (QH-07/E-2)``."""
    identity = item.identity
    return f"{identity.rule}, {identity.subject} ({identity.design})"


def _findings(number: int) -> str:
    return "finding" if number == 1 else "findings"
