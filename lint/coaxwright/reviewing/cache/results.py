"""What was found in each design, kept from one run to the next."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from hashlib import blake2b
from pathlib import Path

from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.cache.database import Database, Row
from coaxwright.reviewing.cache.folder import NoCache
from coaxwright.reviewing.cache.input_digests import Ingredients, Looked, digest_of, lead_on
from coaxwright.reviewing.cache.rule_serialization import rules_read
from coaxwright.reviewing.cache.serialization import Kept, NotStored, made, read, text_of
from coaxwright.reviewing.model import DesignReview
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.search import Found, name_of
from coaxwright.rules import Rule
from coaxwright.source import Document, Drawn, included_by
from coaxwright.source.referenced_files import named_beside

_AT_ONCE = 200
"""Results that are written together."""


@frozen_value
class Made:
    """One design's review as it was made, ready to be kept or to be handed from process to process."""

    review: str
    """As ``stored.written`` writes it."""
    rules: str
    """The digest of its rules as they are written; empty for one that has none."""
    as_of: str
    """The day for which it holds; empty for every day."""
    ingredients: Ingredients | None
    """None for one that is not to be kept."""


@frozen_value
class _Value:
    """A result in the database."""

    review: str
    rules: str
    ingredients: Ingredients


class Results:
    """The results of earlier runs, and those of this one. After the first NoCache nothing more is found or kept."""

    def __init__(self, database: Database, program: str, fresh: bool = False) -> None:
        """``program``: what it was made by; ``fresh``: nothing is asked for, all is kept."""
        self.trouble = ""
        """Why results are not kept any more."""
        self.kept = Kept()
        self._database = database
        self._program = program
        self._fresh = fresh
        self.looked = Looked()
        self._asked: dict[ReviewRequest, str] = {}
        self._rules: dict[str, tuple[Rule, ...]] = {"": ()}
        self._written: set[str] = set()
        self._rows: list[Row] = []

    def find(self, found: Found, asked: ReviewRequest) -> tuple[DesignReview, Ingredients] | None:
        """The review of a design as it was, where nothing that bears on it has changed."""
        if self.trouble or found.fault or found.content is not None:
            return None
        content = self.looked.digest(str(found.path))
        if content is None or self._fresh:
            return None
        try:
            return self._found(found, asked, content)
        except NoCache as error:
            self.trouble = str(error)
        except NotStored:  # of another form than this program's: never so, while its digest takes in all of it
            pass
        return None

    def _found(self, found: Found, asked: ReviewRequest, content: str) -> tuple[DesignReview, Ingredients] | None:
        days, places = ("", asked.variances.as_of.isoformat()), ("", _place(os.getcwd(), str(found.path)))
        hit = self._database.get(self._key(found.name, asked, content), [_variant(d, p) for p in places for d in days])
        if hit is None:
            return None
        value = made(_Value, hit[1].decode("ascii"))
        ingredients = value.ingredients
        if not lead_on(ingredients.links):
            return None
        if any(self.looked.digest(path) != digest for path, digest in ingredients.files[1:]):
            return None
        if value.rules not in self._rules:
            rules = self._database.get(self._rules_key(value.rules), [""])
            if rules is None:
                return None
            self._rules[value.rules] = rules_read(rules[1].decode("ascii"))
        own = ((str(found.path), content), *ingredients.files[1:])
        review = read(value.review, self._rules[value.rules], self.kept)
        return review, replace(ingredients, files=own)

    def keep(self, found: Found, asked: ReviewRequest, done: Made, rules: str | None) -> None:
        """Keep a review; ``rules`` are those of its digest as they are written, where they may be new here."""
        if self.trouble:
            return
        if rules and done.rules not in self._written:
            self._written.add(done.rules)
            self._rows.append((self._rules_key(done.rules), "", rules.encode("ascii")))
        if done.ingredients is None:
            return
        ingredients = done.ingredients
        key = self._key(found.name, asked, ingredients.files[0][1])
        place = _place(ingredients.here, str(found.path)) if ingredients.here else ""
        value = text_of(_Value(done.review, done.rules, ingredients))
        self._rows.append((key, _variant(done.as_of, place), value.encode("ascii")))
        if len(self._rows) >= _AT_ONCE:
            self.write()

    def write(self) -> None:
        """Write what was kept since the last time."""
        rows, self._rows = self._rows, []
        if rows and not self.trouble:
            try:
                self._database.put(rows)
            except NoCache as error:
                self.trouble = str(error)

    def _key(self, name: str, asked: ReviewRequest, content: str) -> bytes:
        said = self._asked.get(asked)
        if said is None:
            of_no_day = replace(asked, variances=replace(asked.variances, as_of=date.max))
            said = self._asked[asked] = digest_of(text_of(of_no_day).encode("ascii"))
        return _key("design", self._program, text_of(name), said, content)

    def _rules_key(self, digest: str) -> bytes:
        return _key("rules", self._program, digest)


def ingredients_of(found: Found, drawn: Drawn | None) -> Ingredients | None:
    """The files that a review was made of; None where one of them could not be read, or is no more what it was."""
    if drawn is None or drawn.problems or found.content is not None:
        return None
    own = (str(found.path), _digest(drawn.main))
    named = {part.name: part for part in (*drawn.parts, *drawn.main.beside.values())}
    if not named:
        return Ingredients((own,))
    links: dict[str, str] = {}
    files: dict[str, str] = {}
    ways = [(os.path.realpath(found.path), drawn.main)]
    ways += [(os.path.realpath(part.name), part) for part in drawn.parts]
    for home, document in ways:
        for written in _named_in(document):
            path = os.path.join(os.path.dirname(home), written)
            end = os.path.realpath(path)
            document_there = named.get(name_of(Path(end)))
            if document_there is None:
                return None
            links[path] = end
            files[end] = _digest(document_there)
    if len(files) != len(named):
        return None
    return Ingredients((own, *sorted(files.items())), tuple(sorted(links.items())), os.getcwd())


def _named_in(document: Document) -> Iterator[str]:
    """The files that a file includes or names, as they are written."""
    yield from (name for name in included_by(document) if isinstance(name, str))
    yield from (written for _, written in named_beside(document))


def _digest(document: Document) -> str:
    """The digest of the very bytes that were read."""
    mark = b"\xef\xbb\xbf" if document.has_byte_order_mark else b""
    return digest_of(mark + document.text.encode("utf-8"))


def _place(here: str, path: str) -> str:
    """From where names lead: the working folder, and the design's own path with no links in it."""
    return text_of([here, os.path.realpath(path)])


def _variant(as_of: str, place: str) -> str:
    return text_of([as_of, place])


def _key(*parts: str) -> bytes:
    return blake2b("\0".join(parts).encode("ascii"), digest_size=20).digest()
