"""``coaxwright renew``: designs of an older format, or in former words, brought up to this one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from coaxwright.cli.output import complain, put, say

if TYPE_CHECKING:
    from coaxwright.reviewing.migrate_designs import MigratedDesign
    from coaxwright.source import Document
    from coaxwright.source.migration import Renewal


def run_renew(paths: Sequence[str], into: Path | None = None) -> int:
    """Renew, say what was changed, and give the exit status: 0, or 2 where a file is not understood or not written."""
    from coaxwright.reviewing import NothingToReview
    from coaxwright.reviewing.migrate_designs import renew_designs
    from coaxwright.source import PART_SUFFIX

    if into is not None and (len(paths) != 1 or Path(paths[0]).is_dir() or paths[0].endswith(PART_SUFFIX)):
        complain("--into takes the path of one design, not of several, of a folder or of a part")
        return 2
    status = 0
    try:
        for design in renew_designs(paths):
            status = max(status, _written(design, into))
    except NothingToReview as error:
        complain(f"{error}; nothing was renewed")
        return 2
    return status


def _written(design: MigratedDesign, into: Path | None) -> int:
    """Write one design's files, telling what was changed in each that was written."""
    for problem in design.problems:
        complain(str(problem))
    if design.problems:
        complain(f"{design.name} stays as it is")
        return 2
    return _put_in_place(design) if into is None else _put_into(design, into)


def _put_in_place(design: MigratedDesign) -> int:
    from coaxwright.amend import ChangedMeanwhile, put_in_place
    from coaxwright.source.formats import FORMAT

    if not design.changed:
        say(f"{design.name} is of format {FORMAT} already\n")
    for file in design.changed:
        name = file.old.name
        try:
            put_in_place(design.path_of(file.old), name, _text(file.old), _text(file.new))
        except ChangedMeanwhile as error:
            complain(str(error))
            return 2
        except OSError as error:
            complain(f"cannot write {name}: {(error.strerror or str(error)).lower()}")
            return 2
        say("".join(f"{line}\n" for line in _to_problem(file, name)))
        say(f"{name} is {_now(file)}\n")
    return 0


def _now(file: Renewal) -> str:
    from coaxwright.source.formats import FORMAT, format_of

    return "in the present words now" if format_of(file.old) in (None, FORMAT) else f"of format {FORMAT} now"


def _put_into(design: MigratedDesign, into: Path) -> int:
    from coaxwright.source.formats import FORMAT

    main, *_ = design.files
    if any(renewal is not main for renewal in design.changed):
        complain(f"other files of {design.name} have to be renewed too: renew it in place, without --into")
        return 2
    try:
        put(_text(main.new), into)
    except OSError as error:
        complain(f"cannot write {into}: {(error.strerror or str(error)).lower()}")
        return 2
    say("".join(f"{line}\n" for line in _to_problem(main, str(into))))
    say(f"{into} holds {design.name} in format {FORMAT}\n")
    return 0


def _to_problem(file: Renewal, name: str) -> Iterator[str]:
    """What was changed in a file, each at its place in the new text."""
    for change in file.changes:
        yield f"{name}:{change.place.line}:{change.place.column}: {change.what}"


def _text(document: Document) -> str:
    """A file's text as its bytes have it."""
    return f"\ufeff{document.text}" if document.has_byte_order_mark else document.text
