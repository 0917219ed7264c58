"""Levels at outlets: plain sums of published losses, with what temperature and published spread leave open."""

from __future__ import annotations

from math import sqrt

import pytest

from coaxwright.analysis import Analysis, LossRange, Outlet
from coaxwright.analysis.remedies import place_of_amplifier
from coaxwright.design import understand
from coaxwright.network import Unknown, build_network
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: x (invented)\nbasis: {rulesets: [trade 1]}\n"
SITE = """\
services:
  net:
    kind: cable broadband
    from: DROP
    down: {band: 55 to 1000 MHz, level: [12 dBmV at 55 MHz, 6 dBmV at 1000 MHz]}
    up: {band: 5 to 55 MHz, wanted: 35 dBmV}
places: {loft: {exposure: attic, temperature: -10 to 50 °C}}
devices:
  DROP: {kind: coax drop}
  SP:   {kind: splitter, ways: 2, loss: 3.5 dB}
  TV:   {kind: outlet, serves: [net]}
  M:    {kind: cable modem, serves: [net]}
cables:
  C-1: {from: DROP, to: SP, type: series 6, length: 100 ft}
  C-2: {from: SP, to: TV, type: series 6, length: 50 ft}
  C-3: {from: SP, to: M, type: series 6, length: 200 ft}
"""
# Series 6, maximum attenuation at 68 °F, dB per 100 ft. Source: ANSI/SCTE 74, table of maximum attenuation.
SERIES_6 = {5e6: 0.58, 55e6: 1.60, 1000e6: 6.55}


def analysis(text: str = SITE) -> Analysis:
    return Analysis(build_network(understand(read_text(HEAD + text, "x"))))


def outlet(found: tuple[Outlet, ...], tag: str) -> Outlet:
    return next(one for one in found if one.device.tag == tag)


def figures(value: object) -> LossRange:
    assert isinstance(value, LossRange)
    return value


def test_a_level_is_the_hand_off_less_cable_and_splitter() -> None:
    tv = outlet(analysis().outlets("net"), "TV")
    low, high = (figures(reading.level_dbmv) for reading in tv.readings)
    assert low.nominal == pytest.approx(12 - 1.5 * SERIES_6[55e6] - 3.5, abs=0.05)
    assert high.nominal == pytest.approx(6 - 1.5 * SERIES_6[1000e6] - 3.5, abs=0.05)
    assert [step.what for step in tv.chain] == ["C-1", "SP", "C-2"]


def test_the_return_path_asks_for_the_wanted_level_and_what_is_lost_on_the_way() -> None:
    modem = outlet(analysis().outlets("net", "up"), "M")
    low, high = (figures(reading.level_dbmv) for reading in modem.readings)
    assert low.nominal == pytest.approx(35 + 3 * SERIES_6[5e6] + 3.5, abs=0.05)
    assert high.nominal == pytest.approx(35 + 3 * SERIES_6[55e6] + 3.5, abs=0.05)
    assert [step.what for step in modem.chain] == ["C-3", "SP", "C-1"]


def test_heat_costs_level_and_cold_gives_some() -> None:
    warm = SITE.replace("type: series 6, length: 200 ft", "type: series 6, route: [loft: 200 ft]")
    modem = figures(outlet(analysis(warm).outlets("net"), "M").readings[1].level_dbmv)
    lost_db = 2 * SERIES_6[1000e6]
    assert modem.nominal - modem.hot == pytest.approx(lost_db * 0.00198 * 30, abs=0.02)
    assert modem.cold - modem.nominal == pytest.approx(lost_db * 0.00198 * 30, abs=0.02)
    assert modem.low < modem.hot < modem.nominal < modem.cold < modem.high


def test_between_stated_points_the_hand_off_slopes_as_cable_does() -> None:
    found = analysis().outlets("net", "down", (55e6, 250e6, 1000e6))
    tv = outlet(found, "TV")
    share = (sqrt(250) - sqrt(55)) / (sqrt(1000) - sqrt(55))
    loss = figures(tv.readings[1].loss_db)
    assert figures(tv.readings[1].level_dbmv).nominal == pytest.approx(12 - 6 * share - loss.nominal, abs=1e-9)


def test_one_stated_point_holds_for_the_whole_band_and_none_is_unknown() -> None:
    flat = analysis(SITE.replace("[12 dBmV at 55 MHz, 6 dBmV at 1000 MHz]", "[9 dBmV at 400 MHz]"))
    tv = outlet(flat.outlets("net"), "TV")
    assert [figures(r.level_dbmv).nominal + figures(r.loss_db).nominal for r in tv.readings] == pytest.approx([9, 9])
    silent = analysis(SITE.replace(", level: [12 dBmV at 55 MHz, 6 dBmV at 1000 MHz]", ""))
    level = outlet(silent.outlets("net"), "TV").readings[0].level_dbmv
    assert isinstance(level, Unknown)
    assert level.root == ("services", "net", "down")


def test_a_missing_length_makes_unknown_what_hangs_on_it_and_nothing_else() -> None:
    open_end = analysis(SITE.replace("C-2: {from: SP, to: TV, type: series 6, length: 50 ft}",
                                     "C-2: {from: SP, to: TV, type: series 6}"))  # fmt: skip
    found = open_end.outlets("net")
    level = outlet(found, "TV").readings[0].level_dbmv
    assert isinstance(level, Unknown)
    assert level.root == ("cables", "C-2", "length")
    assert isinstance(outlet(found, "M").readings[0].level_dbmv, LossRange)


def test_a_frequency_beyond_the_table_of_the_cable_is_unknown_not_guessed() -> None:
    found = analysis().outlets("net", "down", (1e6,))
    reading = outlet(found, "TV").readings
    assert reading == () or isinstance(reading[0].level_dbmv, Unknown)


def test_what_does_not_reach_an_outlet_is_said() -> None:
    cut = analysis(SITE.replace("SP:   {kind: splitter, ways: 2, loss: 3.5 dB}", "SP:   {kind: splitter, ways: 2}")
                   .replace("55 to 1000 MHz, level", "55 to 3000 MHz, level"))  # fmt: skip
    tv = outlet(cut.outlets("net"), "TV")
    assert tv.missed_hz == (3000e6,)
    assert [reading.freq_hz for reading in tv.readings] == [55e6]


def test_a_field_and_an_antenna_make_a_level() -> None:
    """P[dBm] = E + G - 20 log f - 77.2 and 0 dBm = 48.75 dBmV in 75 ohm. Source: textbook."""
    air = analysis("""\
services: {tv: {kind: terrestrial TV, from: ANT, channels: [{name: x, frequency: 600 MHz, field: 70 dBµV/m}]}}
devices: {ANT: {kind: antenna, gain: 10 dBi}, TV: {kind: outlet, serves: [tv]}}
cables: {C-1: {from: ANT, to: TV, type: series 6, length: 100 ft}}
""")
    reading = outlet(air.outlets("tv"), "TV").readings[0]
    level = figures(reading.level_dbmv).nominal + figures(reading.loss_db).nominal
    assert level == pytest.approx(70 + 10 - 55.563 - 77.2 + 48.75, abs=0.06)


def test_a_gain_that_the_design_states_takes_the_place_of_the_catalogue() -> None:
    amplifier = "SP: {kind: drop amplifier, outputs: 4, variant: return path, gain: 7 dB}"
    amplified = analysis(SITE.replace("SP:   {kind: splitter, ways: 2, loss: 3.5 dB}", amplifier))
    step = outlet(amplified.outlets("net"), "TV").chain[1]
    assert step.losses[1] == LossRange.exactly(-7)


def test_an_amplifier_belongs_ahead_of_the_input_that_the_signal_comes_by() -> None:
    text = """\
services: {tv: {kind: terrestrial TV, from: ANT, down: {band: 470 to 694 MHz, level: [50 dBµV at 600 MHz]}}}
devices:
  ANT: {kind: antenna}
  MS:  {kind: multiswitch, outputs: 4}
  TV:  {kind: outlet, serves: [tv]}
cables:
  C-1: {from: ANT, to: MS.terrestrial, type: series 6, length: 10 m}
  C-2: {from: MS.out-1, to: TV, type: series 6, length: 10 m}
"""
    tv = outlet(analysis(text).outlets("tv"), "TV")
    assert place_of_amplifier(tv.chain) == "MS.terrestrial"
    tv = outlet(analysis().outlets("net"), "TV")
    assert place_of_amplifier(tv.chain) == "SP"


TWO_WAYS = """\
services:
  tv:
    kind: terrestrial TV
    from: ANT
    down: {band: 177 to 533 MHz, level: [20 dBmV at 177 MHz]}
devices:
  ANT: {kind: antenna}
  D1:  {kind: diplexer, variant: UHF/VHF}
  D2:  {kind: diplexer, variant: UHF/VHF}
  TV:  {kind: outlet, serves: [tv]}
cables:
  C-1: {from: ANT, to: D1.in, type: series 6, length: 100 ft}
  C-2: {from: D1.VHF, to: D2.VHF, type: series 6, length: 50 ft}
  C-3: {from: D1.UHF, to: D2.UHF, type: series 6, length: 400 ft}
  C-4: {from: D2.in, to: TV, type: series 6, length: 30 ft}
"""


def test_frequencies_that_come_by_ways_of_their_own_are_all_told() -> None:
    """VHF by the short cable, UHF by the long one: each pays for its own, and none is missing."""
    found = analysis(TWO_WAYS)
    (tv,) = found.outlets("tv")
    assert tv.missed_hz == ()
    assert [(step.what, [loss is not None for loss in step.losses]) for step in tv.chain] == [
        ("C-1", [True, True]),
        ("D1", [True, False]),
        ("C-2", [True, False]),
        ("D2", [True, False]),
        ("D1", [False, True]),
        ("C-3", [False, True]),
        ("D2", [False, True]),
        ("C-4", [True, True]),
    ]
    for reading in tv.readings:
        steps = [figures(loss) for step in tv.chain if (loss := step.losses[reading.index]) is not None]
        assert figures(reading.loss_db).nominal == pytest.approx(sum(one.nominal for one in steps))
        assert figures(reading.level_dbmv).nominal == pytest.approx(20 - sum(one.nominal for one in steps))
    assert {cable: found.is_computed(cable) for cable in ("C-1", "C-2", "C-3", "C-4")} == dict.fromkeys(
        ("C-1", "C-2", "C-3", "C-4"), True
    )
    assert found.outlets_behind("C-3", "tv") == (tv,)
