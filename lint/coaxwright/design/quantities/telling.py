"""Computed quantities in words, where no author has written them."""

from __future__ import annotations

from coaxwright.design.quantities.lengths import shown

_FREQUENCIES_HZ = ((5e9, 1e9, "GHz"), (1e6, 1e6, "MHz"), (1e3, 1e3, "kHz"), (0.0, 1.0, "Hz"))
"""From which frequency on a unit is written: what runs over coax is told in MHz up to satellite bands and beyond."""


def frequency(freq_hz: float) -> str:
    """A frequency as the trade writes it: ``50 Hz``, ``1.5 kHz``, ``1002 MHz``, ``5.8 GHz``."""
    unit_hz, unit = next((unit_hz, unit) for from_hz, unit_hz, unit in _FREQUENCIES_HZ if freq_hz >= from_hz)
    return f"{shown(freq_hz / unit_hz, 3)} {unit}"
