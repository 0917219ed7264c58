"""``coaxwright review``: from paths to reports and an exit status."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

from coaxwright.cli.forms import WITH_AMENDMENTS, Form, Paper, rendered
from coaxwright.cli.output import PLAIN_WIDTH, as_bytes, color_wanted, complain, put, say, terminal_width
from coaxwright.cli.progress import Progress

if TYPE_CHECKING:
    from coaxwright.cli.cached_reports import CachedReport
    from coaxwright.reviewing.run_options import RunOptions

if TYPE_CHECKING:
    from coaxwright.reviewing.search import Given


def run_review(
    paths: Sequence[str],
    form: Form = Form.TEXT,
    into: Path | None = None,
    returns_at: str | None = None,
    width: int | None = None,
    plain: bool = False,
    also: Sequence[tuple[Form, Path]] = (),
    as_of: date | None = None,
    punch_list: Path | None = None,
    since: str | None = None,
    *,
    only: Sequence[str] = (),
    leave_out: Sequence[str] = (),
    reviewers_terms: Sequence[str] = (),
    called: str | None = None,
    workers: int | None = None,
    timing: bool = False,
    door: CachedReport | None = None,
) -> int:
    """Review, report in every form asked for, and give the exit status.

    Files are written before anything is said, each in one step. One that cannot be written keeps none of the others
    from being written; it gives exit status 2 at least. ``as_of`` is the day by which variances are judged, today where
    none is named; only a day that is named is printed on forms that have a date. ``punch_list`` holds what is known and
    returns nothing; ``since`` is a git revision: what stood there is left out. ``called`` is the name of the design
    that standard input holds, where it is to be read.
    """
    from coaxwright.errors import CoaxwrightError
    from coaxwright.reviewing import NothingToReview
    from coaxwright.reviewing.comparing import review_compared
    from coaxwright.reviewing.options import asked_for
    from coaxwright.rules import Severity

    forms = {form, *(other for other, _ in also)}
    progress = Progress()
    run_options = _manner(workers, timing, progress, door)
    begun = perf_counter()
    try:
        asked = asked_for(
            returns_at=Severity(returns_at) if returns_at is not None else None,
            with_amendments=not forms.isdisjoint(WITH_AMENDMENTS),
            as_of=as_of or date.today(),
            only=only,
            leave_out=leave_out,
            reviewers_terms=reviewers_terms,
        )
        named = paths if called is None else _with_input(paths, called)
        result = review_compared(named, asked, punch_list, since, run_options)
    except NothingToReview as error:
        complain(f"{error}; nothing was reviewed")
        return 3
    except CoaxwrightError as error:  # a rule, topic, ruleset of the reviewer's, punch list or revision cannot be had
        for line in str(error).splitlines():
            complain(line)
        return 2
    finally:
        progress.end()
    elapsed_s = perf_counter() - begun
    dated = as_of.isoformat() if as_of is not None else ""
    on_file = Paper(width or PLAIN_WIDTH, dated=dated)
    targets = [*([(form, into)] if into is not None else []), *also]
    written = [_written(rendered(other, result, on_file), file) for other, file in targets]
    status = result.exit_status if all(written) else max(2, result.exit_status)
    if into is None:
        on_screen = Paper(width or terminal_width(), color_wanted(plain), dated)
        text = rendered(form, result, on_screen)
        say(text)
        if door is not None:
            door.keep(
                as_bytes(text),
                status,
                run_options.made_of,
                depends_on_day=any(design.as_of for design in result.designs),
            )
    if door is not None:
        door.close()
    if run_options.clock is not None:
        from coaxwright.cli.timing_report import timing_lines

        for line in timing_lines(run_options.clock, elapsed_s):
            print(line, file=sys.stderr)
    return status


def _manner(workers: int | None, timing: bool, progress: Progress, door: CachedReport | None) -> RunOptions:
    from coaxwright.reviewing.run_options import RunOptions

    clock = None
    if timing:
        from coaxwright.reviewing.timing import Clock

        clock = Clock()
    results = door.opened.results() if door is not None else None
    return RunOptions(workers, results, clock, progress.watch, complain)


def _with_input(paths: Sequence[str], called: str) -> list[str | Given]:
    from coaxwright.cli.standard_input import with_input

    return with_input(paths, called)


def _written(text: str, file: Path) -> bool:
    """Whether a report could be written; why not is told."""
    try:
        put(text, file)
    except OSError as error:
        complain(f"cannot write {file}: {(error.strerror or str(error)).lower()}")
        return False
    return True
