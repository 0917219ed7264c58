"""Typed access to the plain data of a catalogue file; every miss names its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from coaxwright.catalogue.errors import CatalogueError
from coaxwright.design.quantities import Quantity, QuantityError

Q = TypeVar("Q", bound=Quantity)


class Fields:
    """The fields of one entry, and where the entry stands (``cables.yaml: classes: series 6``)."""

    __slots__ = ("_fields", "path", "where")

    def __init__(self, where: str, data: object, path: tuple[str | int, ...] = ()) -> None:
        if not isinstance(data, Mapping) or not all(isinstance(name, str) for name in data):
            raise CatalogueError(where, f"expected fields, found {data!r}", path)
        self.where = where
        self.path = path
        """The same place as the way through the plain data of the file."""
        self._fields: Mapping[str, object] = data

    def __contains__(self, name: str) -> bool:
        return name in self._fields

    def names(self) -> tuple[str, ...]:
        """The names of the fields, in their order."""
        return tuple(self._fields)

    def plain(self) -> Mapping[str, object]:
        """The fields as plain data."""
        return self._fields

    def text(self, name: str) -> str:
        value = self._get(name)
        if not isinstance(value, str):
            raise CatalogueError(self._at(name), f"expected a text, found {value!r}", (*self.path, name))
        return value

    def optional_text(self, name: str) -> str | None:
        return self.text(name) if name in self else None

    def whole(self, name: str) -> int:
        value = self._get(name)
        if not isinstance(value, int) or isinstance(value, bool):
            raise CatalogueError(self._at(name), f"expected a whole number, found {value!r}", (*self.path, name))
        return value

    def optional_whole(self, name: str) -> int | None:
        return self.whole(name) if name in self else None

    def flag(self, name: str) -> bool:
        value = self._get(name)
        if not isinstance(value, bool):
            raise CatalogueError(self._at(name), f"expected true or false, found {value!r}", (*self.path, name))
        return value

    def optional_flag(self, name: str) -> bool | None:
        return self.flag(name) if name in self else None

    def quantity(self, name: str, kind: type[Q]) -> Q:
        try:
            return kind.parse(self._get(name))
        except QuantityError as error:
            raise CatalogueError(self._at(name), str(error), (*self.path, name)) from error

    def optional_quantity(self, name: str, kind: type[Q]) -> Q | None:
        return self.quantity(name, kind) if name in self else None

    def texts(self, name: str) -> tuple[str, ...]:
        """A list of texts; a missing list is empty."""
        items = self._fields.get(name, [])
        if not isinstance(items, list) or not all(isinstance(item, str) for item in items):
            raise CatalogueError(self._at(name), f"expected a list of texts, found {items!r}", (*self.path, name))
        return tuple(items)

    def text_pairs(self, name: str) -> tuple[tuple[str, str], ...]:
        """The fields of an inner entry as texts, in their order."""
        inner = self.inner(name)
        return tuple((key, inner.text(key)) for key in inner.names())

    def inner(self, name: str) -> Fields:
        return Fields(self._at(name), self._get(name), (*self.path, name))

    def inner_each(self, name: str) -> Iterator[tuple[str, Fields]]:
        """The named entries below ``name``; a missing one is empty."""
        if name in self:
            inner = self.inner(name)
            for key in inner.names():
                yield key, inner.inner(key)

    def inner_list(self, name: str) -> list[Fields]:
        """The entries of a list below ``name``; a missing list is empty."""
        items = self._fields.get(name, [])
        if not isinstance(items, list):
            raise CatalogueError(self._at(name), f"expected a list, found {items!r}", (*self.path, name))
        return [
            Fields(f"{self._at(name)}: {index}", item, (*self.path, name, index - 1))
            for index, item in enumerate(items, start=1)
        ]

    def _get(self, name: str) -> object:
        if name not in self._fields:
            raise CatalogueError(self.where, f"{name!r} is missing", self.path)
        return self._fields[name]

    def _at(self, name: str) -> str:
        return f"{self.where}: {name}"
