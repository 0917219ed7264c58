"""``coaxwright show``: what was understood of one design."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path

from coaxwright.cli.output import PLAIN_WIDTH, complain, put, say, terminal_width


class ShowForm(StrEnum):
    """The forms in which a design is shown."""

    TEXT = "text"
    JSON = "json"


def run_show(path: Path, form: ShowForm = ShowForm.TEXT, into: Path | None = None, width: int | None = None) -> int:
    """Show what was understood and give the exit status: 0, or 2 for a file that is not understood."""
    from coaxwright.source import PART_SUFFIX

    if path.is_dir() or path.name.endswith(PART_SUFFIX):
        complain(f"show takes one design, and {path} is a {'folder' if path.is_dir() else 'part of one'}")
        return 2
    columns = width or (PLAIN_WIDTH if into is not None else terminal_width())
    text, status = _shown(path, form, columns)
    if into is None:
        say(text)
        return status
    try:
        put(text, into)
    except OSError as error:
        complain(f"cannot write {into}: {(error.strerror or str(error)).lower()}")
        return 2
    return status


def _shown(path: Path, form: ShowForm, columns: int) -> tuple[str, int]:
    from coaxwright.analysis import Analysis
    from coaxwright.design import NotUnderstood
    from coaxwright.reports.network_report import json_form
    from coaxwright.reports.network_report import text as text_form
    from coaxwright.reports.network_report.report import network_report
    from coaxwright.reviewing.site import read_site
    from coaxwright.source import ReadError

    try:
        site = read_site(path)  # a ruleset that is not here is a mistake, as in a review
    except (ReadError, NotUnderstood):
        return _problems(path, form, columns), 2
    network = site.network()
    read = network_report(site.document, network, Analysis(network))
    return json_form.render(read) if form is ShowForm.JSON else text_form.render(read, columns), 0


def _problems(path: Path, form: ShowForm, columns: int) -> str:
    """What a review says of a file that is not understood."""
    from coaxwright.reports.network_report import json_form
    from coaxwright.reports.text import render
    from coaxwright.reviewing import review

    told = review([path])
    if form is ShowForm.TEXT:
        return render(told, columns)
    return json_form.render_problems(told.designs[0].file, told.designs[0].problems)
