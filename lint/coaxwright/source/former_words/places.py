"""Where former words may stand: patterns of paths, gathered into one tree so that a file is walked once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from coaxwright.frozen_value import frozen_value

ANY = "*"
"""A step of a pattern: any tag of a group, or any entry of a list."""
BELOW = "**"
"""The last step of a pattern: every group at or below this place."""
Words = Mapping[str, str]
"""Former words, each with the present one."""


@frozen_value
class Place:
    """The former words of one field, or of the keys of one group."""

    at: tuple[str, ...]
    """The way to the value, or to the group, in present words."""
    words: Words
    of_keys: bool = False
    """Whether they are keys of the group, not the value itself."""
    of_kind: str = ""
    """The kind that the thing has to be of: the same word may be right in another."""


@dataclass(slots=True)
class Branching:
    """One step of the patterns: where they lead on to, and which words may stand here."""

    steps: dict[str, Branching] = field(default_factory=dict)
    keys: dict[str, str] = field(default_factory=dict)
    values: dict[str, dict[str, str]] = field(default_factory=dict)
    """For each field that is a value: its former words."""
    values_of_kind: dict[str, dict[str, dict[str, str]]] = field(default_factory=dict)
    """For each field, and each kind of the thing: its former words."""
    is_everywhere_below: bool = False
    """Whether the keys may stand in every group below as well."""
    former: frozenset[str] = frozenset()
    """At the top: every former word."""


def places(entries: Iterable[Place]) -> Branching:
    """The tree of some places."""
    entries = tuple(entries)
    top = Branching(former=frozenset(word for entry in entries for word in entry.words))
    for entry in entries:
        here = top
        steps = entry.at if entry.of_keys else entry.at[:-1]
        for step in steps:
            if step == BELOW:
                here.is_everywhere_below = True
            else:
                here = here.steps.setdefault(step, Branching())
        if entry.of_keys:
            here.keys.update(entry.words)
        elif entry.of_kind:
            here.values_of_kind.setdefault(entry.at[-1], {}).setdefault(entry.of_kind, {}).update(entry.words)
        else:
            here.values.setdefault(entry.at[-1], {}).update(entry.words)
    return top
