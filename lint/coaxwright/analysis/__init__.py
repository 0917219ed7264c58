"""Physics applied to a network; each answer is computed when it is first asked for, and kept."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from coaxwright.analysis.computed_cables import computed_cables
from coaxwright.analysis.isolation import Isolations
from coaxwright.analysis.levels import USUAL_LEVEL, Outlet, Reading, outlet_readings, transmit_readings
from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.losses import ROOM_C, Lines, band_edges_hz, line_loss_db
from coaxwright.analysis.mismatches import Joint, Ripple, joint, ripple
from coaxwright.analysis.path_loss import Losses, Step
from coaxwright.analysis.remedies import more_loss_db
from coaxwright.catalogue import CableClass
from coaxwright.network import CableLink, Direction, Grid, Known, Network, Unknown

if TYPE_CHECKING:
    from coaxwright.analysis.batch_loss import UsualLosses


class Analysis:
    """Computed answers about one network."""

    def __init__(self, network: Network) -> None:
        self.network = network
        self._lines = Lines()

    def line_loss_db(self, link: CableLink, freq_hz: float) -> Known | Unknown:
        """The loss [dB] of a cable at a frequency [Hz], with its extremes."""
        found = self.line_figures(link, freq_hz)
        return found if isinstance(found, Unknown) else Known(found.low, found.nominal, found.high)

    def line_figures(self, link: CableLink, freq_hz: float) -> LossRange | Unknown:
        """The loss [dB] of a cable at a frequency [Hz], also at its coldest and hottest."""
        return self._lines.figures(link, freq_hz)

    def table_figures(self, link: CableLink, freq_hz: float) -> LossRange | Unknown:
        """The loss [dB] that the class of a cable gives, whatever was measured on it."""
        return self._lines.by_table(link, freq_hz)

    def band_edges_hz(self, link: CableLink) -> tuple[float, float] | None:
        """The lowest and highest frequency [Hz] that a cable carries; None where no service says."""
        return band_edges_hz(self.network.services_on(link.tag))

    def losses(self, service: str, direction: Direction, grid_hz: Grid | None = None) -> Losses:
        """The losses along every way of a service in a direction.

        grid_hz: the frequencies [Hz]; those that the service states where it is left out.
        """
        signal = self.network.signal(service, direction, grid_hz)
        key = (service, direction, signal.grid_hz)
        if key not in self._losses:
            self._losses[key] = Losses(signal, self._lines.figures, is_upstream=direction == "up")
        return self._losses[key]

    def usual_losses(self, service: str, direction: Direction, grid_hz: Grid) -> UsualLosses:
        """The usual loss to every port that a service reaches, for a large site over a fine grid of frequencies [Hz].

        Without the bounds that ``losses`` gives; on arrays where the extra ``arrays`` is installed and they pay.
        """
        from coaxwright.analysis.batch_loss import usual_losses

        return usual_losses(self.network.signal(service, direction, grid_hz), direction == "up")

    @cached_property
    def _losses(self) -> dict[tuple[str, Direction, Grid], Losses]:
        return {}

    def isolations(self, service: str) -> Isolations:
        """How far the outlets of a service are kept apart."""
        if service not in self._isolations:
            self._isolations[service] = Isolations(self.losses(service, "down"))
        return self._isolations[service]

    @cached_property
    def _isolations(self) -> dict[str, Isolations]:
        return {}

    def outlets(self, service: str, direction: Direction = "down", grid_hz: Grid | None = None) -> tuple[Outlet, ...]:
        """Every outlet at which a service is wanted, with its levels in a direction, in tag order.

        Downstream the level at the outlet; upstream the level that the modem there has to send.
        """
        node = self.network.services[service]
        losses = self.losses(service, direction, grid_hz)
        key = (service, direction, losses.signal.grid_hz)
        if key not in self._outlets:
            read = outlet_readings if direction == "down" else transmit_readings
            self._outlets[key] = {
                device.tag: read(node, device, self.network.arrivals_at(losses.signal, device), losses)
                for device in self.network.outlets_of(service)
            }
        return tuple(self._outlets[key].values())

    def outlet(self, service: str, device: str, direction: Direction = "down") -> Outlet | None:
        """A service at one outlet, at the frequencies that it states; None where it is not wanted there."""
        if (service, direction) not in self._at_stated:
            self._at_stated[service, direction] = {one.device.tag: one for one in self.outlets(service, direction)}
        return self._at_stated[service, direction].get(device)

    @cached_property
    def _at_stated(self) -> dict[tuple[str, Direction], dict[str, Outlet]]:
        return {}

    def outlets_behind(self, cable: str, service: str) -> tuple[Outlet, ...]:
        """The outlets of a service that are reached over a cable, in tag order."""
        if service not in self._behind:
            behind: dict[str, list[Outlet]] = {}
            for outlet in self.outlets(service):
                for tag in {step.arrival.cable.tag for step in outlet.chain if step.arrival.cable is not None}:
                    behind.setdefault(tag, []).append(outlet)
            self._behind[service] = {tag: tuple(outlets) for tag, outlets in behind.items()}
        return self._behind[service].get(cable, ())

    @cached_property
    def _behind(self) -> dict[str, dict[str, tuple[Outlet, ...]]]:
        return {}

    def more_loss_db(self, outlet: Outlet, smaller: CableClass) -> tuple[float, ...]:
        """What would be lost more [dB] at each reading of an outlet, were all larger cables on its way of a class."""
        key = (id(outlet), smaller.name)
        if key not in self._more_losses:
            cables = [step.arrival.cable for step in outlet.chain if step.arrival.cable is not None]
            self._more_losses[key] = tuple(
                sum(more_loss_db(cable, smaller, reading.freq_hz) for cable in cables) for reading in outlet.readings
            )
        return self._more_losses[key]

    @cached_property
    def _more_losses(self) -> dict[tuple[int, str], tuple[float, ...]]:
        return {}

    def is_computed(self, cable: str, assumed: frozenset[str] = frozenset()) -> bool:
        """Whether the levels at all outlets behind a cable are known.

        ``assumed``: kinds of service whose level where they come in is taken for known: their loss is enough.
        """
        if assumed not in self._computed:
            self._computed[assumed] = computed_cables(
                (node.service.kind in assumed, self.losses(tag, "down"), self.outlets(tag))
                for tag, node in self.network.services.items()
            )
        return self._computed[assumed].get(cable, False)

    @cached_property
    def _computed(self) -> dict[frozenset[str], dict[str, bool]]:
        return {}

    @cached_property
    def _outlets(self) -> dict[tuple[str, Direction, Grid], dict[str, Outlet]]:
        return {}


__all__ = [
    "ROOM_C",
    "USUAL_LEVEL",
    "Analysis",
    "Joint",
    "LossRange",
    "Losses",
    "Outlet",
    "Reading",
    "Ripple",
    "Step",
    "band_edges_hz",
    "joint",
    "line_loss_db",
    "ripple",
]
