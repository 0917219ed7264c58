"""What was understood of a service: the cables and devices on the way of its signal, in its direction."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.design.quantities.telling import frequency
from coaxwright.network import CableLink, Network, ServiceNode, tag_order
from coaxwright.network.service_overlap import IN_HOME, in_home_band
from coaxwright.reports.network_report.network import ReadService, Step


def service(node: ServiceNode, network: Network) -> ReadService:
    """A service with the way of its signal."""
    service = node.service
    bands = [f"{name} {stream.band.text}" for name, stream in (("down", service.down), ("up", service.up)) if stream]
    if service.channels:
        bands.append(
            f"channels {', '.join(f'{channel.name} ({channel.frequency.text})' for channel in service.channels)}"
        )
    start = service.from_ if service.from_ in network.devices else ""
    if service.kind == IN_HOME:
        if not bands:
            made = in_home_band(network, node)
            bands.append(f"{frequency(made.low_hz)} to {frequency(made.high_hz)}, the band of its adapters")
        stations = tuple(station.tag for station in network.traffic.stations(node.tag))
        over = network.traffic.in_home_coax(node.tag).cables
        return ReadService(node.tag, service.kind, service.from_, start, tuple(bands), (), stations, over)
    return ReadService(
        node.tag, service.kind, service.from_, start, tuple(bands), tuple(_steps(start, network)) if start else ()
    )


def _steps(start: str, network: Network) -> Iterator[Step]:
    """The cables that a signal takes from a device on, each way followed to its end before the next one is."""
    reached = {start}
    waiting = _leaving(start, 0, network)
    while waiting:
        link, depth, divides = waiting.pop()
        far = link.far.device.tag if link.far.device is not None else ""
        again = far in reached
        yield Step(link.tag, far, depth, divides, again)
        if far and not again:
            reached.add(far)
            waiting += _leaving(far, depth, network)


def _leaving(device: str, depth: int, network: Network) -> list[tuple[CableLink, int, bool]]:
    """The cables that lead on from a device, last port first, so that the first is taken next from the list's end."""
    order = {port.name: index for index, port in enumerate(network.devices[device].ports)}
    links = [
        link
        for link in network.cables_at(device)
        if link.in_use and link.near.device is not None and link.near.device.tag == device
    ]
    links.sort(
        key=lambda link: (order.get(link.near.port.name if link.near.port else "", len(order)), tag_order(link.tag))
    )
    divides = len(links) > 1
    return [(link, depth + divides, divides) for link in reversed(links)]
