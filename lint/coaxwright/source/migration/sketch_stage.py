"""From format 0, the sketch stage of the format, to format 1: two words for sections and fields, and a cable's ends.

Format 0 said ``grounding`` for ``bonding``, ``run`` for ``route``, and a cable's ends in one list, ``between: [A, B]``,
the first of them where the signal comes from.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import Any

from coaxwright.source.document import Document, Path
from coaxwright.source.migration.step import Change, Step
from coaxwright.source.migration.text import renamed, spread
from coaxwright.source.problem import Problem, ReadError

_GROUNDING, _BONDING = "grounding", "bonding"
_RUN, _ROUTE = "run", "route"
_BETWEEN, _ENDS = "between", ("from", "to")


def _changes(document: Document) -> Iterator[Change]:
    for top in _tops(document.data):
        sections = _at(document.data, top)
        for section in ("cables", _GROUNDING):
            for tag, part in _group(sections.get(section)).items():
                path = (*top, section, tag)
                if _RUN in _group(part):
                    yield _rename(document, path, _RUN, _ROUTE)
                if section == "cables" and _BETWEEN in _group(part):
                    yield _ends(document, path)
        if _GROUNDING in sections:
            yield _rename(document, top, _GROUNDING, _BONDING)


def _rename(document: Document, path: Path, old: str, new: str) -> Change:
    if document.has((*path, new)):
        raise _refusal(
            document, (*path, new), f"{new!r} stands beside {old!r}, its name of format 0", "put both in one"
        )
    return Change(f"{old!r} is now {new!r}", (renamed(document, (*path, old), new),))


def _ends(document: Document, path: Path) -> Change:
    for end in _ENDS:
        if document.has((*path, end)):
            what = f"{end!r} stands beside {_BETWEEN!r}, which holds both ends"
            raise _refusal(document, (*path, end), what, "leave one of them out")
    at = (*path, _BETWEEN)
    ends = _at(document.data, at)
    if not isinstance(ends, list) or len(ends) != len(_ENDS) or any(isinstance(end, (dict, list)) for end in ends):
        what = f"{_BETWEEN!r} does not hold the two ends of the cable"
        raise _refusal(document, at, what, f"write '{_BETWEEN}: [SP1, TV1]'")
    return Change(f"{_BETWEEN!r} is now 'from' and 'to'", spread(document, at, _ENDS))


def _refusal(document: Document, path: Path, what: str, expected: str) -> ReadError:
    return ReadError(Problem(document.name, document.span(path, of_key=True), what, expected))


def _data(data: Any) -> Any:
    return {
        **_sections(data),
        **{key: _each(_sections, data[key]) for key in ("typical",) if key in data},
        **{key: _each(_differing, data[key]) for key in ("units",) if key in data},
    }


def _differing(unit: Any) -> Any:
    return {key: _sections(value) if key == "but" else value for key, value in unit.items()}


def _sections(data: Any) -> Any:
    if not isinstance(data, dict):
        return data
    changed = {_BONDING if key == _GROUNDING else key: value for key, value in data.items()}
    for section in ("cables", _BONDING):
        if section in changed:
            changed[section] = _each(partial(_part, section), changed[section])
    return changed


def _each(change: Callable[[Any], Any], tags: Any) -> Any:
    """Every tagged part changed; what is no group is left for the schema to tell."""
    if not isinstance(tags, dict):
        return tags
    return {tag: change(part) if isinstance(part, dict) else part for tag, part in tags.items()}


def _part(section: str, part: Any) -> Any:
    changed: dict[str, Any] = {}
    for key, value in part.items():
        if key == _BETWEEN and section == "cables":
            changed |= zip(_ENDS, value, strict=True)
        else:
            changed[_ROUTE if key == _RUN else key] = value
    return changed


def _tops(data: Any) -> Iterator[Path]:
    """The paths below which sections stand: the top, each typical unit, what differs in each unit."""
    yield ()
    yield from (("typical", tag) for tag, unit in _group(_group(data).get("typical")).items() if _group(unit))
    for tag, unit in _group(_group(data).get("units")).items():
        if _group(_group(unit).get("but")):
            yield ("units", tag, "but")


def _group(value: Any) -> Mapping[str, Any]:
    return value if isinstance(value, dict) else {}


def _at(data: Any, path: Path) -> Any:
    for step in path:
        data = data[step]
    return data


STEP = Step(lambda document: tuple(_changes(document)), _data)
