"""``coaxwright levels``: what every outlet of one design gets."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING

from coaxwright.cli.output import PLAIN_WIDTH, complain, put, say, terminal_width
from coaxwright.errors import CoaxwrightError

if TYPE_CHECKING:
    from coaxwright.reports.levels import SiteLevels

BETWEEN = 23
"""Frequencies between the edges of a band that a drawing shows."""


class LevelsForm(StrEnum):
    """The forms of the levels."""

    TEXT = "text"
    CSV = "csv"
    JSON = "json"
    SVG = "svg"


def run_levels(
    path: Path,
    form: LevelsForm = LevelsForm.TEXT,
    services: Sequence[str] = (),
    outlet: str | None = None,
    suppositions: Sequence[str] = (),
    into: Path | None = None,
    width: int | None = None,
) -> int:
    """Write the levels and give the exit status: 0, or 2 for a file or word that is not understood.

    What is wrong with a design goes to standard error, so that no table or drawing is overwritten with it.
    """
    from coaxwright.computing import levels
    from coaxwright.design import NotUnderstood
    from coaxwright.source import PART_SUFFIX, ReadError

    if path.is_dir() or path.name.endswith(PART_SUFFIX):
        complain(f"levels takes one design, and {path} is a {'folder' if path.is_dir() else 'part of one'}")
        return 2
    columns = width or (PLAIN_WIDTH if into is not None else terminal_width())
    between = BETWEEN if form is LevelsForm.SVG else 0
    try:
        site = levels(path, services=services, outlet=outlet, suppositions=suppositions, between=between)
    except (ReadError, NotUnderstood):
        print(_problems(path, columns), end="", file=sys.stderr)
        return 2
    except CoaxwrightError as error:
        complain(str(error))
        return 2
    text = _rendered(site, form, columns)
    if into is None:
        say(text)
        return 0
    try:
        put(text, into)
    except OSError as error:
        complain(f"cannot write {into}: {(error.strerror or str(error)).lower()}")
        return 2
    return 0


def _problems(path: Path, columns: int) -> str:
    """What a review says of a file that is not understood."""
    from coaxwright.reports.text import render
    from coaxwright.reviewing import review

    return render(review([path]), columns)


def _rendered(site: SiteLevels, form: LevelsForm, columns: int) -> str:
    from coaxwright.reports.levels import csv_form, json_form, svg, text

    match form:
        case LevelsForm.TEXT:
            return text.render(site, columns)
        case LevelsForm.CSV:
            return csv_form.render(site)
        case LevelsForm.JSON:
            return json_form.render(site)
        case LevelsForm.SVG:
            return svg.render(site)
