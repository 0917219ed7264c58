"""What is asked of one design: what the command asks, and what the settings say where the command leaves it open."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.scope import LeftOutDesign
from coaxwright.reviewing.search import Found
from coaxwright.reviewing.settings.model import Settings
from coaxwright.reviewing.settings.tree import SettingsTree


def asked_in(asked: ReviewRequest, settings: Settings) -> ReviewRequest:
    """What is asked of a design for which settings hold; what the command says wins.

    Where the command names the only rules to ask, the settings leave none of them out. On the reviewer's terms nothing
    of the settings counts, and the files are named.
    """
    if not settings.files:
        return asked
    if asked.reviewers_terms:
        punch_list = (settings.punch_list.value,) if settings.punch_list is not None else ()
        return replace(asked, set_aside=(*settings.files, *punch_list))
    asked = replace(asked, settings=settings.files, mistakes=settings.mistakes)
    if settings.returns_at is not None and asked.returns_at_from is None:
        asked = replace(asked, returns_at=settings.returns_at.value, returns_at_from=settings.returns_at.origin)
    if settings.also_judged_by is not None:
        asked = replace(asked, rulesets=(*asked.rulesets, *settings.also_judged_by.value))
    if settings.rules_left_out is not None and not asked.only:
        asked = replace(asked, left_out=(*asked.left_out, *settings.rules_left_out.value))
    return asked


def parted(
    found: tuple[Found, ...], tree: SettingsTree, asked: ReviewRequest
) -> tuple[tuple[Found, ...], tuple[LeftOutDesign, ...]]:
    """What to review of what was found, and what settings leave out; what is named itself is never left out."""
    kept: list[Found] = []
    left: list[LeftOutDesign] = []
    for design in found:
        out = (
            None
            if design.is_named or asked.reviewers_terms
            else left_out_by(design.path, design.name, tree.of(design.path))
        )
        if out is None:
            kept.append(design)
        else:
            left.append(out)
    return tuple(kept), tuple(sorted(left, key=lambda left_out: left_out.name))


def left_out_by(path: Path, name: str, settings: Settings) -> LeftOutDesign | None:
    """Why a search does not review a file; None where it does."""
    if settings.files_left_out is None:
        return None
    file = path.parent.resolve() / path.name
    for entry in settings.files_left_out.value:
        if entry.pattern.means(file):
            return LeftOutDesign(name, entry.reason, str(entry.origin))
    return None
