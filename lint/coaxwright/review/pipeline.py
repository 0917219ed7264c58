"""From paths to a review."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path

from coaxwright.design import NotUnderstood, whole
from coaxwright.findings import Identity, VarianceTerms
from coaxwright.review.asked import USUALLY_ASKED, Asked
from coaxwright.review.desk import Seen
from coaxwright.review.judge import judge, not_understood
from coaxwright.review.manner import USUAL_MANNER, Manner
from coaxwright.review.many import reviewed
from coaxwright.review.model import RETURNS_AT, WHOLE_DESIGN, Crash, DesignReview, Review
from coaxwright.review.reading import read_design, with_users_of_parts
from coaxwright.review.search import Found, find_designs
from coaxwright.review.terms import Bases
from coaxwright.rules import Severity, Shelf
from coaxwright.source import Document, FilesRead, Position, Problem, ReadError, Span


def review(
    paths: Iterable[str | Path],
    *,
    returns_at: Severity = RETURNS_AT,
    with_amendments: bool = False,
    as_of: date | None = None,
    honours_variances: bool = True,
    workers: int | None = 1,
    from_cache: bool = False,
) -> Review:
    """Review every design at ``paths``: files, or folders with ``*.coax.yaml`` files.

    A part of a design (``*.coax-part.yaml``) stands for the designs below the working folder that draw it in, a firm's
    catalogue or ruleset for those that name it.

    ``returns_at`` is the severity from which a finding returns a design; ``with_amendments`` proves and adds the exact
    changes that would mend findings, which takes a second look at the design for each. ``as_of`` is the day by which a
    variance that ends is judged, today where none is named. Without ``honours_variances`` variances are shown and
    change nothing: for designs that are not trusted.

    ``workers`` is the number of processes, None for as many as pay: a program that asks for several begins with
    ``if __name__ == "__main__":``. With ``from_cache``, designs that have not changed since an earlier run are answered
    from the user's own cache folder, and what is found is kept there. Neither bears on what is given back.
    Raises NothingToReview where folders alone are given and hold no design.
    """
    asked = Asked(returns_at, with_amendments, VarianceTerms(as_of or date.today(), honours_variances))
    if not from_cache:
        return review_asked(paths, asked, Manner(workers))
    from coaxwright.review.cache.opening import Opened

    with Opened() as opened:
        return review_asked(paths, asked, Manner(workers, opened.results()))


def review_asked(paths: Iterable[str | Path], asked: Asked, manner: Manner = USUAL_MANNER) -> Review:
    """Review every design at ``paths`` as it is asked. Raises NothingToReview as ``review`` does."""
    files: FilesRead = {}
    found = with_users_of_parts(find_designs([Path(path) for path in paths]), files)
    return Review(reviewed([(one, asked) for one in found], review_one, manner, files))


def review_document(
    document: Document,
    rules: Shelf | Bases,
    asked: Asked = USUALLY_ASKED,
) -> DesignReview:
    """Review one document that was read already; ``rules`` are those that a design may name."""
    bases = rules if isinstance(rules, Bases) else Bases(rules)
    with _collector_resting():
        judged = judge(document, bases, asked)
        return _with_amendments(judged, document, bases, asked) if asked.with_amendments else judged


def review_one(found: Found, bases: Bases, files: FilesRead, asked: Asked, seen: Seen = None) -> DesignReview:
    """Review one design that was found; whatever goes wrong with it is part of what is given back."""
    if found.fault:
        start = Position(1, 1, 0)
        return not_understood(found.name, (Problem(found.name, Span(start, start), found.fault),), bases, asked)
    try:
        with _collector_resting():
            return review_document(read_design(found.path, found.name, files, seen), bases, asked)
    except ReadError as error:
        return not_understood(found.name, (error.problem,), bases, asked)
    except NotUnderstood as error:
        return not_understood(found.name, tuple(error.problems), bases, asked)
    except Exception as error:  # a fault of ours in one design must not hide what was found in the others
        crash = Crash(WHOLE_DESIGN, "", f"{type(error).__name__}: {error}")
        return replace(not_understood(found.name, (), bases, asked), crashes=(crash,))


@contextmanager
def _collector_resting() -> Iterator[None]:
    """Let the garbage collector rest: a design under review makes many small things and no garbage in circles."""
    was_at_work = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_at_work:
            gc.enable()


def _with_amendments(judged: DesignReview, document: Document, bases: Bases, asked: Asked) -> DesignReview:
    """The review with amendments; what is varied needs none, and mending it would leave its variance without use."""
    from coaxwright.amend import prove

    if not any(finding.mend and not finding.is_varied for finding in judged.findings):
        return judged
    document = whole(document)
    known = frozenset(identity for finding in judged.findings for identity in finding.identities)

    def identities(copy: Document) -> Iterable[Identity] | None:
        again = judge(copy, bases, asked)
        if again.problems or again.crashes:
            return None
        return [identity for finding in again.findings for identity in finding.identities]

    findings = tuple(
        replace(finding, amendment=prove(document, finding, known, identities))
        if finding.mend and not finding.is_varied
        else finding
        for finding in judged.findings
    )
    return replace(judged, findings=findings)
