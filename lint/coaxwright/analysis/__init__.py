"""Physics applied to a plant; each answer is computed when it is first asked for, and kept."""

from __future__ import annotations

from coaxwright.analysis.losses import ROOM_C, band_edges_hz, line_loss_db
from coaxwright.analysis.mismatches import Joint, Ripple, joint, ripple
from coaxwright.plant import CableLink, Known, Plant, Unknown


class Analysis:
    """Computed answers about one plant."""

    def __init__(self, plant: Plant) -> None:
        self.plant = plant
        self._losses: dict[tuple[str, float], Known | Unknown] = {}

    def line_loss_db(self, link: CableLink, freq_hz: float) -> Known | Unknown:
        """The loss [dB] of a cable at a frequency [Hz]."""
        key = (link.tag, freq_hz)
        if key not in self._losses:
            self._losses[key] = line_loss_db(link, freq_hz)
        return self._losses[key]

    def band_edges_hz(self, link: CableLink) -> tuple[float, float] | None:
        """The lowest and highest frequency [Hz] that a cable carries; None where no service says."""
        return band_edges_hz(self.plant.services_on(link.tag))


__all__ = ["ROOM_C", "Analysis", "Joint", "Ripple", "band_edges_hz", "joint", "line_loss_db", "ripple"]
