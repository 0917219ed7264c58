"""Values: small classes of named fields that are never changed once they are made.

The type checker holds to that: to it they are frozen dataclasses, and for ``replace`` and ``fields`` of the standard
library they are dataclasses. At run time nothing stands in the way of a change: a frozen value takes three times as
long to make. What the standard library writes for a class it writes when the first of its values is made: a command
defines some hundred and fifty of these classes, and uses half.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, cast, dataclass_transform, overload

T = TypeVar("T")


@overload
def frozen_value(cls: type[T], /) -> type[T]: ...
@overload
def frozen_value(*, eq: bool = True) -> Callable[[type[T]], type[T]]: ...
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen_value(cls: type[T] | None = None, /, *, eq: bool = True) -> type[T] | Callable[[type[T]], type[T]]:
    """Make a class one of values, with slots, compared and hashed field by field.

    eq: without it each is equal to itself alone, as things are that stand for a place in a network.
    """

    def made(cls: Any) -> Any:
        return _made(cls, eq)

    return made if cls is None else cast("type[T]", made(cls))


def _made(cls: Any, eq: bool) -> Any:
    body = dict(cls.__dict__)
    names = tuple(body["__annotations__"])
    said = {name: body.pop(name) for name in names if name in body}
    for name in ("__dict__", "__weakref__"):
        del body[name]
    body |= {"__slots__": names, "__match_args__": names}
    body |= {name: _Later(said) for name in ("__init__", "__dataclass_fields__", "__compared__")}
    body.setdefault("__repr__", _repr)
    if eq:
        body = {"__eq__": _eq, "__hash__": _hash} | body
    return type(cls)(cls.__name__, cls.__bases__, body)


class _Later:
    """Stands for what the standard library makes of a class, until it is first asked for."""

    __slots__ = ("name", "owner", "said")

    def __init__(self, said: Mapping[str, Any]) -> None:
        """``said``: the defaults of fields, and what else is said of them."""
        self.said = said

    def __set_name__(self, owner: Any, name: str) -> None:
        self.owner, self.name = owner, name

    def __get__(self, value: object, cls: object) -> Any:
        own = self.owner
        body = {name: own.__dict__[name] for name in ("__annotations__", "__module__", "__doc__")}
        if hasattr(own, "__post_init__"):
            body["__post_init__"] = own.__post_init__
        twin: Any = dataclass(eq=False, repr=False)(type(own.__name__, (), {**body, **self.said}))
        own.__init__ = twin.__init__
        own.__dataclass_fields__ = twin.__dataclass_fields__
        own.__compared__ = attrgetter(*(one.name for one in fields(twin) if one.compare))
        return getattr(own if value is None else value, self.name)


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
