"""The punch list: findings that are known and still to be mended, kept in a file of its own.

A file is named ``*.coax-punch-list.yaml`` and begins with ``coaxwright punch list: 1``. An item is the identity of a
finding, for each repeated unit one, with how grave it was when it was recorded: no line, no figure and no file, so that
a design may be moved, renamed, renumbered and put in another order. An item may stand there twice, as after a merge.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path as FilePath
from typing import Any

from coaxwright.errors import CoaxwrightError
from coaxwright.findings.finding import Finding, Identity
from coaxwright.findings.outcome import Outcome
from coaxwright.findings.preexisting import FindingRank, FindingState, Preexisting, preexisting_of, rank_of
from coaxwright.frozen_value import frozen_value
from coaxwright.network import tag_order
from coaxwright.rules import Severity
from coaxwright.shipped import shipped
from coaxwright.source import Document, Limits, Path, Position, Problem, ReadError, Span, read_file
from coaxwright.source.wording import MERGE_MARK, UNMERGED

HEADER = "coaxwright punch list"
FORMAT = 1
ITEMS = "outstanding"
PUNCH_LIST_SUFFIX = ".coax-punch-list.yaml"
SCHEMA = "punch-list-1.schema.json"
LIMITS = Limits(entries=60_000)
"""An item has some fifteen values, so that a list this long is what the bound on values leaves room for."""


class PunchListError(CoaxwrightError):
    """A file is not a punch list: everything that is wrong with it."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in problems))


@frozen_value
class Item:
    """One finding that is known, for one unit where it holds for several."""

    identity: Identity
    gravity: FindingRank

    @property
    def order(self) -> tuple[object, ...]:
        """By design and rule, then as a person expects tags: C-9 before C-10."""
        identity = self.identity
        return identity.design, identity.rule, tag_order(identity.subject), identity


@frozen_value
class PunchList:
    """The items of a file, in the order in which they stand there."""

    name: str
    items: tuple[Item, ...]
    document: Document

    @property
    def known(self) -> Preexisting:
        """What is on the list."""
        return preexisting_of((item.identity, item.gravity) for item in self.items)


def items_of(finding: Finding) -> Iterator[Item]:
    """What to record of a finding: an item for each unit that it holds for.

    None of one that is varied, since it was answered; that needs a person, who has to look each time; or that waits for
    a figure of a later stage, since nothing is outstanding yet.
    """
    gravity = rank_of(finding)
    if gravity.bearing >= FindingState.CANNOT_BE_JUDGED:
        for identity in finding.identities:
            yield Item(identity, gravity)


def read_punch_list(path: FilePath, name: str) -> PunchList:
    """The punch list in a file, which messages call ``name``.

    Raises PunchListError with everything that is wrong with it.
    """
    try:
        document = read_file(path, name, LIMITS)
    except ReadError as error:
        problem = _conflict(path, name) or error.problem
        if not path.exists():
            problem = replace(problem, expected="record one with 'coaxwright punch-list FILE PATH...'")
        raise PunchListError([problem]) from None
    return punch_list_of(document)


def punch_list_of(document: Document) -> PunchList:
    """The punch list of a document. Raises PunchListError like ``read_punch_list``."""
    header = _header_problem(document)
    if header is not None:
        raise PunchListError([header])
    if not _keeps_to(document.data):
        from coaxwright.design.plain_mistakes import plain_problems

        raise PunchListError(plain_problems(document, _schema(), "the punch list"))
    return PunchList(document.name, tuple(_items(document)), document)


def _items(document: Document) -> Iterator[Item]:
    assert isinstance(document.data, dict)  # it keeps to the schema
    for index, written in enumerate(document.data[ITEMS] or ()):

        def text(key: str, at: Path = (ITEMS, index), fields: dict[str, Any] = written) -> str:
            return document.numbers.get((*at, key)) or str(fields.get(key, ""))

        identity = Identity(
            text("design"), text("rule"), text("kind"), text("item"), second=text("second"), facet=text("facet")
        )
        could_be_judged = text("outcome") != Outcome.CANNOT_BE_JUDGED
        bearing = FindingState.NOT_MET if could_be_judged else FindingState.CANNOT_BE_JUDGED
        yield Item(identity, FindingRank(Severity(text("severity")), bearing))


def _header_problem(document: Document) -> Problem | None:
    """Why a file is no punch list of this format."""
    data = document.data
    start = document.span(()).start
    if not isinstance(data, dict) or HEADER not in data:
        what = "this is not a punch list"
        return Problem(document.name, Span(start, start), what, f"a punch list begins with '{HEADER}: {FORMAT}'")
    if data[HEADER] != FORMAT or isinstance(data[HEADER], bool):
        what = f"this program reads punch lists of format {FORMAT}"
        return Problem(document.name, document.span((HEADER,)), what, f"write '{HEADER}: {FORMAT}'")
    return None


def _conflict(path: FilePath, name: str) -> Problem | None:
    """The first mark of a merge that was not finished, in a file that cannot be read."""
    try:
        text = path.read_bytes().decode("utf-8", errors="replace").replace("\r\n", "\n") if path.is_file() else ""
    except OSError:
        return None
    found = MERGE_MARK.search(text)
    if found is None:
        return None
    line = text.count("\n", 0, found.start()) + 1
    span = Span(Position(line, 1, found.start()), Position(line, len(found.group()) + 1, found.end()))
    return Problem(name, span, UNMERGED, "keep the items of both sides, and take the lines with the marks out")


@cache
def _schema() -> dict[str, Any]:
    return json.loads((shipped("schemas") / SCHEMA).read_text(encoding="utf-8"))  # type: ignore[no-any-return]


def _keeps_to(data: object) -> bool:
    """Whether data keeps to the schema; a fast validator answers, the slower one explains."""
    return bool(_validator().is_valid(data))


@cache
def _validator() -> Any:
    try:
        import jsonschema_rs
    except ImportError:  # no wheel for this machine
        import jsonschema

        return jsonschema.Draft202012Validator(_schema())
    return jsonschema_rs.Draft202012Validator(_schema())
