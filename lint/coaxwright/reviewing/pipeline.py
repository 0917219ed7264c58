"""From paths to a review."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path

from coaxwright.design import NotUnderstood, whole
from coaxwright.findings import Identity
from coaxwright.reviewing.design_reviewer import Seen
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.judging import judge, not_understood
from coaxwright.reviewing.many import reviewed
from coaxwright.reviewing.model import WHOLE_DESIGN, Crash, DesignReview, Review
from coaxwright.reviewing.options import asked_for, given, refuse_wrong_words
from coaxwright.reviewing.reading import read_design, with_users_of_parts
from coaxwright.reviewing.review_request import USUAL_REQUEST, ReviewRequest
from coaxwright.reviewing.run_options import USUAL_RUN_OPTIONS, RunOptions
from coaxwright.reviewing.search import Found, Given, NothingToReview, find_designs
from coaxwright.reviewing.settings import SettingsTree, asked_in, parted
from coaxwright.rules import RulesetRegistry, Severity, shipped_registry
from coaxwright.source import Document, FilesRead, Position, Problem, ReadError, Span


def review(
    paths: Iterable[str | Path],
    *,
    returns_at: Severity | None = None,
    with_amendments: bool = False,
    as_of: date | None = None,
    honours_variances: bool = True,
    punch_list: str | Path | None = None,
    since: str | None = None,
    only: Iterable[str] = (),
    leave_out: Iterable[str] = (),
    reviewers_terms: Iterable[str | Path] = (),
    texts: Mapping[str, str | bytes] | None = None,
    workers: int | None = 1,
    from_cache: bool = False,
) -> Review:
    """Review every design at ``paths``: files, or folders with ``*.coax.yaml`` files.

    A part of a design (``*.coax-part.yaml``) stands for the designs below the working folder that draw it in, a firm's
    catalogue or ruleset for those that name it, and settings (``coax-settings.yaml``) for those of their folder.

    ``returns_at`` is the severity from which a finding returns a design: where none is named, that of the settings, or
    ``deficiency``. ``with_amendments`` proves and adds the exact changes that would mend findings, which takes a second
    look at the design for each. ``as_of`` is the day by which a variance that ends is judged, today where none is
    named. Without ``honours_variances`` variances are shown and change nothing.

    ``punch_list`` is a file of findings that are known: those return nothing. ``since`` is a git revision: only designs
    that changed after it are reviewed, and only what it did not have is told.

    ``only`` are the rules and topics that alone are asked, ``leave_out`` those that are not. ``reviewers_terms`` are
    the rulesets of a reviewer, which alone bind designs that are not trusted: what these name and grant themselves, and
    settings beside them, are shown and do not count. ``texts`` are reviewed as if they stood in the files of their
    names.

    ``workers`` is the number of processes, None for as many as pay: a program that asks for several begins with
    ``if __name__ == "__main__":``. With ``from_cache``, designs that have not changed since an earlier run are answered
    from the user's own cache folder, and what is found is kept there. Neither bears on what is given back.
    Raises NothingToReview where folders alone are given and hold no design to review, SelectionError for a rule or
    topic that there is not, RulesetError or ReadError for a ruleset of the reviewer's, PunchListError, RepositoryError.
    """
    from coaxwright.reviewing.comparing import review_compared

    asked = asked_for(
        returns_at=returns_at,
        with_amendments=with_amendments,
        as_of=as_of,
        honours_variances=honours_variances,
        only=only,
        leave_out=leave_out,
        reviewers_terms=reviewers_terms,
    )
    named: list[str | Path | Given] = [*paths, *given(texts or {})]
    if not from_cache:
        return review_compared(named, asked, punch_list, since, RunOptions(workers))
    from coaxwright.reviewing.cache.opening import Opened

    with Opened() as opened:
        return review_compared(named, asked, punch_list, since, RunOptions(workers, opened.results()))


def review_asked(
    paths: Iterable[str | Path | Given], asked: ReviewRequest, run_options: RunOptions = USUAL_RUN_OPTIONS
) -> Review:
    """Review every design at ``paths`` as it is asked. Raises what ``review`` does."""
    files: FilesRead = {}
    return review_found(found_at(paths, files), asked, files, run_options)


def found_at(paths: Iterable[str | Path | Given], files: FilesRead) -> tuple[Found, ...]:
    """The designs at ``paths``, and those that parts and other files named belong to; raises NothingToReview."""
    places = [path if isinstance(path, Given) else Path(path) for path in paths]
    return with_users_of_parts(find_designs(places), files)


def review_found(
    every: tuple[Found, ...], asked: ReviewRequest, files: FilesRead, run_options: RunOptions = USUAL_RUN_OPTIONS
) -> Review:
    """Review designs that were found; ``files`` are those beside designs that were read before in the same run.

    Raises NothingToReview where settings leave all of them out, and what ``review`` does for wrong words.
    """
    bases = RuleSources(shipped_registry())
    tree = SettingsTree(files, reads_rulesets=not asked.reviewers_terms)

    def asked_of(found: Found) -> ReviewRequest:
        return asked_in(asked, tree.of(found.path))

    found, left_out = parted(every, tree, asked)
    refuse_wrong_words(asked, found, asked_of, bases, files)
    if every and not found:
        raise NothingToReview(f"every design is left out, such as {left_out[0].name} ({left_out[0].origin})")
    tasks = [(design, asked_of(design)) for design in found]
    return Review(reviewed(tasks, review_one, run_options, files), left_out=left_out)


def review_document(
    document: Document,
    rules: RulesetRegistry | RuleSources,
    asked: ReviewRequest = USUAL_REQUEST,
) -> DesignReview:
    """Review one document that was read already; ``rules`` are those that a design may name."""
    bases = rules if isinstance(rules, RuleSources) else RuleSources(rules)
    with _collector_resting():
        return _with_amendments_asked(document, bases, asked)


def _with_amendments_asked(document: Document, bases: RuleSources, asked: ReviewRequest) -> DesignReview:
    judged = judge(document, bases, asked)
    return _with_amendments(judged, document, bases, asked) if asked.with_amendments else judged


def review_one(
    found: Found, bases: RuleSources, files: FilesRead, asked: ReviewRequest, seen: Seen = None
) -> DesignReview:
    """Review one design that was found; whatever goes wrong with it is part of what is given back."""
    with _collector_resting():  # until all that was made on the way is gone again
        return _review_one(found, bases, files, asked, seen)


def _review_one(found: Found, bases: RuleSources, files: FilesRead, asked: ReviewRequest, seen: Seen) -> DesignReview:
    if asked.mistakes:
        return not_understood(found.name, asked.mistakes, bases, asked)
    if found.fault:
        start = Position(1, 1, 0)
        return not_understood(found.name, (Problem(found.name, Span(start, start), found.fault),), bases, asked)
    try:
        document = read_design(
            found.path, found.name, files, seen, content=found.content, with_rulesets=not asked.reviewers_terms
        )
        return _with_amendments_asked(document, bases, asked)
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


def _with_amendments(
    judged: DesignReview, document: Document, bases: RuleSources, asked: ReviewRequest
) -> DesignReview:
    """The review with amendments; what is varied needs none, and mending it would leave its variance without use."""
    from coaxwright.amend import prove

    if not any(finding.mend and not finding.is_varied for finding in judged.findings):
        return judged
    document = whole(document)
    if asked.only or asked.left_out:  # an amendment adds no finding of a rule that binds the design and was not asked
        asked = replace(asked, only=(), left_out=())
        known = frozenset(_identities(judge(document, bases, asked)))
    else:
        known = frozenset(_identities(judged))

    def identities(copy: Document) -> Iterable[Identity] | None:
        again = judge(copy, bases, asked)
        if again.problems or again.crashes:
            return None
        return _identities(again)

    findings = tuple(
        replace(finding, amendment=prove(document, finding, known, identities))
        if finding.mend and not finding.is_varied
        else finding
        for finding in judged.findings
    )
    return replace(judged, findings=findings)


def _identities(review: DesignReview) -> list[Identity]:
    return [identity for finding in review.unfolded for identity in finding.identities]
