"""Every shipped device: sourced figure by figure, and possible."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import yaml

import coaxwright.catalogue
from coaxwright.catalogue import DeviceEntry, Direction, Options, load_catalogue
from coaxwright.physics.dividing import ideal_split_db, ideal_through_db
from coaxwright.physics.mismatch import minimum_loss_pad

CATALOGUE = load_catalogue()
FOLDER = Path(coaxwright.catalogue.__file__).parent / "data" / "devices"
HALF_A_DIGIT_DB = 0.005
"""The ideal losses are written to 0.01 dB."""


def everything() -> list[DeviceEntry]:
    return [entry for kind in CATALOGUE.device_kinds for entry in CATALOGUE.made(kind).values()]


def written() -> Iterator[tuple[str, Mapping[str, Any]]]:
    for path in sorted(FOLDER.glob("*.yaml")):
        for name, entry in yaml.safe_load(path.read_text(encoding="utf-8"))["devices"].items():
            yield f"{path.stem}: {name}", entry


def power_share(loss_db: float) -> float:
    return float(10 ** (-loss_db / 10))


@pytest.mark.parametrize("entry", everything(), ids=lambda entry: f"{entry.kind}: {entry.name}")
def test_a_device_is_possible(entry: DeviceEntry) -> None:
    port_names_are_unique_and_ports_of_a_group_are_alike(entry)
    figures_rise_from_low_to_high_and_passive_parts_never_gain(entry)
    bands_of_a_path_do_not_overlap(entry)
    passive_parts_are_alike_both_ways(entry)
    a_passive_part_gives_no_more_than_it_takes(entry)
    power_is_fed_where_there_is_a_port_for_it(entry)


@pytest.mark.parametrize(("name", "entry"), list(written()), ids=lambda value: value if isinstance(value, str) else "")
def test_every_figure_has_a_source(name: str, entry: Mapping[str, Any]) -> None:
    properties = {
        "impedance", "passes power", "needs power", "fed at", "feeds at", "protects", "isolates shield", "gain",
        "noise figure", "seldom",
    }  # fmt: skip
    figures = properties & set(entry) | ({"bands"} if any("band" in port for port in entry["ports"]) else set())
    assert set(entry["sources"]) - {"gain spread"} == figures
    for table in (entry, *entry.get("made as", {}).values()):
        for path in (*table.get("paths", ()), *table.get("isolations", ())):
            expected = {"band"} if path.get("amplified") else {"low", "nominal", "high"}
            assert set(path["sources"]) == expected
        for power in table.get("power paths", ()):
            assert set(power["sources"]) == {"passes"}


@pytest.mark.parametrize("kind", CATALOGUE.device_kinds)
def test_a_file_holds_one_kind_and_is_named_after_it(kind: str) -> None:
    assert {entry.kind for entry in CATALOGUE.made(kind).values()} == {kind}


def test_names_are_unique_within_a_kind() -> None:
    for kind in CATALOGUE.device_kinds:
        names = [entry.name for entry in CATALOGUE.made(kind).values()]
        assert len(set(names)) == len(names), kind


def test_device_kinds() -> None:
    assert set(CATALOGUE.device_kinds) >= {
        "coax drop", "ground block", "protector", "splitter", "antenna", "preamplifier", "power inserter",
        "cable modem", "outlet", "terminator", "receiver",
    }  # fmt: skip
    assert CATALOGUE.ways("splitter") == (2, 3, 4, 8), "the sizes of ANSI/SCTE 153"
    assert {options.ways for options in CATALOGUE.made("splitter")} == {2, 3, 4, 6, 8, 16}
    assert CATALOGUE.ways("splitter", "unbalanced") == (3,)
    assert CATALOGUE.ways("outlet") == ()
    assert CATALOGUE.ways("toaster") == ()


def test_devices_are_found_by_kind_and_options() -> None:
    assert CATALOGUE.device("splitter") is None
    assert CATALOGUE.device("splitter", 5) is None
    assert CATALOGUE.device("toaster") is None
    assert CATALOGUE.device("toaster", outputs=2) is None
    tap = CATALOGUE.device("tap", outputs=4, value_db=20.0)
    assert tap is not None
    assert (tap.name, tap.options) == ("20 dB 4-output tap", Options(outputs=4, value_db=20.0))
    for kind in CATALOGUE.device_kinds:
        for options, entry in CATALOGUE.made(kind).items():
            found = CATALOGUE.device(
                kind, options.ways, options.variant,
                inputs=options.inputs, outputs=options.outputs, value_db=options.value_db,
            )  # fmt: skip
            assert found is entry
            assert set(options.named) <= set(CATALOGUE.option_names(kind))


def test_what_sets_devices_of_a_kind_apart() -> None:
    assert CATALOGUE.option_names("tap") == ("outputs", "value_db")
    assert CATALOGUE.option_names("splitter") == ("ways", "variant")
    assert CATALOGUE.option_names("ground block") == ()
    assert CATALOGUE.variants("combiner") == ("UHF/VHF", "TV/satellite")


def port_names_are_unique_and_ports_of_a_group_are_alike(entry: DeviceEntry) -> None:
    names = [port.name for port in entry.ports]
    assert len(set(names)) == len(names)
    assert not any("." in name or " " in name for name in names), "a design writes TAG.port"
    for port in entry.ports:
        alike = [other for other in entry.ports if other.group == port.group]
        assert {(other.direction, other.impedance_ohm, other.connector) for other in alike} == {
            (port.direction, port.impedance_ohm, port.connector)
        }


def figures_rise_from_low_to_high_and_passive_parts_never_gain(entry: DeviceEntry) -> None:
    for path in (*entry.paths, *entry.isolations):
        assert path.loss.low_db <= path.loss.nominal_db <= path.loss.high_db
        assert 0 < path.low_hz < path.high_hz
        assert path.loss.low_db >= 0 or path.amplified
        assert not (path.amplified and entry.is_passive)
    if entry.noise_figure is not None:
        assert 0 < entry.noise_figure.low_db <= entry.noise_figure.nominal_db <= entry.noise_figure.high_db


def bands_of_a_path_do_not_overlap(entry: DeviceEntry) -> None:
    for one in entry.ports:
        for other in entry.ports:
            mine = sorted(
                (path.low_hz, path.high_hz)
                for path in (*entry.paths, *entry.isolations)
                if one is not other and path.ends.join(one, other)
            )
            assert all(first[1] <= second[0] for first, second in pairwise(mine)), (one.name, other.name)


def passive_parts_are_alike_both_ways(entry: DeviceEntry) -> None:
    for path in entry.paths:
        freq_hz = (path.low_hz + path.high_hz) / 2
        for one, other in entry.passing(freq_hz):
            if entry.is_passive:
                assert entry.loss(one.name, other.name, freq_hz) == entry.loss(other.name, one.name, freq_hz)


def a_passive_part_gives_no_more_than_it_takes(entry: DeviceEntry) -> None:
    if not entry.is_passive:
        return
    for path in entry.paths:
        freq_hz = (path.low_hz + path.high_hz) / 2
        for start in entry.ports:
            given = [
                loss.nominal_db
                for port in entry.ports
                if (loss := entry.loss(start.name, port.name, freq_hz)) is not None
            ]
            assert sum(map(power_share, given)) <= 1 + 1e-9


def power_is_fed_where_there_is_a_port_for_it(entry: DeviceEntry) -> None:
    if entry.fed_ports:
        assert entry.needs_power
    assert not set(entry.fed_ports) & set(entry.feeding_ports)


@pytest.mark.parametrize("ways", [2, 3, 4, 6, 8, 16])
def test_splitters_divide_alike(ways: int) -> None:
    splitter = CATALOGUE.device("splitter", ways)
    assert splitter is not None
    assert [port.name for port in splitter.ports] == ["in", *(f"out-{index}" for index in range(1, ways + 1))]
    assert {port.group for port in splitter.ports if port.direction is Direction.OUT} == {"out"}
    assert all(port.impedance_ohm == 75 for port in splitter.ports)
    loss = splitter.loss("in", f"out-{ways}", 533e6)
    assert loss is not None
    assert splitter.loss(f"out-{ways}", "in", 533e6) == loss
    assert splitter.loss("out-1", "out-2", 533e6) is None
    assert splitter.passes("out-1", "out-2", 533e6) is False
    assert splitter.loss("in", "out-1", 1125e9) is None


def test_splitters_lose_at_least_what_an_ideal_one_does() -> None:
    for entry in CATALOGUE.made("splitter").values():
        if entry.variant == "unbalanced":
            continue
        assert entry.ways is not None
        for path in entry.paths:
            assert path.loss.low_db >= ideal_split_db(entry.ways) - HALF_A_DIGIT_DB


def test_unbalanced_splitter() -> None:
    splitter = CATALOGUE.device("splitter", 3, "unbalanced")
    assert splitter is not None
    assert [port.name for port in splitter.ports] == ["in", "low-loss", "out-1", "out-2"]
    assert splitter.port("low-loss") is not None
    assert splitter.loss("in", "low-loss", 5e8) != splitter.loss("in", "out-1", 5e8)


TAPPING = [*CATALOGUE.made("tap").values(), *CATALOGUE.made("directional coupler").values()]
LOOPS = [entry for entry in CATALOGUE.made("outlet").values() if entry.variant == "loop-through"]


@pytest.mark.parametrize("entry", [*TAPPING, *LOOPS], ids=lambda entry: entry.name)
def test_a_tap_passes_on_no_more_than_it_does_not_give_away(entry: DeviceEntry) -> None:
    value_db = entry.options.value_db
    assert value_db is not None
    outputs = [port for port in entry.ports if port.group in ("tap", "socket")]
    assert len(outputs) == (entry.options.outputs or 1)
    through = entry.loss("in", "out", 500e6)
    tapped = entry.loss("in", outputs[-1].name, 500e6)
    assert through is not None
    assert tapped is not None
    assert tapped.nominal_db == value_db
    assert through.low_db >= ideal_through_db(value_db, len(outputs))


@pytest.mark.parametrize("entries", [TAPPING[:8], TAPPING[8:15], TAPPING[15:21], TAPPING[21:26], TAPPING[26:]])
def test_a_tap_of_higher_value_passes_on_no_less(entries: list[DeviceEntry]) -> None:
    assert len({(entry.kind, entry.options.outputs) for entry in entries}) == 1
    through = [entry.loss("in", "out", 500e6) for entry in entries]
    assert all(one is not None and other is not None and one >= other for one, other in pairwise(through))


def test_ground_block_is_alike_both_ways_and_protects() -> None:
    block = CATALOGUE.device("ground block")
    assert block is not None
    assert block.protects
    assert block.bonds_shield
    assert {(port.direction, port.group) for port in block.ports} == {(Direction.EITHER, "through")}
    assert block.loss("in", "out", 5e8) == block.loss("out", "in", 5e8) == (0.1, 0.15, 0.2)
    assert block.loss("in", "in", 5e8) is None
    assert block.loss("in", "tap", 5e8) is None
    assert block.power_passes("in", "out") is True


def test_preamplifier_has_its_figures_and_is_fed_from_below() -> None:
    preamplifier = CATALOGUE.device("preamplifier")
    assert preamplifier is not None
    assert preamplifier.needs_power
    assert preamplifier.gain == (16, 20, 34)
    assert preamplifier.noise_figure == (1, 2, 3)
    assert [port.name for port in preamplifier.fed_ports] == ["out"]
    assert preamplifier.loss("in", "out", 533e6) == (-34, -20, -16)
    assert preamplifier.passes("out", "in", 533e6) is False


def test_power_inserter_feeds_the_antenna_side_only() -> None:
    inserter = CATALOGUE.device("power inserter")
    assert inserter is not None
    assert [port.name for port in inserter.feeding_ports] == ["in"]
    assert inserter.power_passes("out", "in") is False


@pytest.mark.parametrize("outputs", [1, 2, 4, 8])
def test_drop_amplifiers_pass_the_return_path_where_they_say_so(outputs: int) -> None:
    forward_only = CATALOGUE.device("drop amplifier", outputs=outputs)
    both = CATALOGUE.device("drop amplifier", variant="return path", outputs=outputs)
    assert forward_only is not None
    assert both is not None
    out = "out" if outputs == 1 else f"out-{outputs}"
    assert forward_only.passes(out, "in", 20e6) is False
    assert both.passes(out, "in", 20e6) is True
    returned = both.loss(out, "in", 20e6)
    assert returned is not None
    assert returned.low_db >= ideal_split_db(outputs) - HALF_A_DIGIT_DB
    assert both.passes(out, "in", 533e6) is False
    assert both.loss("in", out, 533e6) == forward_only.loss("in", out, 533e6)


def test_filter_of_in_home_data() -> None:
    part = CATALOGUE.device("filter", variant="point-of-entry")
    assert part is not None
    assert part.passes("in", "out", 533e6) is True
    assert part.passes("in", "out", 1400e6) is False
    assert part.passes("in", "out", 1050e6) is None
    isolation = part.isolation("out", "in", 1400e6)
    assert isolation is not None
    assert isolation.low_db >= 35


def test_diplexer_feeds_power_on_its_satellite_side() -> None:
    for kind, common in (("diplexer", "in"), ("combiner", "out")):
        part = CATALOGUE.device(kind, variant="TV/satellite")
        assert part is not None
        assert part.power_passes("satellite", common) is True
        assert part.power_passes("TV", common) is False
        assert {(one.name, other.name) for one, other in part.passing(1500e6)} == {
            ("satellite", common), (common, "satellite")
        }  # fmt: skip


def test_matching_pad_is_the_minimum_loss_pad() -> None:
    pad = CATALOGUE.device("matching pad")
    assert pad is not None
    loss = pad.loss("75-ohm", "50-ohm", 1e8)
    assert loss is not None
    assert loss.nominal_db == pytest.approx(minimum_loss_pad(75, 50).loss_db, abs=HALF_A_DIGIT_DB)
    assert [(port.impedance_ohm, port.connector) for port in pad.ports] == [(75, "F"), (50, "N")]
    assert pad.power_passes("75-ohm", "50-ohm") is False


def test_an_equalizer_takes_more_at_the_low_end() -> None:
    for entry in CATALOGUE.made("equalizer").values():
        losses = [path.loss for path in sorted(entry.paths, key=lambda path: path.low_hz)]
        assert all(one > other for one, other in pairwise(losses))


def test_kinds_without_cable_have_no_ports() -> None:
    assert [entry.kind for entry in everything() if not entry.ports] == ["dish"]
