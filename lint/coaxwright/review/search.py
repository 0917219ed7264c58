"""Which files are designs: those named, and every ``*.coax.yaml`` below the folders named."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from coaxwright.errors import CoaxwrightError

SUFFIX = ".coax.yaml"


class NothingToReview(CoaxwrightError):
    """The folders named hold no design."""


@dataclass(frozen=True, slots=True, order=True)
class Found:
    """A file to review, and what findings call it: relative to the working folder, with forward slashes."""

    name: str
    path: Path
    fault: str = ""
    """Why it must not be read, for a link that leaves the folder named."""


def find_designs(paths: Iterable[Path]) -> tuple[Found, ...]:
    """The designs at ``paths``, each once, by name.

    Folders are searched in depth; hidden folders are left out, links to folders are not followed, and a link to a file
    outside the folder named is a fault. A missing path is found as it is, to be told when it is read.
    Raises NothingToReview where folders alone are named and hold no design.
    """
    found: dict[Path, Found] = {}
    searched: list[str] = []
    for path in paths:
        if path.is_dir():
            searched.append(name_of(path))
            for file in _below(path):
                leaves = file.is_symlink() and not file.resolve().is_relative_to(path.resolve())
                fault = "this link leads out of the folder under review" if leaves else ""
                found.setdefault(file.absolute(), Found(name_of(file), file, fault))
        else:
            found.setdefault(path.absolute(), Found(name_of(path), path))
    if not found:
        raise NothingToReview(f"no design (*{SUFFIX}) in {', '.join(searched) or 'nothing'}")
    return tuple(sorted(found.values()))


def name_of(path: Path) -> str:
    """The path as findings show it."""
    try:
        relative = os.path.relpath(path)
    except ValueError:  # another drive
        return path.name
    return relative.replace(os.sep, "/")


def _below(folder: Path) -> Iterator[Path]:
    for here, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(files):
            if name.endswith(SUFFIX):
                yield Path(here, name)
