"""An entry with what it is ``like`` filled in, and a source for every figure that it states itself."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from coaxwright.catalogue.author_values.entries import Data, Entry, group
from coaxwright.catalogue.entries import Source
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.families import members
from coaxwright.catalogue.gathering import sources_in
from coaxwright.catalogue.loader import device_data, shipped_data
from coaxwright.catalogue.losses import AttenuationKind
from coaxwright.catalogue.reading import Fields

STATED = "stated by the author"
"""The confidence of a figure that a design or a firm's file states."""
_OWN = "\N{BULLET}"  # no file can hold such a key of its own: keys of the shipped files and of the author's stay apart
_NO_SPREAD = "no spread is stated: taken as 0 %"
_NOT_INHERITED = ("also", "hints", "usual", "seldom", "existing only")
_NO_FIGURES = (
    *("like", "source", "sources", "description", "also", "usual", "existing only", "defaults"),
    *("kind", "ways", "inputs", "outputs", "variant", "connector"),
)
_OPTIONS = {"shield": "shields", "center": "centers", "jacket": "jackets"}
_AMPLIFIER = ("gain", "noise figure")


class Base:
    """A shipped entry as plain data, and the table that its sources are looked up in."""

    __slots__ = ("data", "sources")

    def __init__(self, data: Mapping[str, object], sources: Mapping[str, Source]) -> None:
        self.data = data
        self.sources = sources


@cache
def shipped_classes() -> Mapping[str, Base]:
    """The shipped cable classes by name."""
    return {
        name: Base(entry, sources_in(Fields(file, data)))
        for file, data in shipped_data()
        for name, entry in group(data, "classes").items()
    }


@cache
def shipped_devices() -> Mapping[str, Base]:
    """The shipped devices by name, those that are made in several sizes one by one."""
    found: dict[str, Base] = {}
    for kind, read in device_data().items():
        file = Fields(kind, read())
        sources = sources_in(file)
        for written, entry in file.inner_each("devices"):
            found.update((name, Base(fields.plain(), sources)) for name, fields in members(written, entry))
    return found


def filled(entry: Entry, base: Base | None) -> tuple[Fields, Mapping[str, Source]]:
    """The whole entry, and the table that its sources are looked up in.

    Raises CatalogueError for a source that its file does not list.
    """
    inherited = {} if base is None else {key: at for key, at in base.data.items() if key not in _NOT_INHERITED}
    own = {key: value for key, value in entry.written.items() if key not in ("like", "source", "sources")}
    if "attenuation" in own:
        own["attenuation"] = _attenuation(own["attenuation"])
    for key in ("paths", "isolations", "power paths"):
        if key in own:
            own[key] = [_path(path, entry, (key, index)) for index, path in enumerate(own[key])]
    own.update({key: _spread(own[key]) for key in _AMPLIFIER if key in own})
    data = {"description": f"{entry.name}, as its author describes it", **inherited, **own}
    if entry.section == "classes":
        data["defaults"] = _defaults(data, group(entry.written, "defaults"), group(inherited, "defaults"))
    stated = {key: _stated_key(entry, key) for key in entry.written if key not in _NO_FIGURES}
    data["sources"] = {**group(inherited, "sources"), **stated, **_named(entry.written, entry, ())}
    where = f"{entry.section}: {entry.name}"
    return Fields(where, data, entry.path), {**(base.sources if base is not None else {}), **_table(entry)}


def _stated_key(entry: Entry, figure: str) -> str:
    said = group(entry.written, figure)
    return f"{_OWN}exact" if figure == "attenuation" and "spread" not in said else _OWN


def _table(entry: Entry) -> dict[str, Source]:
    """The sources of what an entry states: the one that it names itself, and those that its file lists."""
    table = {_OWN: Source(entry.document, STATED), f"{_OWN}exact": Source(entry.document, STATED, note=_NO_SPREAD)}
    for key in entry.sources:
        said = group(entry.sources, key)
        further = {field: str(said[field]) for field in ("edition", "clause", "note") if field in said}
        table[f"{_OWN}{key}"] = Source(str(said.get("document", key)), STATED, **further)
    return table


def _named(written: Mapping[str, object], entry: Entry, at: tuple[str | int, ...]) -> dict[str, str]:
    """The sources that are named figure by figure."""
    named: dict[str, str] = {}
    for figure, key in group(written, "sources").items():
        if key not in entry.sources:
            known = f"listed are {', '.join(entry.sources)}" if entry.sources else "the file lists none below 'sources'"
            path = (*entry.path, *at, "sources", figure)
            what = f"{key!r} is no listed source; {known}"
            raise CatalogueError(entry.name, what, path, word=key, known=entry.sources)
        named[figure] = f"{_OWN}{key}"
    return named


def _attenuation(said: Data) -> Data:
    spread = {"low": "0 %", "high": "0 %", **group(said, "spread")}
    return {"kind": AttenuationKind.TYPICAL.value, "temperature": "20 °C", **said, "spread": spread}


def _path(said: Data, entry: Entry, at: tuple[str | int, ...]) -> Data:
    """A way through a device; one figure stands for all three bounds."""
    whole = said if "amplified" in said or "passes" in said else _spread(said)
    figures = [key for key in ("low", "nominal", "high", "passes") if key in whole]
    return {**whole, "sources": {**dict.fromkeys(figures, _OWN), **_named(said, entry, at)}}


def _spread(said: Data) -> Data:
    return {"low": said["nominal"], "high": said["nominal"], **said}


def _defaults(whole: Data, said: Mapping[str, str], inherited: Mapping[str, str]) -> dict[str, str]:
    """What is meant where a design does not say: as written, else as inherited, else the first that is made."""
    chosen: dict[str, str] = {}
    for option, plural in _OPTIONS.items():
        made = list(whole[plural])
        usual = inherited.get(option, "")
        chosen[option] = said.get(option) or (usual if usual in made else made[0])
    return chosen
