"""``coaxwright levels``: what every outlet of one design gets."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path

from coaxwright.cli.output import PLAIN_WIDTH, complain, put, say, terminal_width
from coaxwright.errors import CoaxwrightError

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
    """Write the levels and give the exit status: 0, or 2 for a file or word that is not understood."""
    from coaxwright.source import PART_SUFFIX

    if path.is_dir() or path.name.endswith(PART_SUFFIX):
        complain(f"levels takes one design, and {path} is a {'folder' if path.is_dir() else 'part of one'}")
        return 2
    columns = width or (PLAIN_WIDTH if into is not None else terminal_width())
    try:
        text, status = _levels(path, form, services, outlet, suppositions, columns)
    except CoaxwrightError as error:
        complain(str(error))
        return 2
    if into is None:
        say(text)
        return status
    try:
        put(text, into)
    except OSError as error:
        complain(f"cannot write {into}: {(error.strerror or str(error)).lower()}")
        return 2
    return status


def _levels(
    path: Path, form: LevelsForm, services: Sequence[str], outlet: str | None, suppositions: Sequence[str], columns: int
) -> tuple[str, int]:
    from coaxwright.computing import levels
    from coaxwright.design import NotUnderstood
    from coaxwright.reports.levels import csv_form, json_form, svg, text
    from coaxwright.source import ReadError

    between = BETWEEN if form is LevelsForm.SVG else 0
    try:
        site = levels(path, services=services, outlet=outlet, suppositions=suppositions, between=between)
    except (ReadError, NotUnderstood):
        from coaxwright.reports.text import render
        from coaxwright.review import review

        return render(review([path]), columns), 2
    match form:
        case LevelsForm.TEXT:
            return text.render(site, columns, outlet), 0
        case LevelsForm.CSV:
            return csv_form.render(site), 0
        case LevelsForm.JSON:
            return json_form.render(site), 0
        case LevelsForm.SVG:
            return svg.render(site, outlet), 0
