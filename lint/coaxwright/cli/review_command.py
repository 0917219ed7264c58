"""``coaxwright review``: from paths to a report and an exit status."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING

from coaxwright.cli.output import PLAIN_WIDTH, colour_wanted, complain, put, say, terminal_width

if TYPE_CHECKING:
    from coaxwright.review import Review


class Form(StrEnum):
    """The forms of a report."""

    TEXT = "text"
    JSON = "json"
    SARIF = "sarif"
    SARIF_CODE_HOST = "sarif-code-host"


def run_review(
    paths: Sequence[str],
    form: Form = Form.TEXT,
    into: Path | None = None,
    returns_at: str = "deficiency",
    width: int | None = None,
    plain: bool = False,
) -> int:
    """Review, report, and give the exit status."""
    from coaxwright.review import NothingToReview, review
    from coaxwright.rules import Severity

    try:
        result = review(paths, returns_at=Severity(returns_at), with_amendments=form is not Form.TEXT)
    except NothingToReview as error:
        complain(f"{error}; nothing was reviewed")
        return 3
    if form is Form.TEXT:
        from coaxwright.reports.text import render

        columns = width or (PLAIN_WIDTH if into is not None else terminal_width())
        text = render(result, columns, into is None and colour_wanted(plain))
    else:
        text = _FORMS[form](result)
    if into is None:
        say(text)
        return result.exit_status
    try:
        put(text, into)
    except OSError as error:
        complain(f"cannot write {into}: {(error.strerror or str(error)).lower()}")
        return max(2, result.exit_status)
    return result.exit_status


def _json(review: Review) -> str:
    from coaxwright.reports.json_report import render

    return render(review)


def _sarif(review: Review) -> str:
    from coaxwright.reports.sarif import render

    return render(review, "full")


def _sarif_code_host(review: Review) -> str:
    from coaxwright.reports.sarif import render

    return render(review, "code host")


_FORMS: Mapping[Form, Callable[[Review], str]] = {
    Form.JSON: _json,
    Form.SARIF: _sarif,
    Form.SARIF_CODE_HOST: _sarif_code_host,
}
