"""The loss of a cable in place, from its class's table, its length and the temperatures it meets."""

from __future__ import annotations

from coaxwright.catalogue import UnknownWords
from coaxwright.physics.attenuation import FrequencyOutsideTable
from coaxwright.plant import CableLink, Known, ServiceNode, Unknown

ROOM_C = 20.0
"""Temperature of an indoor place that states none. Source: common practice; the tables hold at 20 °C."""


def line_loss_db(link: CableLink, freq_hz: float) -> Known | Unknown:
    """The loss [dB] of a cable at a frequency: coldest with the low figure, hottest with the high one.

    freq_hz [Hz]. Unknown where the length or type is, or where the class's table does not reach the frequency.
    Places without a stated temperature count as 20 °C.
    """
    if isinstance(link.type, UnknownWords):
        return Unknown(f"the type of {link.tag} is not understood", (*link.path, "type"))
    if isinstance(link.length, Unknown):
        return link.length
    attenuation = link.type.cable_class.attenuation
    stretches = [
        (segment.length.length_m, segment.place.place.temperature if segment.place is not None else None)
        for segment in link.segments
    ] or [(link.length.length_m, None)]
    low_db = nominal_db = high_db = 0.0
    try:
        for length_m, temperature in stretches:
            coldest_c, hottest_c = (temperature.coldest_c, temperature.hottest_c) if temperature else (ROOM_C, ROOM_C)
            low_db += length_m * attenuation.loss_db_per_m(freq_hz, coldest_c).low_db_per_m
            nominal_db += length_m * attenuation.loss_db_per_m(freq_hz).nominal_db_per_m
            high_db += length_m * attenuation.loss_db_per_m(freq_hz, hottest_c).high_db_per_m
    except FrequencyOutsideTable:
        name = link.type.cable_class.name
        return Unknown(f"no attenuation of {name} is known at {freq_hz / 1e6:g} MHz", (*link.path, "type"))
    return Known(low_db, nominal_db, high_db)


def band_edges_hz(services: tuple[ServiceNode, ...]) -> tuple[float, float] | None:
    """The lowest and the highest frequency [Hz] of several services together; None where none is stated."""
    edges: list[float] = []
    for node in services:
        for stream in (node.service.down, node.service.up):
            if stream is not None:
                edges += (stream.band.low_hz, stream.band.high_hz)
        edges += (channel.frequency.freq_hz for channel in node.service.channels or ())
    return (min(edges), max(edges)) if edges else None
