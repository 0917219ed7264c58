"""The former words that a file is written in, and its data in the present ones."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache
from typing import Any

from coaxwright.frozen_value import frozen_value
from coaxwright.source.document import Branch, Document, Path
from coaxwright.source.former_words.places import ANY, Branching


@frozen_value
class Former:
    """One former word, at its path as it is written."""

    path: Path
    """Of the value; or of the value whose key it is."""
    old: str
    new: str
    is_key: bool


def find(document: Document, table: Branching) -> list[Former]:
    """Every former word of a file, each above what stands below it.

    A former key beside the present one stays: which of the two is meant is the author's to say.
    """
    if type(document) is Document and not _may_hold(document.text, table.former):
        return []
    return list(_found(document.data, table, (), document.data))


def _may_hold(text: str, words: frozenset[str]) -> bool:
    """Whether a text may hold one of some words: one that is broken over lines or written with escapes counts as well.

    Most files hold none, and need not be walked through.
    """
    if "\\" in text:
        return True
    for parts, pattern in _searches(words):
        for part in parts:
            if part not in text:
                break
        else:
            if pattern.search(text):
                return True
    return False


@cache
def _searches(words: frozenset[str]) -> tuple[tuple[tuple[str, ...], re.Pattern[str]], ...]:
    """The parts of each word, longest first, and what finds it whole; those that hold another one are left out."""
    needed = sorted(word for word in words if not any(other in word for other in words - {word}))
    return tuple(
        (
            tuple(sorted(word.split(" "), key=len, reverse=True)),
            re.compile(r"\s+".join(map(re.escape, word.split(" ")))),
        )
        for word in needed
    )


def with_present_words(document: Document, table: Branching) -> Document:
    """The document itself, its data in the present words; each value is still known to stand where it is written."""
    former = find(document, table)
    if former:
        apply(document.data, former)
        _rename_spots(document, former)
        _rename_numbers(document, former)
    return document


def apply(data: Any, former: Iterable[Former]) -> None:
    """Put the present words into the data that the former ones were found in."""
    for word in reversed(list(former)):  # what stands below is at its former path as long as nothing above has moved
        container = _at(data, word.path[:-1])
        if word.is_key:
            _rename(container, word.old, word.new)
        else:
            container[word.path[-1]] = word.new


def _found(data: Any, here: Branching, path: Path, whole: object) -> Iterator[Former]:
    if isinstance(data, list):
        yield from _found_in_list(data, here, path, whole)
        return
    if not isinstance(data, dict):
        return
    for old, new in here.keys.items():
        if old in data and new not in data:
            yield Former((*path, old), old, new, True)
    for field, words in here.values.items():
        key = _written_key(data, field, here) if here.keys else field
        value = data.get(key)
        if value.__class__ is str and value in words:
            yield Former((*path, key), value, words[value], False)
    for field, by_kind in here.values_of_kind.items():
        value = data.get(field)
        if value.__class__ is str and any(value in words for words in by_kind.values()):
            words = by_kind.get(_kind(data, path, whole), {})
            if value in words:
                yield Former((*path, field), value, words[value], False)
    for key, value in data.items():
        if value.__class__ is not dict and value.__class__ is not list:
            continue
        renamed = here.keys.get(key)
        below = here.steps.get(renamed or key) or here.steps.get(ANY) or (here if here.is_everywhere_below else None)
        if below is not None:
            yield from _found(value, below, (*path, key), whole)


def _written_key(data: Any, field: str, here: Branching) -> str:
    """The key of a field: the present one, or a former one where that is written."""
    former = (old for old, new in here.keys.items() if new == field and old in data)
    return field if field in data else next(former, field)


def _found_in_list(data: list[Any], here: Branching, path: Path, whole: Any) -> Iterator[Former]:
    words = here.values.get(ANY)
    below = here.steps.get(ANY)
    for index, value in enumerate(data):
        if words is not None and value.__class__ is str and value in words:
            yield Former((*path, index), value, words[value], False)
        elif below is not None:
            yield from _found(value, below, (*path, index), whole)


def _kind(thing: Any, path: Path, whole: Any) -> str:
    """The kind of a thing; of what differs in a unit, that of the typical unit's thing where it says none itself."""
    if "kind" in thing or path[:1] != ("units",):
        return str(thing.get("kind"))
    unit = _at(whole, path[:2])
    like = unit.get("like") if isinstance(unit, dict) else None
    return str(_at(whole, ("typical", str(like), *path[3:], "kind")))


def _at(data: Any, path: Path) -> Any:
    """What stands at a path; None where there is nothing."""
    for step in path:
        if isinstance(data, dict):
            data = data.get(step)
        elif isinstance(data, list) and isinstance(step, int):
            data = data[step]
        else:
            return None
    return data


def _rename(group: dict[str, Any], old: str, new: str) -> None:
    """The key under another name, at its place among the others."""
    renamed = {(new if key == old else key): value for key, value in group.items()}
    group.clear()
    group.update(renamed)


def _rename_spots(document: Document, former: list[Former]) -> None:
    for word in reversed(former):
        if not word.is_key:
            continue
        spot = document.spots
        for step in word.path[:-1]:
            spot = spot.items.get(step) if isinstance(spot, Branch) else None
        if isinstance(spot, Branch) and word.old in spot.items:
            _rename(spot.items, word.old, word.new)  # type: ignore[arg-type]
            _rename(spot.keys, word.old, word.new)


def _rename_numbers(document: Document, former: list[Former]) -> None:
    names = {word.path: word.new for word in former if word.is_key}
    if not names or not document.numbers:
        return
    renamed = {
        tuple(names.get(path[: at + 1], step) for at, step in enumerate(path)): text
        for path, text in document.numbers.items()
    }
    document.numbers.clear()
    document.numbers.update(renamed)
