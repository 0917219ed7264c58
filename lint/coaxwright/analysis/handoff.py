"""The level with which a service begins: stated at the demarcation point, or that of the field at an antenna."""

from __future__ import annotations

from math import sqrt

from coaxwright.analysis.loss_range import LossRange
from coaxwright.design.quantities import LevelAt
from coaxwright.network import DeviceNode, ServiceNode, Unknown
from coaxwright.physics.antennas import terminal_level_dbmv


def handoff_figures(service: ServiceNode, start: DeviceNode, freq_hz: float) -> LossRange | Unknown:
    """The level [dBmV] of a service where it begins, towards the outlets, at a frequency [Hz].

    Between stated points on a straight line in the root of the frequency, as the slope of cable runs; beyond them, and
    of a single point, the nearest. Of a channel with a field strength, what the antenna's gain makes of it.
    """
    down = service.service.down
    if down is not None and down.level:
        return LossRange.exactly(_between(down.level, freq_hz))
    for channel in service.service.channels or ():
        if channel.frequency.freq_hz == freq_hz and channel.field is not None:
            gain = start.device.gain
            if gain is None:
                return Unknown("source without gain", (*start.path, "gain"), {"device": start.tag})
            return LossRange.exactly(terminal_level_dbmv(channel.field.field_dbuv_per_m, gain.gain_db, freq_hz))
    key = "down" if service.service.channels is None else "channels"
    return Unknown("level not stated", ("services", service.tag, key), {"service": service.tag})


def _between(points: list[LevelAt], freq_hz: float) -> float:
    known = sorted((point.frequency.freq_hz, point.level.level_dbmv) for point in points)
    below = [point for point in known if point[0] <= freq_hz]
    above = [point for point in known if point[0] >= freq_hz]
    if not below or not above:
        return (above or below)[0 if above else -1][1]
    (low_hz, low_dbmv), (high_hz, high_dbmv) = below[-1], above[0]
    if high_hz == low_hz:
        return low_dbmv
    share = (sqrt(freq_hz) - sqrt(low_hz)) / (sqrt(high_hz) - sqrt(low_hz))
    return low_dbmv + share * (high_dbmv - low_dbmv)
