"""A design from standard input: ``coaxwright review - --called plans/a.coax.yaml``."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from coaxwright.cli.words import WrongWord

if TYPE_CHECKING:
    from coaxwright.reviewing.search import Given

STANDARD_INPUT = "-"
UNNAMED = "standard-input.coax.yaml"
"""What a design from standard input is called where nothing is said; it then lies in the working folder."""
_SUFFIX = ".coax.yaml"


def name_of_input(paths: Sequence[str], called: str | None) -> str | None:
    """What the design from standard input is called; None where none is to be read. Raises WrongWord."""
    if STANDARD_INPUT not in paths:
        if called is not None:
            raise WrongWord("--called names what standard input holds; write - among the paths to read it")
        return None
    if called is not None and not Path(called).name.endswith(_SUFFIX):
        raise WrongWord(f"--called takes the name of a design (*{_SUFFIX}), not {called!r}")
    return called if called is not None else UNNAMED


def with_input(paths: Sequence[str], called: str) -> list[str | Given]:
    """The paths, standard input's with what it holds: so much of it as tells whether it is too large."""
    from coaxwright.reviewing.search import Given
    from coaxwright.source.limits import DEFAULT

    content = sys.stdin.buffer.read(DEFAULT.size_bytes + 1)
    others: list[str | Given] = [path for path in paths if path != STANDARD_INPUT]
    return [*others, Given(Path(called), content)]
