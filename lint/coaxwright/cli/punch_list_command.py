"""``coaxwright punch-list``: record what a review finds now, so that only what is new returns a design."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from coaxwright.cli.output import complain, put, say

if TYPE_CHECKING:
    from coaxwright.findings.punch_list import PunchList
    from coaxwright.reviewing import Review
    from coaxwright.reviewing.punch_list_match import Recording

_ENDINGS = (
    ".coax-punch-list.yaml",
    ".coax-punch-list.yml",
    ".coax-punch-list",
    ".punch-list.yaml",
    ".coax.yaml",
    ".yaml",
    ".yml",
    ".txt",
)
"""Ends of names that are taken for a slip of the right one."""


def run_punch_list(file: Path, paths: Sequence[str], prune: bool = False, as_of: date | None = None) -> int:
    """Review, bring the list up to what was found, and say how many items came to it in which way.

    Gives the exit status: 0, 2 where the list or a design is not understood or the list cannot be written, 3 where the
    review is incomplete. Of a design that is not understood, or a rule whose check failed, the items stay as they are.
    """
    from coaxwright.findings.punch_list import PunchListError
    from coaxwright.reviewing import NothingToReview
    from coaxwright.reviewing.options import asked_for
    from coaxwright.reviewing.pipeline import review_asked
    from coaxwright.reviewing.punch_list_match import read_list, record

    wrong = wrong_name(file)
    if wrong:
        complain(wrong)
        return 2
    try:
        before = read_list(file) if file.exists() or file.is_symlink() else None
        done = review_asked(paths, asked_for(as_of=as_of or date.today()))
        recorded = record(done, before, prune)
        status = _write(file, before, recorded)
    except PunchListError as error:
        for problem in error.problems:
            complain(str(problem))
        return 2
    except NothingToReview as error:
        complain(f"{error}; nothing was recorded")
        return 3
    for line in (*_stopped(done), *(_to_problem(file, recorded, before, prune, done) if status == 0 else ())):
        say(f"{line}\n")
    return max(status, done.exit_status if done.exit_status > 1 else 0)


def wrong_name(file: Path) -> str:
    """What is wrong with the name of a punch list, with the one that was probably meant; empty for nothing."""
    from coaxwright.findings.punch_list import PUNCH_LIST_SUFFIX

    name = file.name
    if name.endswith(PUNCH_LIST_SUFFIX) and name != PUNCH_LIST_SUFFIX:
        return ""
    stem = next((name[: -len(ending)] for ending in _ENDINGS if name.casefold().endswith(ending)), name)
    meant = file.with_name(f"{stem or 'site'}{PUNCH_LIST_SUFFIX}") if name else Path(f"site{PUNCH_LIST_SUFFIX}")
    return f"a punch list is named *{PUNCH_LIST_SUFFIX}, not {name!r}; did you mean '{meant}'?"


def _write(file: Path, before: PunchList | None, recorded: Recording) -> int:
    """Write the list where it is another one, in one step, and give the exit status of that. Raises PunchListError."""
    from coaxwright.amend import ChangedMeanwhile, put_in_place
    from coaxwright.amend.punch_lines import rewritten, written
    from coaxwright.findings.punch_list import Item

    try:
        if before is None:
            put(written(Item(*item) for item in recorded.items.items()), file)
            return 0
        text = rewritten(before, recorded.items)
        if text != before.document.text:
            mark = "\ufeff" if before.document.has_byte_order_mark else ""
            put_in_place(file, before.name, mark + before.document.text, mark + text)
    except ChangedMeanwhile as error:
        complain(str(error))
        return 2
    except OSError as error:
        complain(f"cannot write {file}: {(error.strerror or str(error)).lower()}")
        return 2
    return 0


def _stopped(done: Review) -> Iterator[str]:
    """What kept designs from being judged in full."""
    from coaxwright.reports import wording

    for design in done.designs:
        for problem in design.problems:
            yield f"{wording.where_mistaken(problem)}: not understood: {wording.one_line(problem.message)}"
        for crash in design.crashes:
            yield f"{wording.one_line(design.file)}: incomplete: {wording.failure(crash)}"
        if design.is_nothing_asked:
            yield f"{wording.one_line(design.file)}: incomplete: {wording.nothing_asked(design)}"


def _to_problem(file: Path, recorded: Recording, before: PunchList | None, prune: bool, done: Review) -> Iterator[str]:
    """How many items are new, stayed and went, and of how many designs nothing could be recorded."""
    number = len(recorded.items)
    items = f"{number} {'item' if number == 1 else 'items'}"
    yield f"{file} {'is written, with' if before is None else 'holds'} {items}:"
    off = "taken off" if prune else "no longer found, and kept: --prune takes them off"
    counts = (
        (recorded.added, "added"),
        (
            recorded.kept,
            f"known already{f', {recorded.graded_anew} of them graded anew' if recorded.graded_anew else ''}",
        ),
        (recorded.gone, off),
        (recorded.not_reviewed, "of designs that were not reviewed, or not in full, and kept"),
        (recorded.doubled, "written twice, and now once"),
    )
    told = [f"  {count} {what}" for count, what in counts if count]
    unread = sum(bool(design.problems) or design.is_nothing_asked for design in done.designs)
    if unread:
        told.append(
            f"  nothing recorded of {unread} {'design' if unread == 1 else 'designs'} that could not be reviewed"
        )
    yield from told or ["  nothing is outstanding"]
