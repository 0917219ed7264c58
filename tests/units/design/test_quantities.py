"""Every accepted spelling, its value in SI units, and what is refused."""

from __future__ import annotations

from math import inf, log10, pi

import pytest

from coaxwright.design.quantities import (
    AntennaGain,
    Band,
    Conductor,
    Decibels,
    FieldStrength,
    Frequency,
    Gain,
    Impedance,
    Length,
    LengthPair,
    Level,
    LevelAt,
    LevelRange,
    Loss,
    LossAt,
    LossPerLength,
    Quantity,
    QuantityError,
    Temperature,
    TemperatureRange,
    WireSize,
    in_feet,
    in_meters,
    in_system_of,
    shown,
    total,
)

# International foot 0.3048 m and inch 25.4 mm, exact: Refinement of values for the yard and the pound, 1959.
LENGTHS = [
    ("85 ft", 85 * 0.3048),
    ("85ft", 85 * 0.3048),
    ("1 foot", 0.3048),
    ("2.5 feet", 2.5 * 0.3048),
    ("85'", 85 * 0.3048),
    ("85′", 85 * 0.3048),
    ("4 in", 4 * 0.0254),
    ("1 inch", 0.0254),
    ("2 inches", 0.0508),
    ('4"', 4 * 0.0254),
    ("4″", 4 * 0.0254),
    ("6 ft 4 in", 76 * 0.0254),
    ("6'4\"", 76 * 0.0254),
    ("6' 4\"", 76 * 0.0254),
    ("6′4″", 76 * 0.0254),
    ("6 ft 4 1/2 in", 76.5 * 0.0254),
    ("1/2 in", 0.0127),
    ("6 1/2 ft", 6.5 * 0.3048),
    (".5 ft", 0.1524),
    ("26 m", 26.0),
    ("2.5 meters", 2.5),
    ("1 meter", 1.0),
    ("3 meters", 3.0),
    ("1 meter", 1.0),
    ("300 mm", 0.3),
    ("30 cm", 0.3),
    ("1.2 km", 1200.0),
    ("0 ft", 0.0),
]


@pytest.mark.parametrize(("text", "length_m"), LENGTHS)
def test_length(text: str, length_m: float) -> None:
    length = Length.parse(text)
    assert length.length_m == pytest.approx(length_m, rel=1e-12)
    assert length.length_ft == pytest.approx(length_m / 0.3048, rel=1e-12)
    assert length.is_metric == text.endswith(("m", "meter", "meters", "meter", "meters"))
    assert length.text == text


# AWG: ASTM B258, d = 0.005 in * 92 ** ((36 - n) / 39): 36 AWG is 0.005 in and 4/0 AWG 0.46 in, by definition.
WIRES = [
    ("36 AWG", 36, pi / 4 * 0.127**2),
    ("4/0 AWG", -3, pi / 4 * 11.684**2),
    ("1/0 AWG", 0, 53.48),  # 53.48, 5.261 and 2.081 mm²: NBS Handbook 100 (1966), tables of bare annealed copper
    ("10 AWG", 10, 5.261),
    ("14AWG", 14, 2.081),
    ("4 mm²", None, 4.0),
    ("2.5 mm2", None, 2.5),
]


@pytest.mark.parametrize(("text", "gauge", "area_mm2"), WIRES)
def test_wire_size(text: str, gauge: int | None, area_mm2: float) -> None:
    size = WireSize.parse(text)
    assert size.gauge == gauge
    assert size.area_mm2 == pytest.approx(area_mm2, rel=3e-4)


@pytest.mark.parametrize(
    ("text", "metal", "size"),
    [
        ("10 AWG copper", "copper", "10 AWG"),
        ("16 mm² bare solid copper", "copper", "16 mm²"),
        ("6 AWG insulated stranded aluminum", "aluminum", "6 AWG"),
        ("17 AWG copper-clad steel", "copper-clad steel", "17 AWG"),
    ],
)
def test_conductor(text: str, metal: str, size: str) -> None:
    conductor = Conductor.parse(text)
    assert (conductor.metal, conductor.size) == (metal, WireSize.parse(size))


# 0 dBmV is 1 mV and 0 dBuV is 1 uV, so dBuV = dBmV + 60.
# 0 dBm is 1 mW: in 75 ohm sqrt(0.001 W * 75 ohm) = 273.86 mV, 48.75 dBmV (in 50 ohm it would be 46.99 dBmV).
LEVELS = [
    ("6 dBmV", 6.0),
    ("-6dBmV", -6.0),
    ("−6 dBmV", -6.0),
    ("+6 dBmV", 6.0),
    ("66 dBµV", 6.0),
    ("66 dBμV", 6.0),
    ("66 dBuV", 6.0),
    ("0 dBm", 20 * log10(273.8613)),
    ("-42 dBm", 48.7506 - 42),
]


@pytest.mark.parametrize(("text", "level_dbmv"), LEVELS)
def test_level(text: str, level_dbmv: float) -> None:
    assert Level.parse(text).level_dbmv == pytest.approx(level_dbmv, abs=1e-4)


@pytest.mark.parametrize(
    ("kind", "text", "name", "value"),
    [
        (Frequency, "533 MHz", "freq_hz", 533e6),
        (Frequency, "1.2GHz", "freq_hz", 1.2e9),
        (Frequency, "950 kHz", "freq_hz", 950e3),
        (Frequency, "60 Hz", "freq_hz", 60.0),
        (Band, "54 MHz to 1002 MHz", "low_hz", 54e6),
        (Band, "54 MHz to 1.2 GHz", "high_hz", 1.2e9),
        (Band, "5 to 42 MHz", "low_hz", 5e6),
        (FieldStrength, "62 dBµV/m", "field_dbuv_per_m", 62.0),
        (FieldStrength, "62 dBμV/m", "field_dbuv_per_m", 62.0),
        (FieldStrength, "62 dBuV/m", "field_dbuv_per_m", 62.0),
        (Decibels, "-3.5 dB", "ratio_db", -3.5),
        (AntennaGain, "9 dBi", "gain_dbi", 9.0),
        (AntennaGain, "7 dBd", "gain_dbi", 7 + 10 * log10(1.64)),  # half-wave dipole: directivity 1.64, 2.15 dBi
        (Gain, "16 dB", "gain_db", 16.0),
        (Gain, "7 dBd", "gain_db", 9.15),
        (LossPerLength, "6.55 dB/100 ft", "loss_db_per_m", 6.55 / 30.48),
        (LossPerLength, "21.5 dB/100m", "loss_db_per_m", 0.215),
        (Impedance, "75 ohm", "impedance_ohm", 75.0),
        (Impedance, "75 ohms", "impedance_ohm", 75.0),
        (Impedance, "75 \N{GREEK CAPITAL LETTER OMEGA}", "impedance_ohm", 75.0),
        (Impedance, "75\N{OHM SIGN}", "impedance_ohm", 75.0),
        (Impedance, "1/2ohm", "impedance_ohm", 0.5),
        (Impedance, "37 1/2 ohm", "impedance_ohm", 37.5),
        (Temperature, "20 °C", "temperature_c", 20.0),
        (Temperature, "-40 deg C", "temperature_c", -40.0),
        (Temperature, "-40 °F", "temperature_c", -40.0),
        (Temperature, "68 deg F", "temperature_c", 20.0),
        (Temperature, "212F", "temperature_c", 100.0),
        (TemperatureRange, "-10 °F to 130 °F", "hottest_c", 54.444),
        (TemperatureRange, "-25 to 55 °C", "coldest_c", -25.0),
        (TemperatureRange, "14 to 68 deg F", "coldest_c", -10.0),
    ],
)
def test_value(kind: type[Quantity], text: str, name: str, value: float) -> None:
    quantity = kind.parse(text)
    assert getattr(quantity, name) == pytest.approx(value, rel=2e-5, abs=2e-3)
    assert quantity.text == text


def test_level_at_a_frequency() -> None:
    level = LevelAt.parse("10 dBmV at 54 MHz")
    assert (level.level.level_dbmv, level.frequency.freq_hz) == (10.0, 54e6)


def test_a_published_pair_is_two_limits() -> None:
    pair = LengthPair.parse("20 ft (6.0 m)")
    assert pair.for_author(is_metric=False).length_ft == 20
    assert pair.for_author(is_metric=True).length_m == 6


REFUSED = [
    (Length, 85, None),
    (Length, True, None),
    (Length, None, None),
    (Length, "85", None),
    (Length, "85 feets", "85 feet"),
    (Length, "85 FT", "85 ft"),
    (Length, "85 ft.", "85 ft"),
    (Length, " 85 ft", "85 ft"),
    (Length, "85 ft\n", "85 ft"),
    (Length, "1,5 m", "1.5 m"),
    (Length, "1,200 ft", None),
    (Length, "6 ft 4", None),
    (Length, "-5 ft", None),
    (Length, "5 dB", None),
    (Length, "1e3 ft", None),
    (Length, "1/0 ft", None),
    (Length, "٣ ft", None),
    (Length, "9" * 400 + " ft", None),
    (Length, "9" * 5000 + "/3 ft", None),
    (Frequency, "533 mhz", "533 MHz"),
    (Frequency, "533 MHZ", "533 MHz"),
    (Band, "54-1002 MHz", "54 to 1002 MHz"),
    (Band, "54 MHz – 1002 MHz", "54 MHz to 1002 MHz"),
    (Band, "54 MHz", None),
    (Level, "6 dbmv", "6 dBmV"),
    (Level, "6 dBmv", "6 dBmV"),
    (Level, "6", None),
    (Impedance, "75 Ohms", "75 ohms"),
    (TemperatureRange, "-25 – 55 °C", "-25 to 55 °C"),
    (AntennaGain, "9 dB", "9 dBi"),
    (Decibels, "9 dBi", "9 dB"),
    (LossPerLength, "6.55 db/100 ft", "6.55 dB/100 ft"),
    (Conductor, "10 AWG", "10 AWG copper"),
    (Conductor, "10 copper", "10 AWG copper"),
    (Conductor, "#10 copper", "10 AWG copper"),
    (Conductor, "10 AWG coper", "10 AWG copper"),
    (Conductor, "10 ga Cu", "10 AWG copper"),
    (Conductor, "10 gauge green wire", "10 AWG copper"),
    (Conductor, "10 AWG green", "10 AWG copper"),
    (Conductor, "copper 1/0 AWG", "1/0 AWG copper"),
    (Conductor, "4mm\N{SUPERSCRIPT TWO} Cu", "4 mm\N{SUPERSCRIPT TWO} copper"),
    (Conductor, "16 sq mm al", "16 mm\N{SUPERSCRIPT TWO} aluminum"),
    (Conductor, "12/2", None),
    (Conductor, "6 mm2", "6 mm2 copper"),
    (WireSize, "41 AWG", None),
    (WireSize, "5/0 AWG", None),
]


@pytest.mark.parametrize(("kind", "text", "nearest"), REFUSED, ids=[repr(text)[:20] for _, text, _ in REFUSED])
def test_refused_with_the_nearest(kind: type[Quantity], text: object, nearest: str | None) -> None:
    with pytest.raises(QuantityError) as refused:
        kind.parse(text)
    assert refused.value.nearest == nearest
    assert kind.NAME in str(refused.value)


def test_a_bare_number_is_shown_with_units() -> None:
    assert Length.is_number("85")
    assert not Length.is_number("85 ft")
    assert Length.expected("85") == "'85 ft' or '85 m'"
    assert Impedance.expected("75") == "'75 ohm' or '75 Ω'"
    assert Band.expected() == "'54 MHz to 1002 MHz' or '5 to 42 MHz'"


@pytest.mark.parametrize("kind", [*Quantity.__subclasses__()], ids=lambda kind: kind.NAME)
def test_the_examples_are_accepted(kind: type[Quantity]) -> None:
    assert [kind.parse(example).text for example in kind.EXAMPLES] == list(kind.EXAMPLES)


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [
        (12.345, 1, "12.3"),
        (12.0, 2, "12"),
        (100.0, 0, "100"),
        (0.0, 2, "0"),
        (-0.0, 2, "0"),
        (0.04, 1, "0.04"),
        (-0.04, 1, "-0.04"),
        (3e-12, 2, "0.000000000003"),
    ],
)
def test_shown_hides_no_value(value: float, decimals: int, text: str) -> None:
    assert shown(value, decimals) == text


def test_totals_keep_the_author_s_system() -> None:
    feet, inches, meters = Length.parse("8 ft"), Length.parse("6 in"), Length.parse("2 m")
    assert total([feet, inches]).text == "8.5 ft"
    assert total([feet, meters]).text == "4.44 m"
    assert total([]).text == "0 m"
    assert total([feet, meters]).length_m == pytest.approx(4.4384)
    assert in_system_of(feet, 3.048).text == "10 ft"
    assert in_system_of(meters, 3.048).text == "3.05 m"
    assert in_feet(0.01).text == "0.01 ft"
    assert in_meters(0.001).text == "0.001 m"


def test_quantities_are_equal_by_their_text() -> None:
    assert Length.parse("3 ft") == Length.parse("3 ft")
    assert len({Length.parse("3 ft"), Length.parse("3 ft"), Length.parse("36 in")}) == 2
    assert Length.parse("3 ft").length_m < inf


@pytest.mark.parametrize(("text", "meant"), [("-3 dB", "3 dB"), ("−3.5dB", "3.5dB"), ("+3 dB", "3 dB")])
def test_a_loss_has_no_sign(text: str, meant: str) -> None:
    with pytest.raises(QuantityError, match="is not a loss in decibels") as refused:
        Loss.parse(text)
    assert refused.value.nearest == meant
    assert Loss.parse(meant).loss_db > 0


def test_a_meter_shows_a_loss_as_a_gain() -> None:
    """What a sweep meter prints as -4.2 dB is a loss of 4.2 dB."""
    assert LossAt.parse("-4.2 dB at 750 MHz").loss_db == LossAt.parse("4.2 dB at 750 MHz").loss_db == 4.2


def test_ranges_may_be_written_from_either_end() -> None:
    band = Band.parse("1002 MHz to 54 MHz")
    assert (band.low_hz, band.high_hz, band.text) == (54e6, 1002e6, "1002 MHz to 54 MHz")
    window = LevelRange.parse("12 to -6 dBmV")
    assert (window.low.level_dbmv, window.high.level_dbmv) == (-6, 12)
