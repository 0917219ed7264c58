"""What a command or a program asks of a review, in its own words, made into what is asked of each design."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TypeVar

from coaxwright.findings import VarianceTerms
from coaxwright.reviewing.effective_rules import RuleSources, called
from coaxwright.reviewing.model import RETURNS_AT
from coaxwright.reviewing.reading import draw_design
from coaxwright.reviewing.review_request import COMMAND, AskedRuleset, LeftOut, ReviewRequest
from coaxwright.reviewing.search import Found, Given, name_of
from coaxwright.reviewing.selection import Selection, refuse_unknown, rules_on
from coaxwright.rules import RulesetError, Severity, read_ruleset
from coaxwright.source import RULESET_SUFFIX, Document, FilesRead, ReadError, read_file

_Word = TypeVar("_Word", str, "str | Path")

AskedOf = Callable[[Found], ReviewRequest]
"""Gives what is asked of a design."""


def asked_for(
    *,
    returns_at: Severity | None = None,
    with_amendments: bool = False,
    as_of: date | None = None,
    honours_variances: bool = True,
    only: Iterable[str] = (),
    leave_out: Iterable[str] = (),
    reviewers_terms: Iterable[str | Path] = (),
) -> ReviewRequest:
    """What a run begins with.

    Raises ReadError for a ruleset of the reviewer's whose file is not readable.
    """
    rulesets = tuple(dict.fromkeys(_reviewers(ruleset) for ruleset in _several(reviewers_terms)))
    return ReviewRequest(
        returns_at=returns_at or RETURNS_AT,
        with_amendments=with_amendments,
        variances=VarianceTerms(as_of or date.today(), honours_variances and not rulesets),
        returns_at_from=COMMAND if returns_at is not None else None,
        rulesets=rulesets,
        reviewers_terms=bool(rulesets),
        only=tuple(dict.fromkeys(_several(only))),
        left_out=tuple(LeftOut(name) for name in dict.fromkeys(_several(leave_out))),
    )


def given(texts: Mapping[str, str | bytes]) -> list[Given]:
    """Texts by the names of the files that they stand for."""
    return [
        Given(Path(name), text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"))
        for name, text in texts.items()
    ]


def refuse_wrong_words(
    asked: ReviewRequest, found: Sequence[Found], asked_of: AskedOf, bases: RuleSources, files: FilesRead
) -> None:
    """Refuse what the command names and nobody has, before anything is reviewed.

    Raises RulesetError for a ruleset of the reviewer's, SelectionError for a rule or topic. A rule that a firm adds is
    looked for in the rulesets of the designs to review.
    """
    if asked.reviewers_terms:
        bases.of_asked(asked.rulesets)
    names = [*asked.only, *(left.name for left in asked.left_out)]
    if names:
        refuse_unknown(names, known_to_any(names, found, asked_of, bases, files))


def known_to_any(
    names: Iterable[str], found: Sequence[Found], asked_of: AskedOf, bases: RuleSources, files: FilesRead
) -> Selection:
    """The rules of the program and, where any of the names is none of them, those that the firms of the designs add."""
    known = Selection(rules_on(bases.shelf))
    if all(map(known.has, names)):
        return known
    return Selection(known.rules | frozenset(_rules_of_firms(found, asked_of, bases, files)))


def _several(words: Iterable[_Word]) -> Iterable[_Word]:
    """Words of a call from a program, where one alone stands for a list of one, not for its letters."""
    return [words] if isinstance(words, (str, Path)) else words


def _reviewers(written: str | Path) -> AskedRuleset:
    words = str(written)
    if not words.endswith(RULESET_SUFFIX):
        return AskedRuleset(words)
    file = read_file(Path(words), name_of(Path(words)))
    return AskedRuleset(file.name, file.text, called(file))


def _rules_of_firms(found: Sequence[Found], asked_of: AskedOf, bases: RuleSources, files: FilesRead) -> Iterator[str]:
    """The rules that rulesets other than the program's speak of; what is wrong with one is told in the review."""
    for design in found:
        asked = asked_of(design)
        documents = [bases.document_of(ruleset) for ruleset in asked.rulesets if ruleset.text is not None]
        if not asked.reviewers_terms and not design.fault:
            documents += _named_by(design, files)
        for document in documents:
            try:
                yield from (operation.rule for operation in read_ruleset(document).operations)
            except RulesetError:
                continue


def _named_by(found: Found, files: FilesRead) -> list[Document]:
    try:
        beside = draw_design(found.path, found.name, files, content=found.content).main.beside
    except ReadError:
        return []
    return [document for written, document in beside.items() if written.endswith(RULESET_SUFFIX)]
