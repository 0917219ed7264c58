"""Where the rulesets and schemas that come with the program are, however it was installed."""

from __future__ import annotations

from functools import cache
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


@cache
def shipped(folder: str) -> Path:
    """The folder ``rulesets`` or ``schemas``: inside an installed package, else at the top of the checkout.

    Never looked for from the working directory: a repository under review may hold folders of the same names.
    Raises FileNotFoundError where the installation is broken.
    """
    for candidate in (_PACKAGE / folder, _PACKAGE.parents[1] / folder):
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"the folder {folder!r} is missing from this installation of coaxwright")
