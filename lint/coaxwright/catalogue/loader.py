"""The shipped catalogue, from the files beside this module."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache, partial
from pathlib import Path

from coaxwright.catalogue.collection import Catalogue
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.gathering import read_catalogue
from coaxwright.source import ReadError, read_file
from coaxwright.source.preparsed import preparsed_of

# Beside this module, wherever it is installed; never from the working directory.
_DATA = Path(__file__).parent / "data"
_FILES = ("screening.yaml", "jackets.yaml", "cables.yaml")
_DEVICES = _DATA / "devices"
PREPARSED = "catalogue"
"""The collection of these files, preparsed."""


@cache
def load_catalogue() -> Catalogue:
    """The shipped catalogue, read once per process; the devices of a kind when the kind is first asked for.

    Raises CatalogueError where a shipped file is damaged.
    """
    return read_catalogue(shipped_data(), device_data())


@cache
def shipped_data() -> tuple[tuple[str, object], ...]:
    """The plain data of the shipped files of cable, by the names of the files."""
    return tuple((name, _plain_data(_DATA / name)) for name in _FILES)


def device_data() -> Mapping[str, Callable[[], object]]:
    """What reads the plain data of the shipped devices, by kind."""
    return {_kind_of(path): partial(_plain_data, path) for path in sorted(_DEVICES.glob("*.yaml"), key=_kind_of)}


def _kind_of(path: Path) -> str:
    """The file of a kind is named after it: ``ground_block.yaml`` holds every ground block."""
    return path.stem.replace("_", " ")


def files() -> Iterator[tuple[str, Path]]:
    """Every file of the shipped catalogue, by the name that messages call it."""
    for name in _FILES:
        yield name, _DATA / name
    for path in sorted(_DEVICES.glob("*.yaml"), key=_kind_of):
        yield path.name, path


def _plain_data(path: Path) -> object:
    try:
        kept = preparsed_of(PREPARSED, path.name, path.read_bytes())
        return read_file(path, path.name).data if kept is None else kept.data
    except (OSError, ReadError) as error:
        raise CatalogueError(path.name, f"cannot be read: {error}") from error
