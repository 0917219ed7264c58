"""The committed schemas are JSON Schemas of their drafts, and everyone who reads them accepts the same designs.

Sources: JSON Schema 2020-12 (draft-bhutton-json-schema-01, 2022) and draft-07
(draft-handrews-json-schema-01, 2018); the metaschemas are those that the reference validator ships.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import jsonschema_rs
import pytest
from pydantic import ValidationError

from coaxwright.design.contract import is_design, mistakes
from coaxwright.design.explain import problems
from coaxwright.design.schema_files import DESIGN_SCHEMA, DESIGN_SCHEMA_DRAFT_07
from coaxwright.design.understand import _restore_written_texts
from coaxwright.design.units.model import DesignFile
from coaxwright.source import read_text

SCHEMAS = Path(__file__).parents[2] / "schemas"


def committed(name: str) -> dict[str, Any]:
    schema = json.loads((SCHEMAS / name).read_text(encoding="utf-8"))
    assert isinstance(schema, dict)
    return schema


MODERN, OLDER = committed(DESIGN_SCHEMA), committed(DESIGN_SCHEMA_DRAFT_07)


def test_each_schema_keeps_to_its_metaschema() -> None:
    jsonschema.Draft202012Validator.check_schema(MODERN)
    jsonschema.Draft7Validator.check_schema(OLDER)
    jsonschema_rs.meta.validate(MODERN)
    jsonschema_rs.meta.validate(OLDER)
    assert MODERN["$schema"] == jsonschema.Draft202012Validator.META_SCHEMA["$id"]
    assert OLDER["$schema"] == jsonschema.Draft7Validator.META_SCHEMA["$id"]


def keywords(schema: object) -> Iterator[str]:
    if isinstance(schema, dict):
        for key, value in schema.items():
            yield key
            yield from (
                (word for part in value.values() for word in keywords(part))
                if key
                in {
                    "properties",
                    "definitions",
                    "$defs",
                }
                else keywords(value)
                if key not in {"enum", "const", "default", "examples"}
                else ()
            )
    elif isinstance(schema, list):
        for part in schema:
            yield from keywords(part)


def test_the_draft_07_twin_uses_no_later_keyword() -> None:
    later = {"$defs", "$anchor", "$dynamicRef", "dependentRequired", "dependentSchemas", "unevaluatedProperties",
             "unevaluatedItems", "prefixItems", "minContains", "maxContains", "$recursiveRef"}  # fmt: skip
    assert "definitions" in set(keywords(OLDER))
    assert not later & set(keywords(OLDER))


def test_a_reference_stands_alone_as_draft_07_wants_it() -> None:
    def lonely(schema: object) -> bool:
        if isinstance(schema, dict):
            return (set(schema) == {"$ref"} if "$ref" in schema else True) and all(map(lonely, schema.values()))
        return all(map(lonely, schema)) if isinstance(schema, list) else True

    assert lonely(OLDER)


HEAD = "coaxwright: 1\ntitle: x\nbasis: {rulesets: [us 2023]}\n"
# The same design parts, one field after another: what every field takes and what it does not.
GOOD = """\
job: 5
sheet: 012
revision: B
stage: as-built
note: x
buildings: {}
buildings: {h: {}}
buildings: {h: {entry: north wall, occupancy: commercial, lightning system: true, note: x}}
buildings: {h: {entry: [a, b, 5]}}
places: {p: {}}
places: {é p: {building: h, exposure: crawl space, temperature: -10 °F to 130 °F, note: x}}
services: {s: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz, level: [9 dBmV at 54 MHz]}, note: x}}
services: {s: {kind: cable broadband, from: D, up: {band: 5 MHz to 42 MHz}}}
services: {s: {kind: terrestrial TV, from: D, channels: [{name: 24, frequency: 533 MHz, field: 62 dBµV/m}]}}
devices: {D: {kind: service drop, place: p, state: existing, owner: operator, impedance: 75 Ω, note: x}}
devices: {D: {kind: ground block}}
devices: {D: {kind: protector, state: abandoned}}
devices: {D: {kind: splitter, ways: 3}}
devices: {D: {kind: splitter, ways: 3.0, variant: unbalanced}}
devices: {D: {kind: antenna, gain: 7 dBd, mast: {height: 10 ft, metal: false}}}
devices: {D: {kind: antenna, mast: {}}}
devices: {D: {kind: preamplifier, gain: 16 dB, noise figure: 1.5 dB}}
devices: {D: {kind: power inserter, owner: landlord}}
devices: {D: {kind: cable modem, serves: [s]}}
devices: {D: {kind: receiver, serves: [5, 0o14]}}
devices: {D: {kind: outlet, serves: [s, t]}}
devices: {D: {kind: terminator, on: SP1.2}}
cables: {C: {from: A, to: B.low-loss, type: series 6}}
cables: {C: {from: A, to: B, type: 6, length: 6'4", state: reserve, owner: tenant, note: x}}
cables: {C: {from: A, to: B, type: s, route: [p: 3 ft, 012: {length: 2 m, note: x}]}}
bonding: {B: {from: A, to: B, conductor: 10 AWG copper, length: 3 m, state: new, owner: owner, note: x}}
bonding: {B: {kind: bonding conductor, from: A.mast, to: B, conductor: 4 mm2 bare copper}}
bonding: {B: {kind: intersystem termination, place: p, electrode: service}}
bonding: {B: {kind: building electrode system, place: p}}
bonding: {B: {kind: ground rod, place: p, length: 8 ft}}
bonding: {B: {kind: water pipe, place: p}}
typical: {}
typical: {flat: {}}
typical: {012: {buildings: {h: {}}, places: {p: {building: h}}, devices: {D: {kind: outlet}}, bonding: {}}}
typical: {flat: {services: {s: {kind: terrestrial TV, from: D}}, cables: {C: {from: A, to: B, type: s}}}}
units: {}
units: {flat-01 to flat-12: {like: flat}, 13: {like: 012, note: x}}
units: {u: {like: flat, leaves out: [D, 5]}}
units: {u: {like: flat, but: {}}}
units: {u: {like: flat, but: {buildings: {h: {}}, places: {p: {exposure: attic}}, cables: {C: {route: [p: 3 ft]}}}}}
units: {u: {like: flat, but: {devices: {D: {ways: 3}, E: {kind: splitter}, F: {kind: antenna, gain: 9 dBi}}}}}
units: {u: {like: flat, but: {services: {s: {up: {band: 5 to 42 MHz}}}, bonding: {B: {length: 3 ft}}}}}
units: {u: {like: flat, but: {bonding: {R: {place: p}}}}}
devices: {N: {kind: optical node}, A: {kind: antenna, variant: cellular donor, impedance: 50 ohm}, S: {kind: modulator}}
devices: {D: {kind: dish, gain: 33 dBi, mast: {}}, L: {kind: LNB, outputs: 2, variant: wideband, on: D, gain: 55 dB}}
devices: {M: {kind: multiswitch, outputs: 8}, R: {kind: satellite receiver}, T: {kind: tap, outputs: 4, value: 16 dB}}
devices: {C: {kind: camera, variant: HD over coax}, V: {kind: video recorder, inputs: 4}, G: {kind: galvanic isolator}}
devices: {B: {kind: cellular booster, gain: 60 dB}, P: {kind: matching pad}, M: {kind: matching transformer}}
devices: {Q: {kind: directional coupler, value: 9 dB}, U: {kind: combiner, variant: UHF/VHF}, D: {kind: DC block}}
buildings: {h: {country: DE, floors: 3, service equipment: p, meter: p, tied to: [b], lightning system: false}}
buildings: {h: {lightning system: {separation: 0.5 m, electrode: L, note: x}}}
places: {p: {return air: true, floors crossed: 2, height: 12 ft, roof slope: 4 in 12, overhang: 3 ft}}
places: {p: {roof slope: 18 deg, beside: power cable at 12 in}}
places: {p: {beside: [lightning conductor at 2 m, {what: power cable, at: 1 ft, by: UF cable, voltage: 9 V, note: x}]}}
places: {p: {beside: [{what: motor, crossing: true, barrier: true}]}}
services: {s: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz, carrier to noise: 45 dB, carriers: 110}}}
services: {s: {kind: cable broadband, from: D, up: {band: 5 to 42 MHz, wanted: 38 dBmV}}}
services: {s: {kind: FM radio, from: D, at outlets: {level: 50 to 70 dBµV, tilt: 8 dB, carrier to noise: 38 dB}}}
services: {s: {kind: terrestrial TV, from: D, channels: [{name: x, frequency: 1 GHz, width: 6 MHz, standard: 8VSB}]}}
devices: {D: {kind: antenna, serves: [s], below roof edge: 3 m, from wall: 1 m, mast: {of: E}, listed: true}}
devices: {D: {kind: antenna, mast: {on: chimney, guys: 3, bending moment: 900 N m, from power line: 20 ft}}}
devices: {D: {kind: drop amplifier, outputs: 4, model: quiet, split: 42/54 MHz, input level: -6 dBmV to 12 dBmV}}
devices: {D: {kind: preamplifier, output level: 20 to 40 dBmV, current: 100 mA, lowest voltage: 11 V}}
devices: {D: {kind: power inserter, supply: 15 V, supply current: 0.5 A, loss: 0.5 dB}}
devices: {D: {kind: splitter, ways: 2, ports: {in: {impedance: 5 ohm, connector: N, gender: plug, passes power: true}}}}
devices: {D: {kind: satellite receiver, user band: 1210 MHz}, G: {kind: ground block, accessible: false}}
devices: {D: {kind: cellular booster, kit: [A, C-1], isolation: 75 dB, antennas apart: 30 ft, installed: 2019-05}}
devices: {D: {kind: outlet, readings: [{record: R-1, port: socket, level: 3.2 dBmV at 600 MHz, note: x}]}}
devices: {D: {kind: outlet, readings: [{carrier to noise: 38 dB, return loss: 18 dB at 54 MHz, voltage: 12 V}]}}
cables: {C: {from: A, to: B, type: s, listing: CATVR, fire class: Cca, colour: white, labels: [A-1, 012]}}
cables: {C: {from: A, to: B, type: s, installed: 1998, measured loss: [4.2 dB at 750 MHz]}}
cables: {C: {from: A, to: B, type: s, readings: [{loss: 4 dB at 1 GHz, resistance: 2 ohm}]}}
cables: {C: {from: A, to: B, type: s, connectors: [{series: F, fit: compression, made for: series 6 quad}]}}
cables: {C: {from: A, to: B, type: s, connectors: [{gender: plug, sealed: true}, {}]}}
cables: {C: {from: A, to: B, type: s, route: [p: {length: 2 m, in: RW, beside: hot pipe at 1 ft, support: clips}]}}
cables: {C: {from: A, to: B, type: s, route: [p: {length: 2 m, supports every: 5 ft, over: roof, height: 8 ft}]}}
cables: {C: {from: A, to: B, type: s, route: [p: {length: 2 m, depth: 12 in, floors crossed: 1, tightest bend: 3 in}]}}
cables: {C: {from: A, to: B, type: s, route: [p: {length: 2 m, firestopped: true, drip loop: false}]}}
raceways: {}
raceways: {RW: {kind: thin-wall metal tubing, trade size: 3/4, listing: plenum, places: [p], length: 20 ft, bends: 2}}
raceways: {RW: {kind: sleeve, inner diameter: 1 in, bonded: true, holds: [power cable, {what: data cable}]}}
raceways: {RW: {kind: inner duct, pull string: true, state: existing, installed: 2001, owner: landlord, note: x}}
bonding: {B: {from: A, to: B, conductor: 10 AWG copper, route: [p: 3 ft], bends: 2, coiled: false, guarded: true}}
bonding: {B: {from: A, to: B, conductor: 10 AWG copper, suited clamps: true, readings: [{resistance: 25 mohm}]}}
bonding: {B: {kind: service equipment, place: p}, C: {kind: service raceway, place: p, installed: 2011-07-01}}
bonding: {B: {kind: ground rod, place: p, metal: copper-clad steel}, C: {kind: ground plate, place: p}}
bonding: {B: {kind: ground ring, place: p, length: 60 ft}, C: {kind: concrete-encased electrode, place: p}}
bonding: {B: {kind: structural metal, place: p}, C: {kind: gas pipe, place: p}}
bonding: {D: {kind: water pipe, place: p, from entry: 4 ft}}
bonding: {B: {kind: lightning electrode system, place: p}}
records: {}
records: {R-1: {by: the installer, on: 2026-05-31, instrument: level meter, calibrated: 2026-01, note: x}}
variances: [{rule: protection.antenna-end, item: A, facet: mast, reason: r, granted by: g, until: 2027-06-30, note: x}]
catalogue: {classes: {}}
typical: {flat: {raceways: {RW: {kind: sleeve}}, records: {R: {by: x, on: 2026}}}}
units: {u: {like: flat, but: {raceways: {RW: {bends: 1}}, records: {R: {on: 2026-02}}}}}
devices: {L: {kind: LNB, outputs: 4, variant: quattro}}
devices: {X: {kind: diplexer, variant: TV/satellite}, A: {kind: attenuator, value: 6 dB}}
devices: {E: {kind: equaliser, value: 9 dB}, P: {kind: protector, variant: 50 ohm}}
devices: {F: {kind: filter, variant: in-home data}, A: {kind: in-home data adapter}}
devices: {D: {kind: drop amplifier, outputs: 4, variant: return path, noise figure: 4 dB}}
devices: {O: {kind: outlet, variant: loop-through, value: 14 dB}, T: {kind: terminator, on: O, variant: DC block}}
services: {f: {kind: FM radio, from: A}, s: {kind: satellite IF, from: L}, v: {kind: camera video, from: C}}
services: {h: {kind: in-home data, from: A}, c: {kind: cellular, from: B}}
""".splitlines()
BAD = """\
job: [1]
job: true
sheet: ''
sheet: ' '
stage: built
stage: 1
note: {}
colour: red
buildings:
buildings: []
buildings: {h: }
buildings: {h: {entry: []}}
buildings: {h: {entry: [[a]]}}
buildings: {h: {entry: .5}}
buildings: {h: {entry: {a: b}}}
buildings: {h: {occupancy: barn}}
buildings: {h: {lightning system: yes}}
buildings: {h: {lightning system: 1}}
places: {p: {exposure: inside}}
places: {p: {temperature: 20 C}}
places: {.p: {}}
places: {'p ': {}}
places: {"p\\nq": {}}
places: {"p\\n": {}}
services: {s: {kind: cable broadband}}
services: {s: {kind: satellite, from: D}}
services: {s: {kind: cable broadband, from: D, down: {}}}
services: {s: {kind: cable broadband, from: D, down: {band: 54 MHz}}}
services: {s: {kind: cable broadband, from: D, down: {band: 5 to 42 MHz, level: []}}}
services: {s: {kind: terrestrial TV, from: D, channels: []}}
services: {s: {kind: terrestrial TV, from: D, channels: [{name: x, frequency: 533}]}}
devices: {D: {}}
devices: {D: [outlet]}
devices: {D: {kind: Outlet}}
devices: {D: {kind: [outlet]}}
devices: {D: {kind: outlet, ways: 3}}
devices: {D: {kind: ground block, gain: 3 dB}}
devices: {D: {kind: splitter}}
devices: {D: {kind: splitter, ways: 1}}
devices: {D: {kind: splitter, ways: 33}}
devices: {D: {kind: splitter, ways: 3.5}}
devices: {D: {kind: splitter, ways: true}}
devices: {D: {kind: splitter, ways: '3'}}
devices: {D: {kind: splitter, ways: .inf}}
devices: {D: {kind: splitter, ways: .nan}}
devices: {D: {kind: splitter, ways: 99999999999999999999999999}}
devices: {D: {kind: splitter, ways: 3, variant: balanced}}
devices: {D: {kind: antenna, gain: 9 dB}}
devices: {D: {kind: preamplifier, gain: 9 dBi}}
devices: {D: {kind: antenna, gain: 9}}
devices: {D: {kind: antenna, mast: 10 ft}}
devices: {D: {kind: antenna, mast: {metal: no}}}
devices: {D: {kind: terminator}}
devices: {D: {kind: outlet, serves: s}}
devices: {D: {kind: outlet, serves: []}}
devices: {D: {kind: outlet, impedance: 75}}
cables: {C: {from: A, to: B}}
cables: {C: {from: A, to: '', type: s}}
cables: {C: {from: A, to: B, type: s, length: 85}}
cables: {C: {from: A, to: B, type: s, length: "85 ft\\n"}}
cables: {C: {from: A, to: B, type: s, route: []}}
cables: {C: {from: A, to: B, type: s, route: [{}]}}
cables: {C: {from: A, to: B, type: s, route: [p]}}
cables: {C: {from: A, to: B, type: s, route: [{p: 3 ft, q: 3 ft}]}}
cables: {C: {from: A, to: B, type: s, route: [p: {}]}}
cables: {C: {from: A, to: B, type: s, route: [p: [3 ft]]}}
cables: {C: {from: A, to: B, type: s, route: [.5: 3 ft]}}
bonding: {B: {}}
bonding: {B: {from: A, to: B, conductor: 10 AWG}}
bonding: {B: {from: A, to: B, conductor: 10 AWG copper, place: p}}
bonding: {B: {kind: ground rod}}
bonding: {B: {kind: ground rod, place: p, from: A}}
bonding: {B: {kind: rod, place: p}}
bonding: {B: {kind: , place: p}}
typical: []
typical: {flat: }
typical: {.flat: {}}
typical: {flat: {title: x}}
typical: {flat: {units: {}}}
typical: {flat: {places: []}}
typical: {flat: {devices: {D: {kind: splitter}}}}
typical: {flat: {devices: {D: {kind: outlet, ways: 3}}}}
typical: {flat: {cables: {C: {from: A, to: B, type: s, route: [p]}}}}
units: [flat]
units: {u: flat}
units: {u: {}}
units: {u: {like: [flat]}}
units: {u: {like: flat, leaves out: D}}
units: {u: {like: flat, leaves out: []}}
units: {u: {like: flat, but: []}}
units: {u: {like: flat, but: {title: x}}}
units: {u: {like: flat, but: {devices: {D: {kind: outlet, ways: 3}}}}}
units: {u: {like: flat, but: {devices: {D: {kind: antenna, gain: 9 dB}}}}}
units: {u: {like: flat, but: {devices: {D: {hue: white}}}}}
units: {u: {like: flat, but: {devices: {D: {ways: 1}}}}}
units: {u: {like: flat, but: {bonding: {B: {kind: ground rod, from: A}}}}}
units: {u: {like: flat, but: {cables: {C: {length: 85}}}}}
units: {u: {like: flat, but: {services: {s: {down: {}}}}}}
buildings: {h: {country: Germany}}
buildings: {h: {floors: 0}}
buildings: {h: {tied to: b}}
buildings: {h: {lightning system: yes}}
buildings: {h: {lightning system: {separation: 0.5}}}
places: {p: {return air: 1}}
places: {p: {roof slope: 4/12}}
places: {p: {beside: power cable}}
places: {p: {beside: [power cable at 12]}}
places: {p: {beside: [{at: 1 ft}]}}
places: {p: {beside: []}}
services: {s: {kind: FM radio, from: D, at outlets: {level: 50 dBµV}}}
services: {s: {kind: cable broadband, from: D, up: {band: 5 to 42 MHz, wanted: 38}}}
services: {s: {kind: terrestrial TV, from: D, channels: [{name: x, frequency: 1 GHz, standard: vestigial}]}}
devices: {D: {kind: splitter, ways: 2, split: 42/54 MHz}}
devices: {D: {kind: drop amplifier, outputs: 4, split: 42-54 MHz}}
devices: {D: {kind: splitter, ways: 2, ports: {}}}
devices: {D: {kind: splitter, ways: 2, ports: {in: {level: 3 dBmV}}}}
devices: {D: {kind: antenna, mast: {on: shed}}}
devices: {D: {kind: antenna, mast: {bending moment: 900}}}
devices: {D: {kind: power inserter, supply: 15}}
devices: {D: {kind: outlet, installed: May 2019}}
devices: {D: {kind: outlet, installed: 2019-13}}
devices: {D: {kind: outlet, readings: [{level: 3.2 dBmV}]}}
devices: {D: {kind: outlet, readings: []}}
cables: {C: {from: A, to: B, type: s, listing: CATVQ}}
cables: {C: {from: A, to: B, type: s, labels: [a, b, c]}}
cables: {C: {from: A, to: B, type: s, connectors: [F]}}
cables: {C: {from: A, to: B, type: s, connectors: [{series: F type}]}}
cables: {C: {from: A, to: B, type: s, route: [p: {in: RW}]}}
cables: {C: {from: A, to: B, type: s, measured loss: [4.2 dB]}}
raceways: {RW: {}}
raceways: {RW: {kind: pipe}}
raceways: {RW: {kind: sleeve, holds: [coax]}}
raceways: {RW: {kind: sleeve, holds: power cable}}
bonding: {B: {kind: gas pipe, place: p, length: 3 ft}}
bonding: {B: {kind: ground rod, place: p, metal: iron}}
bonding: {B: {from: A, to: B, conductor: 10 AWG copper, route: [3 ft]}}
records: {R: {by: x}}
records: {R: {by: x, on: yesterday}}
variances: []
variances: {rule: a.b}
variances: [{rule: a.b, item: x, granted by: g}]
catalogue: {}
catalogue: [series 6]""".splitlines()


def is_valid_model(data: object) -> bool:
    try:
        DesignFile.model_validate(data)
    except ValidationError:
        return False
    return True


def exact(validator: type[Any]) -> type[Any]:
    """With a ``$`` that ends the text, as ECMA 262 has it; Python's also matches before a last line break."""

    def pattern(_: Any, pattern: str, instance: object, __: Any) -> Iterator[jsonschema.ValidationError]:
        import re

        if isinstance(instance, str) and not re.search(
            pattern.removesuffix("$") + r"\Z" * pattern.endswith("$"), instance
        ):
            yield jsonschema.ValidationError("pattern")

    extended: type[Any] = jsonschema.validators.extend(validator, {"pattern": pattern})
    return extended


@pytest.mark.parametrize(
    ("text", "good"),
    [*((text, True) for text in GOOD), *((text, False) for text in BAD)],
    ids=lambda value: str(value)[:70],
)
def test_all_who_judge_agree(text: str, good: bool) -> None:
    document = read_text(HEAD + text + "\n", "x")
    _restore_written_texts(document)
    data = document.data
    verdicts = {
        "2020-12, reference": exact(jsonschema.Draft202012Validator)(MODERN).is_valid(data),
        "2020-12, fast": jsonschema_rs.Draft202012Validator(MODERN).is_valid(data),
        "draft-07, reference": exact(jsonschema.Draft7Validator)(OLDER).is_valid(data),
        "draft-07, fast": jsonschema_rs.Draft7Validator(OLDER).is_valid(data),
        "the program": is_design(data),
        "the program's explainer": next(mistakes(data), None) is None,
        "the model": is_valid_model(data),
    }
    assert verdicts == dict.fromkeys(verdicts, good)
    assert len(problems(document)) == (0 if good else 1)


@pytest.mark.parametrize(
    ("rulesets", "good"),
    [
        ("[us 2023, firm/house.coax-ruleset.yaml], catalogues: [stock.coax-catalogue.yaml], country: US", True),
        ("[my rules.coax-ruleset.yaml], authority: the town", True),
        ("[house.yaml]", False),
        ("[us 2023], catalogues: [stock.yaml]", False),
        ("[us 2023], catalogues: []", False),
    ],
)
def test_all_who_judge_agree_on_the_basis(rulesets: str, good: bool) -> None:
    data = read_text(f"coaxwright: 1\ntitle: x\nbasis: {{rulesets: {rulesets}}}\n", "x").data
    verdicts = [
        exact(jsonschema.Draft202012Validator)(MODERN).is_valid(data),
        jsonschema_rs.Draft7Validator(OLDER).is_valid(data),
        is_design(data),
        is_valid_model(data),
    ]
    assert verdicts == [good] * 4


def test_the_corpus_covers_every_field_and_kind() -> None:
    text = "\n".join(GOOD)
    fields = {key for part in MODERN["$defs"].values() for key in part["properties"]}
    kinds = {
        kind
        for name in ("device", "bonditem", "service")
        for kind in MODERN["$defs"][name]["properties"]["kind"]["enum"]
    }
    assert [
        key for key in fields if f"{key}: " not in text and key not in {"rulesets", "authority", "catalogues"}
    ] == []
    assert [kind for kind in kinds if f"kind: {kind}" not in text] == []
