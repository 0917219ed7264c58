"""What a device of a catalogue file answers."""

from __future__ import annotations

import pytest
import yaml

from coaxwright.catalogue import DeviceEntry, read_catalogue

FILE = yaml.safe_load("""
edition: 1
sources:
  sheet: {document: a data sheet, confidence: found}
devices:
  line amplifier:
    kind: line amplifier
    description: d
    impedance: 75 ohm
    connector: F
    passes power: false
    power paths: [{from: out-1, to: in, passes: true, sources: {passes: sheet}}]
    needs power: true
    fed at: [out]
    feeds at: [in]
    gain: {low: 9 dB, nominal: 10 dB, high: 12 dB}
    ports:
      - {name: in, direction: in, group: in, impedance: 50 ohm, connector: N}
      - {name: test, direction: out, group: test, band: 54 to 1002 MHz}
      - {name: out, count: 2, direction: out, group: out}
    paths:
      - {from: in, to: out, band: 54 to 1002 MHz, one way: true, amplified: true, sources: {band: sheet}}
      - {from: in, to: out, band: 5 to 42 MHz, low: 4 dB, nominal: 5 dB, high: 6 dB, sources: {low: sheet}}
    isolations:
      - {from: out, to: out, band: 54 to 1002 MHz, low: 20 dB, nominal: 22 dB, high: 30 dB, sources: {low: sheet}}
    sources: {gain: sheet}
    made as:
      small: {variant: small, gain: {low: 5 dB, nominal: 6 dB, high: 7 dB}}
      long: {variant: long, paths: [{from: in, to: test, band: 54 to 1002 MHz, low: 20 dB, nominal: 20 dB, high: 20 dB,
                                     sources: {low: sheet}}], sources: {needs power: sheet}}
""")
CATALOGUE = read_catalogue([("firm.yaml", FILE)])


def amplifier(variant: str = "small") -> DeviceEntry:
    entry = CATALOGUE.device("line amplifier", variant=variant)
    assert entry is not None
    return entry


def test_sizes_share_what_is_written_once() -> None:
    small, long = amplifier("small"), amplifier("long")
    assert (small.name, long.name) == ("small line amplifier", "long line amplifier")
    assert small.gain == (5, 6, 7)
    assert long.gain == (9, 10, 12)
    assert (len(small.paths), len(long.paths)) == (2, 3)
    assert (set(small.sources), set(long.sources)) == ({"gain"}, {"gain", "needs power"})
    assert CATALOGUE.device("line amplifier") is None
    assert CATALOGUE.variants("line amplifier") == ("small", "long")


def test_a_gain_is_a_negative_loss_one_way() -> None:
    entry = amplifier()
    assert entry.loss("in", "out-1", 533e6) == (-7, -6, -5)
    assert entry.loss("out-1", "in", 533e6) is None
    assert entry.loss("out-1", "in", 20e6) == entry.loss("in", "out-1", 20e6) == (4, 5, 6)
    path = entry.path("in", "out-2", 54e6)
    assert path is not None
    assert path.amplified
    assert not entry.is_passive


@pytest.mark.parametrize(
    ("from_port", "to_port", "freq_mhz", "expected"),
    [
        ("in", "out-1", 533, True),
        ("in", "out-1", 54, True),
        ("out-1", "in", 533, False),
        ("out-1", "in", 42, True),
        ("in", "out-1", 48, None),
        ("out-1", "out-2", 533, False),
        ("out-1", "out-2", 20, None),
        ("in", "test", 533, None),
        ("in", "in", 533, None),
        ("in", "tap", 533, None),
        ("tap", "in", 533, None),
    ],
)
def test_whether_a_signal_passes(from_port: str, to_port: str, freq_mhz: float, expected: bool | None) -> None:
    assert amplifier().passes(from_port, to_port, freq_mhz * 1e6) is expected


def test_which_ports_a_signal_passes() -> None:
    def names(freq_hz: float) -> list[tuple[str, str]]:
        return [(one.name, other.name) for one, other in amplifier().passing(freq_hz)]

    assert names(533e6) == [("in", "out-1"), ("in", "out-2")]
    assert names(20e6) == [("in", "out-1"), ("in", "out-2"), ("out-1", "in"), ("out-2", "in")]
    assert names(48e6) == []


def test_isolation_is_between_two_ports_of_a_group_both_ways() -> None:
    entry = amplifier()
    assert entry.isolation("out-1", "out-2", 533e6) == entry.isolation("out-2", "out-1", 533e6) == (20, 22, 30)
    assert entry.isolation("out-1", "out-1", 533e6) is None
    assert entry.isolation("in", "out-1", 533e6) is None


def test_where_power_passes() -> None:
    entry = amplifier()
    assert entry.power_passes("in", "out-1") is True
    assert entry.power_passes("out-1", "in") is True
    assert entry.power_passes("in", "out-2") is False
    assert entry.power_passes("in", "in") is None
    assert entry.power_passes("in", "tap") is None
    assert [port.name for port in entry.fed_ports] == ["out-1", "out-2"]
    assert [port.name for port in entry.feeding_ports] == ["in"]


def test_a_port_may_differ_from_the_device() -> None:
    ports = {port.name: port for port in amplifier().ports}
    assert (ports["in"].impedance_ohm, ports["in"].connector) == (50, "N")
    assert (ports["out-1"].impedance_ohm, ports["out-1"].connector) == (75, "F")
    assert ports["test"].band_hz == pytest.approx((54e6, 1002e6))
    assert ports["in"].band_hz is None
