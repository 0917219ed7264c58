"""What several checks of the return path ask: the band, who answers in it, and what lets nothing of it through."""

from __future__ import annotations

from coaxwright.checks.contract import CheckContext
from coaxwright.design.quantities import Band
from coaxwright.network import DeviceNode, ServiceNode
from coaxwright.network.device_passages import PortPair


def return_band(service: ServiceNode) -> Band | None:
    """The return band of a two-way service."""
    up = service.service.up
    return up.band if up is not None and service.service.kind != "in-home data" else None


def shows_modem(service: ServiceNode, context: CheckContext) -> bool:
    """Whether the design shows what answers over a service."""
    return any(device.device.kind == "cable modem" for device in context.network.outlets_of(service.tag))


def answering(leg: PortPair, is_modem_shown: bool) -> list[DeviceNode]:
    """What has to answer behind a leg: modems; where the design shows none, whatever the service is wanted at."""
    return [device for device in leg.wanted if device.device.kind == "cable modem" or not is_modem_shown]


def is_shut(node: DeviceNode, leg: PortPair, band: Band) -> bool:
    """Whether nothing of a band passes back: every frequency is stopped, or the device passes one way only."""
    entry = node.entry
    if entry is None:
        return False
    if not any(path.ends.join(leg.other, leg.one) for path in entry.paths):
        return True
    return all(entry.passes(leg.other.name, leg.one.name, freq_hz) is False for freq_hz in (band.low_hz, band.high_hz))
