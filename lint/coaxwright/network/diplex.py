"""Where a device parts up- and downstream: as the design says, else as the catalogue's figures have it."""

from __future__ import annotations

from dataclasses import replace

from coaxwright.catalogue import DeviceEntry, PathLoss
from coaxwright.design import Device
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import DeviceNode

_PARTED = ("return path", "high-pass", "low-pass")
"""Variants of amplifiers and filters that part the two directions; an amplifier of none stops the return band."""


@frozen_value
class DiplexPoint:
    """The top of the return band and the bottom of the forward band [Hz] of a device."""

    up_to_hz: float
    down_from_hz: float
    is_stated: bool
    """Whether the design says so; else it is the usual one of the catalogue."""


def diplex_point(node: DeviceNode) -> DiplexPoint | None:
    """Where a device parts the two directions; None where it does not."""
    said = node.device.split
    if said is not None:
        return DiplexPoint(said.up_to_hz, said.down_from_hz, True)
    made = _made(node.entry) if node.entry is not None else None
    return None if made is None else DiplexPoint(*made, False)


def with_split(entry: DeviceEntry | None, device: Device) -> DeviceEntry | None:
    """A catalogue entry with its edges moved to the split that the design states; the losses stay as they are."""
    said = device.split
    made = _made(entry) if entry is not None and said is not None else None
    if entry is None or said is None or made is None:
        return entry
    moved = {made[0]: said.up_to_hz, made[1]: said.down_from_hz}

    def at_split(path: PathLoss) -> PathLoss:
        return replace(path, low_hz=moved.get(path.low_hz, path.low_hz), high_hz=moved.get(path.high_hz, path.high_hz))

    paths, isolations = (tuple(map(at_split, group)) for group in (entry.paths, entry.isolations))
    return replace(entry, paths=paths, isolations=isolations, _known={}, _passing={}, _apart={})


def _made(entry: DeviceEntry) -> tuple[float, float] | None:
    """The edges of the first gap in a device's figures, of one that treats what lies below and above it unlike [Hz]."""
    if entry.kind not in ("drop amplifier", "filter") or entry.variant not in (None, *_PARTED):
        return None
    merged: list[tuple[float, float]] = []
    for low_hz, high_hz in sorted((path.low_hz, path.high_hz) for path in (*entry.paths, *entry.isolations)):
        if merged and low_hz <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(high_hz, merged[-1][1]))
        else:
            merged.append((low_hz, high_hz))
    return (merged[0][1], merged[1][0]) if len(merged) > 1 else None
