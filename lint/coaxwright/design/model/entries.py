"""A design's own catalogue entries, kept as they are written: the catalogue reads them in its own words."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any


class OwnEntries:
    """Plain data in the words of a catalogue file; the schema of catalogues says what it may hold."""

    __slots__ = ("data",)

    def __init__(self, data: Mapping[str, object]) -> None:
        self.data: Mapping[str, object] = MappingProxyType(dict(data))

    @classmethod
    def schema(cls) -> dict[str, Any]:
        """Any group: what it may hold is the catalogue's to say."""
        return {"type": "object", "minProperties": 1, "$comment": "in the words of a catalogue file"}

    def __eq__(self, other: object) -> bool:
        return isinstance(other, OwnEntries) and self.data == other.data

    def __hash__(self) -> int:
        return hash(tuple(self.data))

    @classmethod
    def _parse(cls, data: object) -> OwnEntries:
        if isinstance(data, cls):
            return data
        if not isinstance(data, dict) or not data:
            raise ValueError("own catalogue entries are a group")
        return cls(data)

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: object) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(cls._parse)
