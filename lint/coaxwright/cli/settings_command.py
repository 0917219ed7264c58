"""``coaxwright settings``: what a design or a folder is reviewed by, and where each value comes from."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path

from coaxwright.cli.output import PLAIN_WIDTH, complain, put, say, terminal_width


class SettingsForm(StrEnum):
    """The forms in which settings are shown."""

    TEXT = "text"
    JSON = "json"


def run_settings(
    path: Path,
    form: SettingsForm = SettingsForm.TEXT,
    into: Path | None = None,
    width: int | None = None,
    *,
    returns_at: str | None = None,
    only: Sequence[str] = (),
    leave_out: Sequence[str] = (),
    reviewers_terms: Sequence[str] = (),
) -> int:
    """Show the settings and give the exit status: 0, or 2 where they or a word of the command are not understood."""
    from coaxwright.design import NotUnderstood
    from coaxwright.errors import CoaxwrightError
    from coaxwright.reports import settings_shown
    from coaxwright.reviewing.options import asked_for
    from coaxwright.reviewing.settings.shown import effective
    from coaxwright.rules import Severity

    try:
        asked = asked_for(
            returns_at=Severity(returns_at) if returns_at is not None else None,
            only=only,
            leave_out=leave_out,
            reviewers_terms=reviewers_terms,
        )
        found = effective(path, asked)
    except NotUnderstood as error:
        for problem in error.problems:
            complain(str(problem))
        return 2
    except CoaxwrightError as error:
        complain(str(error))
        return 2
    columns = width or (PLAIN_WIDTH if into is not None else terminal_width())
    text = settings_shown.render_json(found) if form is SettingsForm.JSON else settings_shown.render(found, columns)
    if into is None:
        say(text)
        return 0
    try:
        put(text, into)
    except OSError as error:
        complain(f"cannot write {into}: {(error.strerror or str(error)).lower()}")
        return 2
    return 0
