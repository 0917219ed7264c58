"""What several checks of protection share: places and buildings that a design may leave without a name."""

from __future__ import annotations

from coaxwright.design.value_types import TAG, Phrase, phrase
from coaxwright.network import DeviceNode

BUILDING = phrase(named={"tag": TAG}, unnamed={})
PLACE = phrase(named={"tag": TAG}, unnamed={})


def building_named(tag: str | None) -> Phrase:
    """A building by its tag; without one, the only one."""
    return Phrase("named", {"tag": tag}) if tag else Phrase("unnamed")


def place_of(node: DeviceNode) -> Phrase:
    """The place in which a device stands, as far as the design says it."""
    return Phrase("named", {"tag": node.place.tag}) if node.place is not None else Phrase("unnamed")
