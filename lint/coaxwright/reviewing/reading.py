"""Reading a design with its parts, and finding the designs that a part belongs to."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from coaxwright.design import NotUnderstood, understand_drawn
from coaxwright.reviewing.effective_rules import with_problems_beside
from coaxwright.reviewing.search import Found, NothingToReview, find_designs, name_of, tree_of
from coaxwright.source import (
    CATALOGUE_SUFFIX,
    PART_SUFFIX,
    RULESET_SUFFIX,
    Document,
    Drawn,
    FilesRead,
    ReadError,
    decode,
    draw_in,
    read_beside,
    read_file,
    read_text,
)

NAMED_BY_DESIGNS = (PART_SUFFIX, CATALOGUE_SUFFIX, RULESET_SUFFIX)
"""Files that are reviewed by way of the designs that use them."""


def read_design(
    path: Path,
    name: str,
    files: FilesRead | None = None,
    seen: Callable[[Drawn], None] | None = None,
    *,
    content: bytes | None = None,
    with_rulesets: bool = True,
) -> Document:
    """A design with all the parts it includes, as one document, and the files that it names beside it.

    Parts may lie anywhere below the working folder, or, for a design outside of it, below the design's own folder.
    ``files``: catalogues and rulesets that were read before in the same run. ``seen`` is told of all files that it was
    read from. ``content``: what stands in place of its file. Without ``with_rulesets``, rulesets that it names by their
    files are not even looked for.
    Raises ReadError where its file is not readable, NotUnderstood where its parts do not make one design with it.
    """
    drawn = draw_design(path, name, files, content=content, with_rulesets=with_rulesets)
    if seen is not None:
        seen(drawn)
    try:
        return understand_drawn(drawn)
    except NotUnderstood as error:
        raise with_problems_beside(error, drawn.main) from None


def with_users_of_parts(found: tuple[Found, ...], files: FilesRead | None = None) -> tuple[Found, ...]:
    """What to review when parts, catalogues or rulesets are named: the designs that use them."""
    parts = [design for design in found if design.name.endswith(NAMED_BY_DESIGNS) and not design.fault]
    if not parts:
        return found
    designs = {design.name: design for design in found if design not in parts}
    uses = _uses(files)
    for part in parts:
        users = uses.get(part.path.resolve(), ())
        if not users:
            use = "includes this part" if part.name.endswith(PART_SUFFIX) else "names this file"
            designs[part.name] = Found(part.name, part.path, f"no design below the working folder {use}")
        designs.update((user.name, user) for user in users if user.name not in designs)
    return tuple(sorted(designs.values()))


def _uses(files: FilesRead | None) -> Mapping[Path, list[Found]]:
    """For each file that a design below the working folder uses, readable or not, those designs."""
    uses: dict[Path, list[Found]] = defaultdict(list)
    try:
        candidates = find_designs([Path()])
    except NothingToReview:
        return uses
    for candidate in candidates:
        if candidate.fault:
            continue
        try:
            drawn = draw_design(candidate.path, candidate.name, files)
        except ReadError:
            continue  # told when that design itself is reviewed
        used = [part.name for part in (*drawn.parts, *drawn.main.beside.values())]
        at_fault = [problem.file for problem in drawn.problems if problem.file != drawn.main.name]
        for file in {Path(name).resolve() for name in (*used, *at_fault)}:
            uses[file].append(candidate)
    return uses


def draw_design(
    path: Path,
    name: str,
    files: FilesRead | None = None,
    *,
    content: bytes | None = None,
    with_rulesets: bool = True,
) -> Drawn:
    """A design's file with all the parts it includes, not yet held to anything.

    Raises ReadError where its own file is not readable.
    """
    root = tree_of(path)
    main = read_file(path, name) if content is None else read_text(decode(content, name), name)
    suffixes = (CATALOGUE_SUFFIX, RULESET_SUFFIX) if with_rulesets else (CATALOGUE_SUFFIX,)
    beside, problems = read_beside(main, path, root, name_of, {} if files is None else files, suffixes=suffixes)
    if beside:
        main = replace(main, beside=beside)
    drawn = draw_in(main, path, root, name_of)
    return replace(drawn, problems=(*drawn.problems, *problems)) if problems else drawn
