"""Devices and cables of a network as scattering matrices, with their usual figures.

Data sheets give no phases and the catalogue no return losses, so every device is taken for matched at its own
impedance unless a return loss was measured there; what the network does beyond that is bounded by the ripple of the
joints, not by this.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf, sqrt

from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.losses import device_figures, line_figures
from coaxwright.catalogue import Port, UnknownWords
from coaxwright.network import CableLink, DeviceNode, Unknown
from coaxwright.physics.dividers import divider
from coaxwright.physics.geometry import velocity_m_per_s
from coaxwright.physics.matrices import Matrix
from coaxwright.physics.scatterers import line, renormalized
from coaxwright.physics.scattering import REFERENCE_OHM

_LEAST_LOSS_DB = 1e-4
"""Of a cable: with no loss at all an open stub would resonate without end."""


class NotSolved(Exception):
    """A network has a part whose waves cannot be followed; ``why`` says which and why, or what is missing."""

    def __init__(self, why: Unknown) -> None:
        super().__init__(why)
        self.why = why


def cable_matrices(link: CableLink, freqs_hz: Sequence[float]) -> list[Matrix]:
    """A cable at 20 °C or the temperatures of its places, by its usual loss. Raises NotSolved where a figure lacks."""
    if isinstance(link.type, UnknownWords):
        raise NotSolved(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
    if isinstance(link.length, Unknown):
        raise NotSolved(link.length)
    losses_db: list[float] = []
    for freq_hz in freqs_hz:
        found = line_figures(link, freq_hz)
        if isinstance(found, Unknown):
            raise NotSolved(found)
        losses_db.append(max(found.nominal, _LEAST_LOSS_DB))
    made = link.type.cable_class
    delay_s = link.length.length_m / velocity_m_per_s(made.velocity_factor)
    return line(freqs_hz, losses_db, delay_s, made.impedance_ohm)


def device_matrices(node: DeviceNode, freqs_hz: Sequence[float]) -> list[Matrix]:
    """A device of several ports, in the order of its ports, at the reference impedance.

    Raises NotSolved for a device that the catalogue does not have, or that has several inputs and several outputs.
    """
    hub = _hub(node)
    if hub is None:
        raise NotSolved(Unknown("several inputs and outputs", node.path, {"device": node.tag}))
    others = [port for port in node.ports if port is not hub]
    made = [_at(node, hub, others, freq_hz) for freq_hz in freqs_hz]
    order = [hub, *others]
    place = [order.index(port) for port in node.ports]
    impedances = [port.impedance_ohm for port in node.ports]
    turned = [tuple(tuple(matrix[one][other] for other in place) for one in place) for matrix in made]
    if all(ohm == REFERENCE_OHM for ohm in impedances):
        return turned
    return [renormalized(matrix, impedances) for matrix in turned]


def end_matrices(freqs_hz: Sequence[float], impedance_ohm: float, reflection: float = 0.0) -> list[Matrix]:
    """Between the network, at port 0, and a source or load: power available from it and taken by it at port 1.

    impedance_ohm: of the source or load; reflection [-]: what it sends back besides. Lossless, so nothing is lost in it
    but what goes back: S11 = r, S21 = sqrt(1 - r²), S22 = -r. Source: textbook, junction of two lines.
    """
    joint = (impedance_ohm - REFERENCE_OHM) / (impedance_ohm + REFERENCE_OHM)
    size = (joint + reflection) / (1 + joint * reflection)
    across = complex(sqrt(1 - size**2))
    return [((complex(size), across), (across, complex(-size)))] * len(freqs_hz)


def _hub(node: DeviceNode) -> Port | None:
    """The port that every way through a device begins or ends at: the input of a splitter, the output of a combiner."""
    entry = node.entry
    if entry is None:
        raise NotSolved(Unknown("not in the catalogue", node.path, {"device": node.tag}))
    if len(node.ports) == 2:
        return node.ports[0]
    for port in node.ports:
        apart = [one for one in node.ports if one is not port]
        joined = any(
            path.ends.join(one, other) for path in entry.paths for one in apart for other in apart if one is not other
        )
        if not joined:
            return port
    return None


def _at(node: DeviceNode, hub: Port, others: Sequence[Port], freq_hz: float) -> Matrix:
    forward = [_loss_db(node, hub, port, freq_hz) for port in others]
    backward = [_loss_db(node, port, hub, freq_hz) for port in others]
    apart_db = min(
        (_isolation_db(node, one, other, freq_hz) for one in others for other in others if one is not other),
        default=inf,
    )
    if forward == backward and min(forward) >= 0:
        try:
            return divider([freq_hz], forward, isolation_db=apart_db, within_loss=True)[0]
        except ValueError as impossible:
            raise NotSolved(Unknown("more than comes in", node.path, {"device": node.tag})) from impossible
    try:
        back, ahead, across = ([_share(loss_db) for loss_db in some] for some in (backward, forward, [apart_db]))
    except OverflowError as endless:
        raise NotSolved(Unknown("more than can be computed", node.path, {"device": node.tag})) from endless
    rows = [[0j, *(-1j * share for share in back)]]
    for number, share in enumerate(ahead):
        rows.append([-1j * share, *(complex(across[0]) if other != number else 0j for other in range(len(others)))])
    return tuple(tuple(row) for row in rows)


def _loss_db(node: DeviceNode, one: Port, other: Port, freq_hz: float) -> float:
    """The usual loss [dB] one way, that by which the ports are kept apart where no signal passes, or all of it."""
    found = device_figures(node, one, other, freq_hz)
    if isinstance(found, LossRange):
        return found.nominal
    return _isolation_db(node, one, other, freq_hz)


def _isolation_db(node: DeviceNode, one: Port, other: Port, freq_hz: float) -> float:
    found = node.entry.isolation(one.name, other.name, freq_hz) if node.entry is not None else None
    return found.nominal_db if found is not None else inf


def _share(loss_db: float) -> float:
    """Ratio of voltages; a gain is a negative loss."""
    return float(10 ** (-loss_db / 20))
