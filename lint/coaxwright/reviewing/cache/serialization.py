"""A review of one design as it is stored: JSON without names, read back by the types of its classes to an equal object.

Each object is the list of its fields in their order. The form holds for one version of the program: whatever is stored
is found by the program that stored it. Reading makes objects of the closed set of classes that a review is made of.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import fields, is_dataclass, replace
from datetime import date
from enum import Enum
from functools import cache
from operator import attrgetter
from types import NoneType, UnionType
from typing import Any, Literal, TypeAlias, TypeVar, Union, get_args, get_origin, get_type_hints

from coaxwright.checks import Citation
from coaxwright.reviewing.model import DesignReview, RuleTally
from coaxwright.rules import Rule

T = TypeVar("T")
Plain: TypeAlias = Any
"""What JSON is read to."""
_Make = Callable[[Plain], Any]
_SCALARS = (str, int, float, bool, NoneType)
_ALIKE = (RuleTally, Citation)
"""Objects of texts and whole numbers alone, and often the same ones in many designs."""


class NotStored(Exception):
    """Something is no review as this program stores one."""


def written(design: DesignReview) -> str:
    """A review of one design, without its rules: they are stored once for all designs that have them."""
    return text_of(replace(design, rules=()))


def read(text: str, rules: tuple[Rule, ...], kept: Kept | None = None) -> DesignReview:
    """The design of a text, with its rules. Raises NotStored."""
    design = made(DesignReview, text, kept)
    return replace(design, rules=rules) if rules else design


def text_of(thing: object) -> str:
    """Any of our frozen objects; equal ones give equal texts. Raises TypeError for what has no stored form."""
    return json.dumps(thing, default=_parts, separators=(",", ":"))


def made(kind: type[T], text: str, kept: Kept | None = None) -> T:
    """An object of a kind, read back. Raises NotStored."""
    try:
        found: T = (kept or Kept()).maker(kind)(json.loads(text))
    except (ValueError, TypeError, KeyError, IndexError, RecursionError) as error:
        raise NotStored(f"{kind.__name__}: {error}") from None
    return found


def _parts(thing: object) -> object:
    return _in_parts(type(thing))(thing)  # type: ignore[arg-type]  # every class can be looked up


@cache
def _in_parts(kind: type) -> Callable[[Any], object]:
    """What takes an object of a class apart."""
    if issubclass(kind, Enum):
        return attrgetter("value")
    if issubclass(kind, date):
        return kind.isoformat
    if issubclass(kind, (set, frozenset)):
        return sorted
    if is_dataclass(kind):
        names = [field.name for field in fields(kind)]
        return attrgetter(*names) if len(names) > 1 else lambda thing: [getattr(thing, names[0])]
    raise TypeError(f"{kind.__name__} has no stored form")


class Kept:
    """Makes objects from plain data; of what is alike in many designs, there is one object."""

    def __init__(self) -> None:
        self._makers: dict[object, _Make] = {str: self._one_text, tuple[Rule, ...]: tuple}
        self._texts: dict[str, str] = {}
        self._objects: dict[object, object] = {}

    def maker(self, kind: object) -> _Make:
        """What makes an object of a type from plain data."""
        if kind not in self._makers:
            self._makers[kind] = self._new_maker(kind)
        return self._makers[kind]

    def _one_text(self, text: Plain) -> str:
        if not isinstance(text, str):
            raise TypeError("no text")
        return self._texts.setdefault(text, text)

    def _new_maker(self, kind: Any) -> _Make:
        origin, inner = get_origin(kind), get_args(kind)
        if kind in _SCALARS or origin is Literal:
            return _as_it_is
        if origin is tuple:
            return self._tuple(inner)
        if origin in (Union, UnionType):
            return self._union(inner)
        if isinstance(kind, type) and issubclass(kind, Enum):
            return {member.value: member for member in kind}.__getitem__
        if kind is date:
            return date.fromisoformat
        if is_dataclass(kind):
            return self._object(kind)
        raise TypeError(f"{kind} has no stored form")

    def _tuple(self, inner: Sequence[Any]) -> _Make:
        if len(inner) == 2 and inner[1] is ...:
            each = self.maker(inner[0])
            if each is _as_it_is:
                return tuple
            return self._row(inner[0], each) if inner[0] in _ALIKE else lambda plain: tuple(map(each, plain))
        makers = [self.maker(kind) for kind in inner]
        return lambda plain: tuple(make(one) for make, one in zip(makers, plain, strict=True))

    def _row(self, kind: object, each: _Make) -> _Make:
        """What makes a row of objects that are often the same, and looks first whether it has been made."""

        def make(plain: Plain) -> Any:
            key = (kind, *map(tuple, plain))
            found = self._objects.get(key)
            if found is None:
                found = self._objects[key] = tuple(map(each, plain))
            return found

        return make

    def _union(self, inner: Iterable[Any]) -> _Make:
        kinds = [kind for kind in inner if kind is not NoneType]
        if all(kind in _SCALARS for kind in kinds):
            return _as_it_is
        (kind,) = kinds  # of a class or nothing; which of several classes was meant, plain data could not tell
        make = self.maker(kind)
        return lambda plain: None if plain is None else make(plain)

    def _object(self, kind: Any) -> _Make:
        hints = get_type_hints(kind)
        makers = [self.maker(hints[field.name]) for field in fields(kind)]
        if kind in _ALIKE:
            return lambda plain: self._one(kind(*plain))
        return lambda plain: kind(*[make(one) for make, one in zip(makers, plain, strict=True)])

    def _one(self, thing: T) -> T:
        """The first object that is equal, where there is one."""
        return self._objects.setdefault(thing, thing)  # type: ignore[return-value]  # an equal one, of its type


def _as_it_is(plain: Plain) -> Plain:
    return plain
