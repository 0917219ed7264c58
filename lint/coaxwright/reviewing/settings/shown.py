"""What holds for one design or one folder, for people who want to know where a value comes from."""

from __future__ import annotations

from pathlib import Path

from coaxwright.design import NotUnderstood
from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.options import known_to_any, refuse_wrong_words
from coaxwright.reviewing.review_request import COMMAND, ReviewRequest
from coaxwright.reviewing.scope import LeftOutDesign
from coaxwright.reviewing.search import SETTINGS_NAME, SUFFIX, Found, NothingToReview, find_designs, name_of
from coaxwright.reviewing.selection import unknown
from coaxwright.reviewing.settings.apply import asked_in, left_out_by
from coaxwright.reviewing.settings.model import Settings
from coaxwright.reviewing.settings.tree import SettingsTree
from coaxwright.rules import RulesetError, shipped_registry
from coaxwright.source import FilesRead, Position, Problem, ReadError, Span


@frozen_value
class Effective:
    """What a design, or a design in a folder, is reviewed by."""

    path: str
    asked: ReviewRequest
    settings: Settings
    left_out: LeftOutDesign | None = None
    """Why a search does not review it; None where it does."""


def effective(path: Path, asked: ReviewRequest) -> Effective:
    """What holds at a path; ``asked`` is what the command asks.

    Raises ReadError where nothing is there, NotUnderstood with everything that is wrong with its settings,
    SelectionError and RulesetError as a review does.
    """
    name = name_of(path)
    if not path.exists():
        start = Position(1, 1, 0)
        raise ReadError(Problem(name, Span(start, start), "there is no such file or folder"))
    if path.name == SETTINGS_NAME:
        path = path.parent
    files: FilesRead = {}
    tree = SettingsTree(files, reads_rulesets=not asked.reviewers_terms)
    settings = tree.of(path / f"any{SUFFIX}" if path.is_dir() else path)
    here = asked_in(asked, settings)
    found = _designs(path)
    bases = RuleSources(shipped_registry())
    refuse_wrong_words(asked, found, lambda design: asked_in(asked, tree.of(design.path)), bases, files)
    problems = [*here.mistakes, *_rulesets(here, bases)]
    left = [files for files in here.left_out if files.origin != COMMAND]
    if left and not problems:
        known = known_to_any([files.name for files in left], found, lambda _: here, bases, files)
        problems += unknown(left, known)
    if problems:
        raise NotUnderstood(problems)
    out = None if path.is_dir() or asked.reviewers_terms else left_out_by(path, name, settings)
    return Effective(name, here, settings, out)


def _designs(path: Path) -> tuple[Found, ...]:
    try:
        return find_designs([path])
    except NothingToReview:
        return ()


def _rulesets(asked: ReviewRequest, bases: RuleSources) -> list[Problem]:
    """What is wrong with the rulesets that settings ask."""
    try:
        bases.of_asked(asked.rulesets)
    except RulesetError as error:
        told = (bases.told(fault, asked) for fault in error.every)
        return [problem for problem in told if problem is not None]
    return []
