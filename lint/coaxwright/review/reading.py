"""Reading a design with its parts, and finding the designs that a part belongs to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from coaxwright.design import NotUnderstood, understand_drawn
from coaxwright.review.search import Found, NothingToReview, find_designs, name_of
from coaxwright.source import (
    CATALOGUE_SUFFIX,
    PART_SUFFIX,
    RULESET_SUFFIX,
    Document,
    Drawn,
    ReadError,
    draw_in,
    read_beside,
    read_file,
)

NAMED_BY_DESIGNS = (PART_SUFFIX, CATALOGUE_SUFFIX, RULESET_SUFFIX)
"""Files that are reviewed by way of the designs that use them."""


def read_design(path: Path, name: str) -> Document:
    """A design with all the parts it draws in, as one document.

    Parts may lie anywhere below the working folder, or, for a design outside of it, below the design's own folder.
    Raises ReadError where its file is not readable, NotUnderstood where its parts do not make one design with it.
    """
    return understand_drawn(draw_design(path, name))


def with_users_of_parts(found: tuple[Found, ...]) -> tuple[Found, ...]:
    """What to review when parts, catalogues or rulesets are named: the designs that use them."""
    parts = [one for one in found if one.name.endswith(NAMED_BY_DESIGNS) and not one.fault]
    if not parts:
        return found
    designs = {one.name: one for one in found if one not in parts}
    for part in parts:
        users = tuple(_users(part.path))
        if not users:
            uses = "draws this part in" if part.name.endswith(PART_SUFFIX) else "names this file"
            designs[part.name] = Found(part.name, part.path, f"no design below the working folder {uses}")
        designs.update((user.name, user) for user in users if user.name not in designs)
    return tuple(sorted(designs.values()))


def _users(part: Path) -> Iterator[Found]:
    try:
        candidates = find_designs([Path()])
    except NothingToReview:
        return
    for candidate in candidates:
        if candidate.fault:
            continue
        try:
            drawn = draw_design(candidate.path, candidate.name)
        except (ReadError, NotUnderstood):
            continue  # told when that design itself is reviewed
        if any(one.name == name_of(part) for one in (*drawn.parts, *drawn.main.beside.values())):
            yield candidate


def draw_design(path: Path, name: str) -> Drawn:
    """A design's file with all the parts it draws in, not yet held to anything.

    Raises ReadError where its own file is not readable.
    """
    here = Path.cwd()
    root = here if path.resolve().is_relative_to(here) else path.parent
    main = read_file(path, name)
    beside, problems = read_beside(main, path, root, name_of)
    if beside:
        main = replace(main, beside=beside)
    drawn = draw_in(main, path, root, name_of)
    return replace(drawn, problems=(*drawn.problems, *problems)) if problems else drawn
