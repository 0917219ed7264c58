"""Values: small classes of named fields that are never changed once they are made.

The type checker holds to that: to it they are frozen dataclasses. At run time nothing stands in the way of a change, as
freezing a class, and writing out its comparisons, would take three quarters of the time that it takes to make one, and
every command would wait for some two hundred of them; a frozen value also takes three times as long to make.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, cast, dataclass_transform, overload

T = TypeVar("T")


@overload
def unchanging(cls: type[T], /) -> type[T]: ...
@overload
def unchanging(*, eq: bool = True) -> Callable[[type[T]], type[T]]: ...
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def unchanging(cls: type[T] | None = None, /, *, eq: bool = True) -> type[T] | Callable[[type[T]], type[T]]:
    """Make a class one of values, with slots, compared and hashed field by field.

    eq: without it each is equal to itself alone, as things are that stand for a place in a network.
    """

    def made(cls: Any) -> Any:
        cls = dataclass(slots=True, eq=False, repr=False)(cls)
        if "__repr__" not in cls.__dict__:
            cls.__repr__ = _repr
        if eq:
            cls.__compared__ = attrgetter(*(one.name for one in fields(cls) if one.compare))
            cls.__eq__ = _eq
            cls.__hash__ = _hash
        return cls

    return made if cls is None else cast("type[T]", made(cls))


def _eq(self: Any, other: object) -> Any:
    if self is other:
        return True
    compared = self.__compared__
    return compared(self) == compared(other) if other.__class__ is self.__class__ else NotImplemented


def _hash(self: Any) -> int:
    return hash(self.__compared__(self))


def _repr(self: Any) -> str:
    shown = (f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
    return f"{type(self).__qualname__}({', '.join(shown)})"
