"""The part of the page about entries of one's own: an example, and every field from the schema."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from coaxwright.catalogue.measures import CapacitancePerLength, Percent, ResistancePerLength
from coaxwright.catalogue.reference.tables import code, table, wrapped
from coaxwright.design.former_schema import present_only
from coaxwright.design.phrases import quantity_of
from coaxwright.shipped import shipped

_SCHEMA = "catalogue-1.schema.json"
EXAMPLE = """\
coaxwright catalogue: 1
classes:
  reed 6:                                      # what a design writes: type: reed 6 quad outdoor
    like: series 6                             # all that is not said here
    source: data sheet of the reel (invented), 2026-02
    attenuation:
      kind: maximum                            # typical, where left out
      table: {5 MHz: 0.56 dB/100 ft, 211 MHz: 2.98 dB/100 ft, 1000 MHz: 6.4 dB/100 ft}
devices:
  reed splitter:                               # what a design writes: model: reed splitter
    like: 2-way splitter
    source: data sheet of the splitter (invented), 2025
    paths:
      - {from: in, to: out, band: 5 MHz to 1002 MHz, low: 3.2 dB, nominal: 3.4 dB, high: 3.8 dB}
      - {from: in, to: out, band: 1002 MHz to 1218 MHz, nominal: 4.1 dB}
  reed amplifier:                              # without 'like' everything is stated
    kind: drop amplifier
    outputs: 1
    source: data sheet of the amplifier (invented), 2025
    impedance: 75 ohm
    connector: F
    needs power: true
    gain: {nominal: 15 dB}
    noise figure: {nominal: 4 dB}
    ports:
      - {name: in, direction: in, group: in}
      - {name: out, direction: out, group: out}
    paths:
      - {from: in, to: out, band: 54 MHz to 1002 MHz, one way: true, amplified: true}
"""
"""A firm's file; a test reads it and orders from it."""
_MEASURES = {measure.NAME: measure for measure in (Percent, CapacitancePerLength, ResistancePerLength)}
_SMALL = {
    **dict.fromkeys(("center diameter", "strand diameter"), ("0.04 in", "1.02 mm")),
    **dict.fromkeys(("dielectric diameter", "outer diameter"), ("0.18 in", "4.57 mm")),
    **dict.fromkeys(("bend radius", "flexing radius"), ("2.5 in", "64 mm")),
    "jackets": ("[indoor, outdoor]",),
    "table": ("{5 MHz: 0.58 dB/100 ft, 1000 MHz: 6.55 dB/100 ft}",),
    "spread": ("{low: -8 %, high: 3 %}",),
    "shields": ("{quad: {outer diameter: 0.3 in}}",),
    "centers": ("{copper: {size: 18 AWG}}",),
    "defaults": ("{shield: quad, center: copper, jacket: indoor}",),
    "gain": ("{nominal: 15 dB}",),
    "noise figure": ("{nominal: 4 dB}",),
    "fed at": ("[out]",),
    "feeds at": ("[in]",),
    "also": ("[reed drop]",),
}
"""Examples where the schema has those of another size, or none."""
_PARTS = {
    "own-class": "A cable class",
    "own-attenuation": "`attenuation`",
    "shield": "`shields`: each of them",
    "center": "`centers`: each of them",
    "own-device": "A device",
    "port": "`ports`: each of them",
    "own-path": "`paths` and `isolations`: each of them",
    "own-power-path": "`power paths`: each of them",
    "own-spread": "`gain` and `noise figure`",
}


def own_part() -> Iterator[str]:
    """How an entry is written, and its fields."""
    yield "## An entry of your own"
    yield ""
    yield from wrapped(
        "Entries stand below `catalogue` in the design itself, with the sections `classes` and `devices`; or "
        "in a file of the firm's, `*.coax-catalogue.yaml`, that designs name below `basis` as `catalogues`. "
        "Such a file:"
    )
    yield ""
    yield "```yaml"
    yield EXAMPLE.rstrip("\n")
    yield "```"
    yield ""
    yield from wrapped(
        "- `like` names a class of this page, or a device by its name there (`2-way splitter`); its figures "
        "hold where yours say nothing. A list or table that you write replaces the whole one."
    )
    yield from wrapped(
        "- `source` says where all your figures come from; `show`, `levels` and findings call them stated by "
        "the author."
    )
    yield from wrapped(
        "- `attenuation` is a table of two points at least, frequency and loss rising; between the points the "
        "loss runs as cable loses, outside them nothing is known."
    )
    yield from wrapped(
        "- `paths` are the losses from port to port where the signal passes; a port is named as it is, or by "
        "its `group`."
    )
    yield "- What cannot be is refused: a table that falls, a splitter that loses less than dividing takes."
    yield ""
    yield from wrapped(
        "The schema is [catalogue-1.schema.json](../../schemas/catalogue-1.schema.json), also by `coaxwright "
        "schema catalogue`; an example in use is [examples/shelduck-works](../../examples/shelduck-works)."
    )
    yield ""
    text = (shipped("schemas") / _SCHEMA).read_text(encoding="utf-8")
    parts: dict[str, Any] = json.loads(text, object_hook=present_only)["$defs"]
    for name, title in _PARTS.items():
        yield f"### {title}"
        yield ""
        yield parts[name]["description"]
        yield ""
        yield from table(("field", "must", "what", "written as"), _fields(parts[name], parts))


def _fields(part: dict[str, Any], parts: dict[str, Any]) -> Iterator[tuple[str, str, str, str]]:
    unless_like = part.get("else", {}).get("required", ()) if part.get("if") == {"required": ["like"]} else ()
    unless_amplified = () if unless_like else part.get("else", {}).get("required", ())
    for field, schema in part["properties"].items():
        must = "yes" if field in part.get("required", ()) else ""
        must = "without `like`" if field in unless_like else "unless `amplified`" if field in unless_amplified else must
        yield f"`{field}`", must, schema["description"], _as(field, schema, parts)


def _as(field: str, schema: dict[str, Any], parts: dict[str, Any]) -> str:
    if field in _SMALL:
        return code(_SMALL[field])
    if "$ref" in schema:
        schema = parts[schema["$ref"].rpartition("/")[2]]
    quantity = quantity_of(schema) or _MEASURES.get(schema.get("quantity", ""))
    if quantity is not None:
        return code(quantity.EXAMPLES[:2])
    if "enum" in schema:
        return code(map(str, schema["enum"]))
    if "const" in schema:
        return code([json.dumps(schema["const"])])
    shapes = {"array": "a list", "object": "a group", "boolean": "`true` or `false`", "integer": "a whole number"}
    return shapes.get(str(schema.get("type")), "words")
