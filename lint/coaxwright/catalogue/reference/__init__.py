"""The reference page of the catalogue, generated from the shipped entries and the schema of own ones."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue.loader import load_catalogue
from coaxwright.catalogue.reference.cables import cable_part
from coaxwright.catalogue.reference.devices import device_part
from coaxwright.catalogue.reference.own import own_part
from coaxwright.catalogue.reference.tables import wrapped


def catalogue_page() -> str:
    """The page as Markdown text."""
    return "\n".join(_page()).rstrip("\n") + "\n"


def _page() -> Iterator[str]:
    catalogue = load_catalogue()
    yield "# The catalogue: cable classes and devices"
    yield ""
    yield "Generated from the shipped catalogue by `python -m coaxwright.publish`; do not edit."
    yield ""
    yield from wrapped(
        "What a design may order, with the figures that a review computes with. Every figure names its "
        "source, and how sure it is: `found` was seen in the document, `derived` comes from a formula, "
        "`memory` is to be confirmed before anybody relies on it, `memory low` is an order of magnitude. "
        "Makes differ: where you have a data sheet, write its figures ([an entry of your "
        "own](#an-entry-of-your-own))."
    )
    yield ""
    yield "- [Cable classes](#cable-classes)"
    yield "- [Jackets](#jackets)"
    yield "- [Devices](#devices)"
    yield "- [An entry of your own](#an-entry-of-your-own)"
    yield ""
    yield from cable_part(catalogue)
    yield from device_part(catalogue)
    yield from own_part()
