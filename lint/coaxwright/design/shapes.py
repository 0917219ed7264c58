"""Words where a group belongs, a group where a list belongs, and so on: what was written, and what to write."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from coaxwright.design.nearest import nearest_word
from coaxwright.design.phrases import ROUTE_ENTRY, SECTIONS, can_be_repeated, expected
from coaxwright.design.quantities import Length
from coaxwright.source import Path


def wrong_shape(path: Path, schema: Mapping[str, Any], value: object, cannot: str) -> tuple[str, str]:
    """Words where a group belongs, a group where a list belongs, and so on."""
    match path:
        case (str(section),) if section in SECTIONS:
            return cannot, f"write a line for each below it, such as '{SECTIONS[section]}'"
        case (str(section), str(tag)) if section in SECTIONS and isinstance(value, str):
            kinds = schema["properties"].get("kind", {}).get("enum", ())
            near = nearest_word(value, kinds)
            return cannot, f"write '{tag}: {{kind: {near}}}'" if near else f"write it like '{SECTIONS[section]}'"
        case (str(section), str()) if section in SECTIONS:
            return cannot, f"write it like '{SECTIONS[section]}'"
        case ("cables", _, "route") if isinstance(value, str) and _parted(value)[1]:
            place, length = _parted(value)
            return cannot, f"write '[{place}: {length}]'"
        case ("cables", _, "route", int()) if isinstance(value, str) and can_be_repeated(value):
            place, length = _parted(value)
            if length:
                return f"{value!r} lacks the colon after the place", f"write '- {place}: {length}'"
            return f"{value!r} has no length", f"write '- {value}: 38 ft'"
        case ("cables", _, "route", int()):
            return cannot, f"write '{ROUTE_ENTRY}'"
        case ("cables", _, "route"):
            return cannot, f"write '{ROUTE_ENTRY}' for each place it runs through"
    if schema.get("type") == "array" and isinstance(value, (str, int, float)) and not isinstance(value, bool):
        examples = schema["items"].get("examples")
        is_item = isinstance(value, str) and re.search(schema["items"].get("pattern", "$^"), value)
        if is_item and can_be_repeated(str(value)):
            return cannot, f"write a list, '[{value}]'"
        if examples or (schema["items"].get("written") and can_be_repeated(str(value))):
            return cannot, f"write a list, '[{examples[0] if examples else value}]'"
    return cannot, expected(schema)


def _parted(text: str) -> tuple[str, str]:
    """Place and length of ``north wall 6 ft``; without a length at its end, the whole text and nothing."""
    words = text.split(" ")
    for at in range(1, len(words)):
        if Length.matches(" ".join(words[at:])):
            return " ".join(words[:at]), " ".join(words[at:])
    return text, ""
