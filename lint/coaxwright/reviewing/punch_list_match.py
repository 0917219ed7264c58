"""A review held against a punch list, and a punch list brought up to what a review finds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from coaxwright.findings import Finding, Identity, Result
from coaxwright.findings.preexisting import (
    FindingRank,
    FindingState,
    Preexisting,
    new_identities,
    new_units,
    rank_of,
    was,
)
from coaxwright.findings.punch_list import Item, PunchList, items_of, read_punch_list
from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.model import WHOLE_DESIGN, DesignReview, PunchListMatch, Review
from coaxwright.reviewing.search import name_of


def read_list(path: str | Path) -> PunchList:
    """The punch list at a path, called like files of a review. Raises PunchListError."""
    return read_punch_list(Path(path), name_of(Path(path)))


def match_punch_list(review: Review, punch_list: PunchList) -> Review:
    """The same review with every finding that is on the list marked as outstanding.

    A finding of several units is outstanding where it is on the list for each of them; else it is new in the others.
    One that has become graver since it was recorded is new, and says so. What is varied or for a person is not marked.
    """
    known = punch_list.known
    designs = tuple(
        replace(
            design,
            findings=tuple(_marked(finding, known) for finding in design.findings),
            folded=tuple(_marked(finding, known) for finding in design.folded),
        )
        for design in review.designs
    )
    gone = tuple(_gone(review.designs, punch_list.items, asked_only=True))
    return replace(review, designs=designs, punch_lists=(PunchListMatch(punch_list.name, gone),))


def _marked(finding: Finding, known: Preexisting) -> Finding:
    if rank_of(finding).bearing < FindingState.CANNOT_BE_JUDGED:
        return finding
    fresh = new_identities(finding, known)
    units = new_units(finding, fresh)
    if finding.new_in:  # only these are new since the revision that the review is compared with
        units = tuple(unit for unit in units if unit in finding.new_in)
    if not fresh or (finding.new_in and not units):
        return replace(finding, outstanding=True)
    if finding.new_in or len(fresh) < len(finding.identities):
        return replace(finding, new_in=units)
    before = was(finding, known)
    return replace(finding, remarks=(*finding.remarks, f"On the punch list as {before}.")) if before else finding


@frozen_value
class Recording:
    """What a punch list holds after a review was recorded, and how many items came to it in which way."""

    items: Mapping[Identity, FindingRank]
    added: int
    kept: int
    graded_anew: int
    """Of those kept, the ones that are more or less grave than they were."""
    gone: int
    """Items that are no longer found: taken off where the list is pruned, left where it is not."""
    not_reviewed: int
    """Items of designs that were not reviewed, or not judged in full."""
    doubled: int
    """Lines that said the same as another one."""


def record(review: Review, before: PunchList | None, prune: bool) -> Recording:
    """A punch list with everything that a review finds, the items of other designs left as they are."""
    listed: dict[Identity, FindingRank] = {}
    for item in before.items if before is not None else ():
        held = listed.get(item.identity)
        listed[item.identity] = item.gravity if held is None else _graver(held, item.gravity)
    found: dict[Identity, FindingRank] = {}
    for item in _recorded(review.designs):
        held = found.get(item.identity)
        found[item.identity] = item.gravity if held is None else _graver(held, item.gravity)
    unfound = [Item(identity, gravity) for identity, gravity in listed.items() if identity not in found]
    gone = {item.identity for item in _gone(review.designs, unfound, asked_only=False)}
    left = {item.identity: item.gravity for item in unfound if not (prune and item.identity in gone)}
    both = [identity for identity in found if identity in listed]
    return Recording(
        items={**left, **found},
        added=len(found) - len(both),
        kept=len(both),
        graded_anew=sum(found[identity] != listed[identity] for identity in both),
        gone=len(gone),
        not_reviewed=len(unfound) - len(gone),
        doubled=(len(before.items) if before is not None else 0) - len(listed),
    )


def _graver(one: FindingRank, other: FindingRank) -> FindingRank:
    return FindingRank(max(one.severity, other.severity), max(one.bearing, other.bearing))


def _recorded(designs: Iterable[DesignReview]) -> Iterator[Item]:
    for design in designs:
        for finding in (*design.unfolded, *design.stood):
            yield from items_of(finding)


def _gone(designs: Iterable[DesignReview], items: Iterable[Item], *, asked_only: bool) -> Iterator[Item]:
    """Items of the designs reviewed that the review would not record again.

    A rule whose check failed says nothing of its items. ``asked_only``: nor does one that was not asked of its design.
    """
    designs = [design for design in designs if design.design and design.result is not Result.NOT_UNDERSTOOD]
    found = {item.identity for item in _recorded(designs)}
    asked: dict[str, set[str]] = {}
    failed: dict[str, set[str]] = {}
    for design in designs:
        asked.setdefault(design.design, set()).update(tally.rule for tally in design.tallies)
        failed.setdefault(design.design, set()).update(crash.rule for crash in design.crashes)
    for item in {item.identity: item for item in items}.values():
        identity = item.identity
        if identity.design not in asked or identity in found:
            continue
        if WHOLE_DESIGN in failed[identity.design] or identity.rule in failed[identity.design]:
            continue
        if not asked_only or identity.rule in asked[identity.design]:
            yield item
