"""Levels over random networks: plain sums in their order, without end or nonsense, whatever the order of the file."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.analysis import Analysis, LossRange, Outlet, Reading
from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.reports.levels import SiteLevels, csv_form, json_form, site_levels, svg, text
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

RULES = combine(["trade 1"], shipped_registry()).rules
NO_NUMBER = re.compile(r"\b(nan|inf|infinity)\b", re.IGNORECASE)
CLASSES = ("series 59", "series 6", "series 11")


@dataclass(frozen=True)
class Drawn:
    """A design as its lines, so that they can be put in another order."""

    head: str
    devices: tuple[str, ...]
    cables: tuple[str, ...]
    points: tuple[tuple[int, float], ...]
    """The demarcation point: frequency [MHz] and level [dBmV]."""
    wanted_dbmv: float | None

    def text(self, random: Random | None = None) -> str:
        devices, cables = list(self.devices), list(self.cables)
        if random is not None:
            random.shuffle(devices)
            random.shuffle(cables)
        return "\n".join((self.head, "devices:", *devices, "cables:", *cables, ""))


def _tenths(least: int, most: int) -> st.SearchStrategy[str]:
    return st.integers(least * 10, most * 10).map(lambda tenths: f"{tenths / 10:g}")


@st.composite
def networks(draw: st.DrawFn) -> Drawn:
    """A tree of splitters, taps, amplifiers, pads and cables of random lengths, with outlets at its ends."""
    at_mhz = draw(st.lists(st.sampled_from((54, 200, 550, 1002)), max_size=3, unique=True))
    points = [(mhz, draw(_tenths(-30, 40))) for mhz in at_mhz]
    stated = ", ".join(f"{level} dBmV at {mhz} MHz" for mhz, level in points)
    level = f", level: [{stated}]" if points else ""
    wanted_dbmv = draw(st.none() | _tenths(0, 45))
    wanted = f", wanted: {wanted_dbmv} dBmV" if wanted_dbmv is not None else ""
    coldest, hottest = sorted((draw(st.integers(-40, 60)), draw(st.integers(-40, 60))))
    head = (
        "coaxwright: 1\ntitle: Knot Rise 4 (invented)\nbasis: {rulesets: [trade 1]}\n"
        f"places: {{loft: {{exposure: attic, temperature: {coldest} to {hottest} °C}}, hall: {{}}}}\n"
        f"services:\n  net: {{kind: cable broadband, from: DROP, down: {{band: 54 to 1002 MHz{level}}}, "
        f"up: {{band: 5 to 42 MHz{wanted}}}}}"
    )
    devices, cables = ["  DROP: {kind: coax drop}"], []
    open_ends = ["DROP"]
    for number in range(draw(st.integers(0, 7))):
        kind = draw(st.sampled_from(("splitter", "tap", "amplifier", "pad")))
        tag, (words, outlets) = f"P-{number}", _PARTS[kind](draw)
        devices.append(f"  {tag}: {{kind: {words}}}")
        near = open_ends.pop(draw(st.integers(0, len(open_ends) - 1)))
        cables.append(f"  C-{number}: {{from: {near}, to: {tag}, {draw(runs())}}}")
        open_ends += [f"{tag}.{port}" for port in outlets]
    for number, near in enumerate(open_ends):
        kind = draw(st.sampled_from(("outlet", "cable modem", "receiver")))
        devices.append(f"  T-{number}: {{kind: {kind}, serves: [net]}}")
        cables.append(f"  D-{number}: {{from: {near}, to: T-{number}, {draw(runs())}}}")
    stated_points = tuple((mhz, float(level)) for mhz, level in points)
    return Drawn(
        head, tuple(devices), tuple(cables), stated_points, None if wanted_dbmv is None else float(wanted_dbmv)
    )


_PARTS = {
    "splitter": lambda draw: _splitter(draw(st.sampled_from((2, 3, 4, 8)))),
    "tap": lambda draw: (
        f"tap, outputs: 2, value: {draw(st.sampled_from((12, 16, 20)))} dB",
        ("out", "tap-1", "tap-2"),
    ),
    "amplifier": lambda draw: (
        f"drop amplifier, outputs: 1, variant: return path, gain: {draw(_tenths(1, 30))} dB",
        ("out",),
    ),
    "pad": lambda draw: (f"attenuator, value: {draw(st.sampled_from((3, 6, 10)))} dB", ("out",)),
}


def _splitter(ways: int) -> tuple[str, tuple[str, ...]]:
    return f"splitter, ways: {ways}", tuple(f"out-{number}" for number in range(1, ways + 1))


@st.composite
def runs(draw: st.DrawFn) -> str:
    """The type of a cable with its length, its route, or neither."""
    length = f"{draw(_tenths(0, 90))} {draw(st.sampled_from(('m', 'ft')))}"
    how = draw(
        st.sampled_from((f"length: {length}", f"route: [loft: {length}]", f"route: [loft: {length}, hall: 3 m]"))
    )
    how = draw(st.sampled_from((how, how, how, "note: not measured yet")))
    return f"type: {draw(st.sampled_from(CLASSES))}, {how}"


def network_of(written: str) -> Network:
    return build_network(understand(read_text(written, "plans/knot.coax.yaml")))


def levels_of(written: str, between: int = 0) -> SiteLevels:
    return site_levels("plans/knot.coax.yaml", Analysis(network_of(written)), ("trade 1",), RULES, between=between)


def forms(written: str) -> list[str]:
    levels = levels_of(written)
    return [
        text.render(levels, 80),
        csv_form.render(levels),
        json_form.render(levels),
        svg.render(levels_of(written, between=5)),
    ]


@settings(max_examples=40, deadline=None)
@given(networks())
def test_no_form_holds_what_is_no_number(drawn: Drawn) -> None:
    found = forms(drawn.text())
    assert [NO_NUMBER.search(form) for form in found] == [None] * len(found)
    json.loads(found[2], parse_constant=pytest.fail)


@settings(max_examples=40, deadline=None)
@given(networks(), st.randoms(use_true_random=False))
def test_the_order_of_the_file_changes_no_byte(drawn: Drawn, random: Random) -> None:
    assert forms(drawn.text(random)) == forms(drawn.text())


@settings(max_examples=100, deadline=None)
@given(networks())
def test_a_level_is_the_hand_off_less_the_plain_sum_of_the_steps(drawn: Drawn) -> None:
    """Losses in a row add in decibels, step by step and extreme by extreme. Source: textbook identity."""
    analysis = Analysis(network_of(drawn.text()))
    for direction, sign in (("down", -1), ("up", 1)):
        for reading, steps in _readings(analysis.outlets("net", direction)):
            known = [loss for loss in steps if isinstance(loss, LossRange)]
            assert isinstance(reading.loss_db, LossRange) == (len(known) == len(steps))
            if not isinstance(reading.loss_db, LossRange):
                continue
            sums = [sum(extreme) for extreme in zip(*known, strict=True)] if known else [0.0] * 5
            assert list(reading.loss_db) == pytest.approx(sums, abs=1e-9)
            start_dbmv = drawn.wanted_dbmv if direction == "up" else _hand_off_dbmv(drawn.points, reading.freq_hz / 1e6)
            assert isinstance(reading.level_dbmv, LossRange) == (start_dbmv is not None)
            if isinstance(reading.level_dbmv, LossRange) and start_dbmv is not None:
                assert reading.level_dbmv.nominal == pytest.approx(start_dbmv + sign * sums[2], abs=1e-9)


def _readings(outlets: tuple[Outlet, ...]) -> list[tuple[Reading, list[object]]]:
    return [
        (reading, [step.losses[reading.index] for step in outlet.chain])
        for outlet in outlets
        for reading in outlet.readings
    ]


def _hand_off_dbmv(points: tuple[tuple[int, float], ...], freq_mhz: float) -> float | None:
    """A straight line in the root of the frequency between the points, the nearest beyond them; by numpy."""
    if not points:
        return None
    roots = np.sqrt([mhz for mhz, _ in sorted(points)])
    return float(np.interp(np.sqrt(freq_mhz), roots, [level for _, level in sorted(points)]))


@settings(max_examples=100, deadline=None)
@given(networks())
def test_the_extremes_lie_around_the_usual_figure(drawn: Drawn) -> None:
    """Heat costs level, and what published figures leave open lies beyond both ends."""
    analysis = Analysis(network_of(drawn.text()))
    for direction in ("down", "up"):
        for reading, _ in _readings(analysis.outlets("net", direction)):
            if isinstance(loss := reading.loss_db, LossRange):
                assert list(loss) == pytest.approx(sorted(loss), abs=1e-9)
            if direction == "down" and isinstance(level := reading.level_dbmv, LossRange):
                rising = [level.low, level.hot, level.nominal, level.cold, level.high]
                assert rising == pytest.approx(sorted(rising), abs=1e-9)


@settings(max_examples=100, deadline=None)
@given(
    st.sampled_from(CLASSES),
    st.integers(0, 3000),
    st.integers(1, 3000),
    st.sampled_from(("length", "route")),
)
def test_a_longer_cable_never_gives_more_level(name: str, length_dm: int, more_dm: int, how: str) -> None:
    def level(length: int) -> list[LossRange]:
        stated = f"route: [loft: {length / 10:g} m]" if how == "route" else f"length: {length / 10:g} m"
        written = (
            "coaxwright: 1\ntitle: Knot Rise 5 (invented)\nbasis: {rulesets: [trade 1]}\n"
            "places: {loft: {exposure: attic, temperature: -10 to 50 °C}}\n"
            "services:\n"
            "  net: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz, level: [9 dBmV at 54 MHz]}}\n"
            "devices: {D: {kind: coax drop}, T: {kind: outlet, serves: [net]}}\n"
            f"cables: {{C: {{from: D, to: T, type: {name}, {stated}}}}}\n"
        )
        (outlet,) = Analysis(network_of(written)).outlets("net")
        found = [reading.level_dbmv for reading in outlet.readings]
        assert all(isinstance(one, LossRange) for one in found)
        return [one for one in found if isinstance(one, LossRange)]

    for short, long in zip(level(length_dm), level(length_dm + more_dm), strict=True):
        assert all(less > more for less, more in zip(short, long, strict=True))
