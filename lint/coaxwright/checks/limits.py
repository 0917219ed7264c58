"""Limits as checks ask for them. A check declares the dimension of each; the loader of rulesets proves it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar, cast

from coaxwright.design.quantities import Quantity
from coaxwright.frozen_value import frozen_value

Q = TypeVar("Q", bound=Quantity)


@frozen_value
class Citation:
    """Where a figure or a duty is published."""

    document: str
    """Short name: ``NFPA 70``; or ``common practice``."""
    title: str = ""
    edition: str = ""
    clause: str = ""
    confidence: str = "found"
    """``found``, ``found in part``, ``from memory``, ``derived`` or ``common practice``."""

    def __str__(self) -> str:
        if self.confidence == "common practice":
            return "common practice, no source"
        edition = (" (", self.edition, ")") if self.edition else ()
        clause = (", ", self.clause) if self.clause else ()
        remark = (" [", self.confidence, "]") if self.confidence != "found" else ()
        return "".join((self.document, *edition, *clause, *remark))


@frozen_value
class LimitKind:
    """The shape of a limit: its dimension, and the names of the keys it is tabled by."""

    dimension: type[Quantity]
    by: tuple[str, ...] = ()


@frozen_value
class Limit:
    """One figure with its source and the ruleset that set it."""

    name: str
    keys: tuple[str, ...]
    value: Quantity
    source: Citation
    origin: str


class Limits:
    """The limits of one rule."""

    def __init__(self, limits: Mapping[tuple[str, ...], Limit]) -> None:
        """``limits`` by name and keys: ``("longest", "series 6")``."""
        self._limits = limits
        self._keys: dict[str, tuple[tuple[str, ...], ...]] = {}

    def one(self, dimension: type[Q], name: str) -> Q:
        """A figure that every ruleset with the rule sets: the loader refuses a rule without it."""
        return cast("Q", self._limits[(name,)].value)

    def row(self, dimension: type[Q], name: str, *keys: str) -> Q | None:
        """A figure of a table by its keys; None where the table has no row for them."""
        limit = self._limits.get((name, *keys))
        return None if limit is None else cast("Q", limit.value)

    def source(self, key: tuple[str, ...]) -> Citation:
        """Where a limit, by its name and keys, is published."""
        return self._limits[key].source

    def keys(self, name: str) -> tuple[tuple[str, ...], ...]:
        """The rows of a table, in the ruleset's order."""
        if name not in self._keys:
            self._keys[name] = tuple(key[1:] for key in self._limits if key[0] == name)
        return self._keys[name]

    def all(self) -> tuple[Limit, ...]:
        """Every limit, in the ruleset's order."""
        return tuple(self._limits.values())

    def __eq__(self, other: object) -> bool:
        return self._limits == other._limits if isinstance(other, Limits) else NotImplemented

    __hash__ = None  # type: ignore[assignment]  # what may be equal without being the same is looked up by nothing
