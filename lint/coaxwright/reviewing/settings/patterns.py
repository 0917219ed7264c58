"""Patterns of files, such as ``drafts/*.coax.yaml``; of a folder such as ``archive`` all that is below is meant."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from coaxwright.frozen_value import frozen_value
from coaxwright.source import quoted


@frozen_value
class Pattern:
    """A pattern, and the folder from which it counts.

    ``*`` stands for any signs within a name, ``?`` for one, ``**`` for any number of folders, none too. Everything else
    stands for itself, capitals and small letters apart.
    """

    written: str
    folder: Path
    """With no links in it."""

    def means(self, file: Path) -> bool:
        """Whether the file, or a folder that it lies in, is meant; ``file`` is a path with no links in its folder."""
        try:
            steps = file.relative_to(self.folder).parts
        except ValueError:
            return False
        meant = self.written.rstrip("/").split("/")
        return any(_alike(meant, steps[:depth], "**", _is_step) for depth in range(1, len(steps) + 1))


def what_is_wrong(written: str) -> tuple[str, str] | None:
    """Why a text is no pattern, and what was expected; None where it is one."""
    steps = written.rstrip("/").split("/")
    if "\\" in written:
        return f"{quoted(written)} has a backslash in it", "write / between folders, on every machine"
    if written.startswith("/"):
        return f"{quoted(written)} begins at the top of one machine", "write it from the folder of this file"
    if any(step in ("", ".", "..") for step in steps):
        return f"{quoted(written)} has a step that leads nowhere", "write folders and files below that of this file"
    if any("**" in step and step != "**" for step in steps):
        return f"** stands for whole folders in {quoted(written)}", "write it alone between two /, or write *"
    return None


def _is_step(pattern: str, name: str) -> bool:
    return _alike(pattern, name, "*", lambda sign, letter: sign in ("?", letter))


def _alike(pattern: Sequence[str], parts: Sequence[str], many: str, is_one: Callable[[str, str], bool]) -> bool:
    """Whether parts are as a pattern says; ``many`` stands for any number of them.

    Only the last ``many`` is ever tried again, so that no pattern takes long.
    """
    at = begin = done = 0
    last = -1
    while done < len(parts):
        if at < len(pattern) and pattern[at] == many:
            last, begin = at, done
            at += 1
        elif at < len(pattern) and is_one(pattern[at], parts[done]):
            at, done = at + 1, done + 1
        elif last >= 0:
            begin += 1
            at, done = last + 1, begin
        else:
            return False
    return all(one == many for one in pattern[at:])
