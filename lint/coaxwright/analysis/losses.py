"""The loss of a cable in place, from its class's table, its length and the temperatures it meets; and of a device."""

from __future__ import annotations

from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.measured import as_measured, measured_between
from coaxwright.catalogue import PathLoss, Port, UnknownWords
from coaxwright.network import CableLink, DeviceNode, Known, ServiceNode, Unknown
from coaxwright.physics.attenuation import FrequencyOutsideTable, loss_at_temperature

ROOM_C = 20.0
"""Temperature of an indoor place that states none. Source: common practice; the tables hold at 20 °C."""
_ASIDE = frozenset(("tap", "directional coupler", "outlet"))
"""Kinds whose own loss, where the design states it, is that of the way through and not of the way aside."""


class Lines:
    """The losses of cables in place; how long each would be at the temperature of its table is reckoned once."""

    def __init__(self) -> None:
        self._figures: dict[tuple[str, float], LossRange | Unknown] = {}
        self._lengths_m: dict[str, tuple[float, float, float]] = {}

    def figures(self, link: CableLink, freq_hz: float) -> LossRange | Unknown:
        """The loss [dB] of a cable at a frequency [Hz]: what was measured on it, else what its class's table gives.

        Unknown where neither says.
        """
        key = (link.tag, freq_hz)
        if key not in self._figures:
            measured = bool(link.cable.measured_loss)
            self._figures[key] = self._measured(link, freq_hz) if measured else self.by_table(link, freq_hz)
        return self._figures[key]

    def by_table(self, link: CableLink, freq_hz: float) -> LossRange | Unknown:
        """The loss [dB] of a cable at a frequency: cold with the low figure of the table, hot with the high one.

        freq_hz [Hz]. Unknown where the length or type is, or where the class's table does not reach the frequency.
        Places without a stated temperature count as 20 °C. The usual figure is that of 20 °C, or of the coldest or
        hottest where a place never gets so warm or cold.
        """
        if isinstance(link.type, UnknownWords):
            return Unknown("type not understood", (*link.path, "type"), {"cable": link.tag})
        if isinstance(link.length, Unknown):
            return link.length
        attenuation = link.type.cable_class.attenuation
        try:
            low, nominal, high = attenuation.loss_db_per_m(freq_hz)
        except FrequencyOutsideTable:
            values = {"cable_class": link.type.cable_class.name, "frequency": freq_hz}
            return Unknown("no attenuation", (*link.path, "type"), values)
        lengths_m = self._lengths_m.get(link.tag)
        if lengths_m is None:
            lengths_m = _lengths_m(link, link.length.length_m, attenuation.temperature_c)
            self._lengths_m[link.tag] = lengths_m
        cold_m, usual_m, hot_m = lengths_m
        return LossRange(low * cold_m, nominal * cold_m, nominal * usual_m, nominal * hot_m, high * hot_m)

    def _measured(self, link: CableLink, freq_hz: float) -> LossRange | Unknown:
        table = self.by_table(link, freq_hz)
        points = tuple(sorted((at.frequency.freq_hz, at.loss_db) for at in link.cable.measured_loss or ()))
        if isinstance(table, Unknown):
            loss_db = measured_between(points, freq_hz)
            return table if loss_db is None else LossRange.exactly(loss_db)
        by_table = [self.by_table(link, measured_hz) for measured_hz, _ in points]
        ratios = [
            (measured_hz, loss_db / figures.nominal)
            for (measured_hz, loss_db), figures in zip(points, by_table, strict=True)
            if isinstance(figures, LossRange) and figures.nominal > 0
        ]
        return as_measured(table, ratios, freq_hz)


def line_figures(link: CableLink, freq_hz: float) -> LossRange | Unknown:
    """The loss [dB] of a cable at a frequency [Hz]: what was measured on it, else what its class's table gives.

    Unknown where neither says.
    """
    return Lines().figures(link, freq_hz)


def _lengths_m(link: CableLink, length_m: float, table_c: float) -> tuple[float, float, float]:
    """How long a cable would be [m] that loses as much at the temperature of its table [°C] as this one where it lies.

    At the coldest, as usual, and at the hottest.
    """
    if not link.segments:
        room_m = loss_at_temperature(length_m, ROOM_C, table_c)
        return room_m, room_m, room_m
    indoors_m = cold_m = usual_m = hot_m = 0.0
    for segment in link.segments:
        temperature = segment.place.place.temperature if segment.place is not None else None
        if temperature is None:
            indoors_m += segment.length.length_m
            continue
        # written the other way round it is the same range
        coldest_c, hottest_c = sorted((temperature.coldest_c, temperature.hottest_c))
        for_usual_c = min(max(ROOM_C, coldest_c), hottest_c)
        cold_m += loss_at_temperature(segment.length.length_m, coldest_c, table_c)
        usual_m += loss_at_temperature(segment.length.length_m, for_usual_c, table_c)
        hot_m += loss_at_temperature(segment.length.length_m, hottest_c, table_c)
    room_m = loss_at_temperature(indoors_m, ROOM_C, table_c)
    return cold_m + room_m, usual_m + room_m, hot_m + room_m


def line_loss_db(link: CableLink, freq_hz: float) -> Known | Unknown:
    """The loss [dB] of a cable at a frequency: coldest with the low figure, hottest with the high one."""
    found = line_figures(link, freq_hz)
    return found if isinstance(found, Unknown) else Known(found.low, found.nominal, found.high)


def device_figures(node: DeviceNode, one: Port, other: Port, freq_hz: float) -> LossRange | Unknown:
    """The loss [dB] from one port of a device to another at a frequency [Hz]; a gain is a negative loss.

    What the design says of the device counts before the catalogue's figure.
    """
    path = node.entry.path(one.name, other.name, freq_hz) if node.entry is not None else None
    if path is None:
        return no_figure(node, one, other, freq_hz)
    stated_db = said_db(node, one, other, path)
    return LossRange.spread(*path.loss) if stated_db is None else LossRange.exactly(stated_db)


def no_figure(node: DeviceNode, one: Port, other: Port, freq_hz: float) -> Unknown:
    """What is missing where nobody says what a device does from one port to another at a frequency [Hz]."""
    values = {"device": node.tag, "one": one.name, "other": other.name, "frequency": freq_hz}
    return Unknown("no figure of a way", node.path, values)


def said_db(node: DeviceNode, one: Port, other: Port, path: PathLoss) -> float | None:
    """The loss [dB] that the design states for a way through a device; None where the catalogue's counts."""
    device = node.device
    if path.amplified:
        return -device.gain.gain_db if device.gain is not None else None
    is_aside = device.kind in _ASIDE and not {one.group, other.group} <= {"in", "out"}
    return device.loss.loss_db if device.loss is not None and not is_aside else None


def band_edges_hz(services: tuple[ServiceNode, ...]) -> tuple[float, float] | None:
    """The lowest and the highest frequency [Hz] of several services together; None where none is stated."""
    edges: list[float] = []
    for node in services:
        for stream in (node.service.down, node.service.up):
            if stream is not None:
                edges += (stream.band.low_hz, stream.band.high_hz)
        edges += (channel.frequency.freq_hz for channel in node.service.channels or ())
    return (min(edges), max(edges)) if edges else None
