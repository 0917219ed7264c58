"""Which files are designs: those named, and every ``*.coax.yaml`` below the folders named."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

from coaxwright.errors import CoaxwrightError
from coaxwright.frozen_value import frozen_value

SUFFIX = ".coax.yaml"
_NEARLY = (SUFFIX, ".coax.yml")
"""How names of designs end that are not found for their capitals or their ending."""
SETTINGS_NAME = "coax-settings.yaml"
"""The file of a folder's settings; to name it is to name the designs of its folder."""


class NothingToReview(CoaxwrightError):
    """The folders named hold no design."""


@dataclass(frozen=True, slots=True, order=True)
class Found:
    """A file to review, and what findings call it: relative to the working folder, with forward slashes."""

    name: str
    path: Path
    fault: str = ""
    """Why it is not read: a link that leaves the folder named, a folder that cannot be searched."""
    is_named: bool = field(default=True, compare=False)
    """Whether it was named itself, not found below a folder."""
    content: bytes | None = field(default=None, compare=False, repr=False)
    """What stands in its place, such as an editor's text that is not saved; None for the file as it is."""


@frozen_value
class Given:
    """A text to review as if it stood in a file, which need not be there."""

    path: Path
    content: bytes


def find_designs(paths: Iterable[Path | Given]) -> tuple[Found, ...]:
    """The designs at ``paths``, each once, by name.

    Folders are searched in depth; hidden folders are left out, links to folders are not followed, and a link to a file
    outside the folder named is a fault, unless another path names that file itself. A missing path is found as it is,
    to be told when it is read; so is a folder that cannot be searched, or that holds no design while others do, and a
    file below a folder that is nearly named like a design. A text that is given stands in place of the file of its
    name.
    Raises NothingToReview where folders alone are named and hold no design.
    """
    found: dict[str, Found] = {}
    empty: list[str] = []
    for path in paths:
        if isinstance(path, Given):
            name = name_of(path.path)
            found[name] = Found(name, path.path, content=path.content)
            continue
        folder = path.parent if path.name == SETTINGS_NAME and path.is_file() else path
        candidates = tuple(_below(folder)) if folder.is_dir() else (Found(name_of(path), path),)
        if not candidates:
            empty.append(name_of(path))
        for candidate in candidates:
            known = found.get(candidate.name)
            if known is None or (known.fault and not candidate.fault):
                found[candidate.name] = candidate
            elif candidate.is_named and not candidate.fault:
                found[candidate.name] = replace(known, is_named=True)
    if not found:
        raise NothingToReview(f"no design (*{SUFFIX}) in {', '.join(sorted(empty)) or 'nothing'}")
    for name in empty:
        found.setdefault(name, Found(name, Path(name), f"this folder holds no design (*{SUFFIX})"))
    return tuple(sorted(found.values()))


def name_of(path: Path) -> str:
    """The path as findings show it."""
    try:
        relative = os.path.relpath(path)
    except ValueError:  # another drive
        return path.name
    return relative.replace(os.sep, "/")


def tree_of(path: Path) -> Path:
    """The root of the tree that a design may take files from, nothing above of which is read for it.

    The working folder, or, for a design outside of it, the design's own folder.
    """
    here = Path.cwd()
    return here if path.resolve().is_relative_to(here) else path.parent


def _below(folder: Path) -> Iterator[Found]:
    unread: list[OSError] = []
    for here, folders, files in os.walk(folder, onerror=unread.append):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(files):
            if name.endswith(SUFFIX):
                file = Path(here, name)
                yield Found(name_of(file), file, _fault(file, folder), is_named=False)
            elif name.lower().endswith(_NEARLY):
                # Left out in silence, it would be taken for reviewed.
                file = Path(here, name)
                yield Found(name_of(file), file, f"designs in a folder are named *{SUFFIX}; name it so", is_named=False)
    for error in unread:
        where = Path(error.filename)
        reason = (error.strerror or "unknown reason").lower()
        yield Found(name_of(where), where, f"this folder cannot be searched ({reason})")


def _fault(file: Path, folder: Path) -> str:
    if not file.is_symlink():
        return ""
    try:
        inside = file.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):  # a link to itself; Python says it in either way, by version
        return "this link leads nowhere"
    return "" if inside else "this link leads out of the folder under review"
