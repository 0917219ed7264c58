"""Designs whose levels are shown in the tests of every form: shared by the tests of text, CSV, JSON and SVG."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache

import pytest

from coaxwright.analysis import Analysis
from coaxwright.design import understand, whole
from coaxwright.network import build_network
from coaxwright.reports.levels import SiteLevels, site_levels
from coaxwright.reports.network_report.unused import read_units
from coaxwright.rules import Rule, combine, shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Whimbrel Terrace 7 (invented)\nbasis: {rulesets: [trade 1]}\n"
HOUSE = """\
places: {loft: {exposure: attic, temperature: -10 to 50 °C}}
services:
  net:
    kind: cable broadband
    from: DROP
    down: {band: 54 to 1002 MHz, level: [12 dBmV at 54 MHz, 6 dBmV at 1002 MHz]}
    up: {band: 5 to 42 MHz, wanted: 35 dBmV}
devices:
  DROP: {kind: coax drop}
  AMP:  {kind: drop amplifier, outputs: 1, variant: return path, gain: 15 dB}
  SP:   {kind: splitter, ways: 3}
  BED:  {kind: outlet, serves: [net]}
  M:    {kind: cable modem, serves: [net], input level: -8 to 10 dBmV}
  SET:  {kind: receiver, serves: [net]}
cables:
  C-1: {from: DROP, to: AMP, type: series 6, route: [loft: 100 ft]}
  C-2: {from: AMP, to: SP, type: series 6, length: 4 ft}
  C-3: {from: SP, to: BED, type: series 59, length: 90 ft}
  C-4: {from: SP, to: M, type: series 6, length: 12 ft}
  C-5: {from: SP, to: SET, type: series 6, length: 30 ft}
"""
_CHANNELS = "".join(
    f'      - {{name: "{21 + n}", frequency: {474 + 8 * n} MHz, standard: {"DVB-T" if n < 5 else "DVB-T2"}, '
    f"field: {60 + n % 5} dBµV/m}}\n"
    for n in range(20)
)
CHANNELS = f"""\
services:
  tv:
    kind: terrestrial TV
    from: ANT
    channels:
{_CHANNELS}
devices:
  ANT: {{kind: antenna, gain: 12 dBi}}
  SP:  {{kind: splitter, ways: 2}}
  THE ROOM AT THE BACK OF THE HOUSE: {{kind: outlet, serves: [tv]}}
  BED: {{kind: outlet, serves: [tv]}}
cables:
  C-1: {{from: ANT, to: SP, type: series 6, length: 20 m}}
  C-2: {{from: SP, to: THE ROOM AT THE BACK OF THE HOUSE, type: series 6, length: 20.5 m}}
  C-3: {{from: SP, to: BED, type: series 6, length: 15 m}}
"""
FLATS = """\
places: {cellar: {}}
services: {net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz, level: [20 dBmV at 54 MHz]}}}
devices:
  DROP: {kind: coax drop, place: cellar}
  SP0:  {kind: splitter, ways: 16, place: cellar}
cables:
  R-1: {from: DROP, to: SP0, type: series 11, route: [cellar: 9 ft]}
typical:
  flat:
    places: {hall: {}}
    devices:
      SP: {kind: splitter, ways: 2, place: hall}
      TV: {kind: outlet, place: hall, serves: [net]}
      PC: {kind: outlet, place: hall, serves: [net]}
    cables:
      C:   {from: SP0, to: SP, type: series 6, route: [cellar: 9 ft, hall: 20 ft]}
      C-1: {from: SP, to: TV, type: series 6, route: [hall: 9 ft]}
      C-2: {from: SP, to: PC, type: series 6, route: [hall: 19 ft]}
units:
  flat-01 to flat-12: {like: flat}
  flat-13: {like: flat, but: {cables: {C-2: {route: [hall: 60 ft]}}}}
"""
GAPS = """\
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}, up: {band: 5 to 42 MHz}}
  tv: {kind: terrestrial TV, from: ANT, channels: [{name: "24", frequency: 533 MHz, field: 60 dBµV/m}]}
  eye: {kind: camera video, from: EYE}
  phone: {kind: cellular, from: MAST}
devices:
  DROP: {kind: coax drop}
  ANT:  {kind: antenna, gain: 9 dBi}
  EYE:  {kind: camera}
  MAST: {kind: antenna}
  SP:   {kind: splitter, ways: 2}
  BED:  {kind: outlet, serves: [net]}
  DEN:  {kind: outlet, serves: [net]}
  LOST: {kind: outlet, serves: [net]}
  TV:   {kind: outlet, serves: [tv]}
cables:
  C-1: {from: DROP, to: SP, type: series 6, length: 100 ft}
  C-2: {from: SP, to: BED, type: series 6}
  C-3: {from: SP, to: DEN, type: series 6, length: 30 ft}
  C-4: {from: ANT, to: TV, type: series 6, length: 30 ft}
"""
SATELLITE = """\
services:
  sat:
    kind: satellite IF
    from: LNB
    down: {band: 950 MHz to 2150 MHz, level: [80 dBµV at 950 MHz, 77 dBµV at 2150 MHz]}
devices:
  DISH: {kind: dish, gain: 37 dBi}
  LNB:  {kind: LNB, variant: quattro, outputs: 4, on: DISH}
  MS:   {kind: multiswitch, outputs: 4}
  BED:  {kind: outlet, serves: [sat]}
  DEN:  {kind: satellite receiver, serves: [sat]}
cables:
  S-1: {from: LNB.vertical-low, to: MS.vertical-low, type: series 6, length: 9 m}
  S-2: {from: LNB.vertical-high, to: MS.vertical-high, type: series 6, length: 9 m}
  S-3: {from: LNB.horizontal-low, to: MS.horizontal-low, type: series 6, length: 9 m}
  S-4: {from: LNB.horizontal-high, to: MS.horizontal-high, type: series 6, length: 9 m}
  D-1: {from: MS, to: BED, type: series 6, length: 20 m}
  D-2: {from: MS, to: DEN, type: series 59, length: 60 m}
"""
CAMERAS = """\
services: {eye: {kind: camera video, from: EYE}}
devices: {EYE: {kind: camera}, REC: {kind: video recorder, inputs: 4, serves: [eye]}}
cables: {C-1: {from: EYE, to: REC, type: series 59, length: 30 m}}
"""
DESIGNS = {
    "house": HOUSE,
    "channels": CHANNELS,
    "flats": FLATS,
    "gaps": GAPS,
    "satellite": SATELLITE,
    "cameras": CAMERAS,
    "nothing": "",
}


@cache
def _rules() -> Mapping[str, Rule]:
    return combine(["trade 1"], shipped_registry()).rules


def levels_of(text: str, between: int = 0, suppositions: tuple[str, ...] = ()) -> SiteLevels:
    """The levels of a design without its head."""
    document = whole(read_text(HEAD + text, "plans/site.coax.yaml"))
    analysis = Analysis(build_network(understand(document)))
    units = {unit.tag: unit.like for unit in read_units(document)}
    return site_levels(
        document.name, analysis, ("trade 1",), _rules(), units=units, suppositions=suppositions, between=between
    )


@pytest.fixture
def levels() -> Callable[..., SiteLevels]:
    """The levels of one of the designs by its name, or of any text."""

    def found(text: str, between: int = 0, suppositions: tuple[str, ...] = ()) -> SiteLevels:
        return levels_of(DESIGNS.get(text, text), between, suppositions)

    return found


@pytest.fixture(params=DESIGNS)
def design(request: pytest.FixtureRequest) -> str:
    """The name of each of the designs."""
    return str(request.param)


@pytest.fixture
def house() -> str:
    """The text of the house, to change it."""
    return HOUSE
