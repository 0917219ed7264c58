"""Where one process reviews one design after the other."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeAlias

from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.model import DesignReview
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.search import Found
from coaxwright.rules import Rule, shipped_registry
from coaxwright.source import Drawn, FilesRead

if TYPE_CHECKING:
    from coaxwright.reviewing.cache.results import Made
    from coaxwright.reviewing.timing import Clock

Seen: TypeAlias = "Callable[[Drawn], None] | None"
"""Is told which files a design was read from, when they are read."""
ReviewOne: TypeAlias = "Callable[[Found, RuleSources, FilesRead, ReviewRequest, Seen], DesignReview]"
_MOST_FILES = 64
_MOST_BASES = 32
"""Catalogues, rulesets and sets of rules held at once: the designs of a firm name the same few, those of an archive
each their own."""


class DesignReviewer:
    """Holds what the designs of a run have in common, and no more than a bounded part of it."""

    def __init__(self, review_one: ReviewOne, clock: Clock | None = None, files: FilesRead | None = None) -> None:
        """``files``: catalogues and rulesets that were read already."""
        self._review_one = review_one
        self._clock = clock
        self._files: FilesRead = {} if files is None else files
        self._bases = self._new_bases()
        self._drawn: list[Drawn] = []
        self._written: dict[tuple[int, ...], tuple[tuple[Rule, ...], str, str]] = {}

    def review(self, found: Found, asked: ReviewRequest) -> DesignReview:
        """The review of one design."""
        self._drawn.clear()
        if len(self._files) > _MOST_FILES:
            self._files.clear()
        if self._clock is None:
            return self._review_one(found, self._bases, self._files, asked, self._drawn.append)
        from coaxwright.reviewing.timing import timed

        return timed(self._review_one, found, self._bases, self._files, asked, self._drawn.append, self._clock)

    def made(self, found: Found, design: DesignReview) -> tuple[Made, str]:
        """The review that was made last in its stored form, and its rules in theirs.

        Raises NotStored for one whose rules are not the program's own.
        """
        from coaxwright.reviewing.cache.input_digests import digest_of
        from coaxwright.reviewing.cache.results import Made, ingredients_of
        from coaxwright.reviewing.cache.rule_serialization import rules_written
        from coaxwright.reviewing.cache.serialization import written

        key = tuple(map(id, design.rules))
        if key not in self._written:
            if len(self._written) >= _MOST_BASES:
                self._written.clear()
                self._bases = self._new_bases()
            text = rules_written(design.rules) if design.rules else ""
            digest = digest_of(text.encode("ascii")) if text else ""
            self._written[key] = (design.rules, digest, text)  # held, so that no other rules can have their ids
        _, digest, text = self._written[key]
        drawn = self._drawn[0] if self._drawn else None
        ingredients = None if design.crashes else ingredients_of(found, drawn)
        return Made(written(design), digest, design.as_of, ingredients), text

    def _new_bases(self) -> RuleSources:
        if self._clock is None:
            return RuleSources(shipped_registry())
        from coaxwright.reviewing.timing import TimedRuleSources

        return TimedRuleSources(shipped_registry(), self._clock)
