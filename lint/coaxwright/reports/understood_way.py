"""A service told in the direction of its signal: a device, the cable out of it, the device at its end, and so on.

The text moves to the right where a signal is divided, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.phrasing import decibels, listed, megahertz
from coaxwright.reports.understood_network import ReadCable, ReadLoss, ReadService, ReadType
from coaxwright.reports.understood_page import Page
from coaxwright.reports.understood_parts import Understood

_LABEL = 8


class Ways:
    """Tells devices, cables and ways on a page; a cable is told in full once."""

    def __init__(self, read: Understood, page: Page) -> None:
        self.read = read
        self.page = page
        self.devices = {device.tag: device for device in read.devices}
        self.cables = {cable.tag: cable for cable in read.cables}
        self.told: set[str] = set()
        self.fitted: dict[str, list[str]] = {}
        for device in read.devices:
            for port in device.ports:
                if port.tenant in self.devices and not device.on:
                    part = f"{port.tenant} ({self.devices[port.tenant].what}) on {port.name}"
                    self.fitted.setdefault(device.tag, []).append(part)

    def service(self, service: ReadService) -> None:
        """The whole way of a service."""
        page = self.page
        page.paragraph(f"{service.tag}: {service.kind}, {'; '.join(service.bands) or 'no band stated'}", 2, hang=2)
        if not service.start:
            page.paragraph(f"comes from '{service.from_}', which names no device", 4, hang=2)
            return
        page.gap()
        page.paragraph(self.device(service.start), 4, hang=2)
        if not service.steps:
            page.paragraph("no cable leads on from it", 4, hang=2)
        for step in service.steps:
            indent = 4 + 3 * step.depth
            if step.divides:
                page.gap()
            self.cable(self.cables[step.cable], indent)
            if step.again:
                page.paragraph(f"{step.device}, which the signal reached before", indent, hang=2)
            elif step.device:
                page.paragraph(self.device(step.device), indent, hang=2)

    def cable(self, cable: ReadCable, indent: int) -> None:
        """A cable with its type, route and loss; by name only where it was told before."""
        page = self.page
        if cable.tag in self.told:
            page.paragraph(f"{cable.tag} from {cable.near} to {cable.far}, told above", indent, hang=2)
            return
        self.told.add(cable.tag)
        remarks = whose(cable.state, cable.owner)
        page.paragraph(f"{', '.join((f'{cable.tag} from {cable.near} to {cable.far}', *remarks))}", indent, hang=2)
        inner = indent + 2
        if cable.turned:
            written = f"from {cable.far.written} to {cable.near.written}"
            page.paragraph(f"written {written}; the signal runs the other way", inner, "turned", _LABEL)
        for unknown in dict.fromkeys(end.unknown for end in (cable.near, cable.far) if end.unknown):
            page.paragraph(unknown, inner, "port", _LABEL)
        page.paragraph(_type(cable.type), inner, "type", _LABEL)
        page.paragraph(_route(cable), inner, "route", _LABEL)
        page.paragraph(_losses(cable), inner, "loss", _LABEL)

    def device(self, tag: str) -> str:
        """A device in one line."""
        device = self.devices[tag]
        inner = ", ".join(part for part in (device.what, device.place or "place not stated", device.mast) if part)
        wants = listed([one.service for one in device.wants])
        missing = [one.service for one in device.wants if not one.arrives]
        if missing:
            wants += f", of which {listed(missing)} {'does' if len(missing) == 1 else 'do'} not come here"
            if len(missing) == len(device.wants):
                wants = f"{listed(missing)}, which {'does' if len(missing) == 1 else 'do'} not come here"
        parts = [
            f"{tag} ({inner})",
            *whose(device.state, device.owner),
            f"wants {wants}" if wants else "",
            *(f"with {part}" for part in self.fitted.get(tag, ())),
        ]
        return ", ".join(part for part in parts if part)

    def unreached(self) -> None:
        """What no service reaches."""
        on_a_port = {port.tenant for device in self.read.devices for port in device.ports}
        devices = [one for one in self.read.devices if not one.carries and one.tag not in on_a_port]
        cables = [one for one in self.read.cables if not one.carries]
        if not devices and not cables:
            return
        self.page.heading("Reached by no service")
        for device in devices:
            self.page.paragraph(self.device(device.tag), 4, hang=2)
        for cable in cables:
            self.page.gap()
            self.cable(cable, 4)


def _type(read: ReadType) -> str:
    if read.unknown:
        return f"'{read.written}' is not understood: {read.unknown}"
    parts = [read.cable_class]
    for option, value in (("shield", read.shield), ("centre", read.centre), ("jacket", read.jacket)):
        parts.append(f"{value} {option}{' by default' if option in read.by_default else ''}")
    return ", ".join(parts)


def _route(cable: ReadCable) -> str:
    if cable.length.unknown:
        return f"not known: {cable.length.unknown}"
    if not cable.route:
        return f"{cable.length.text}, no route written"
    legs = [f"{leg.place} {leg.length}" if leg.known else f"'{leg.place}' {leg.length}" for leg in cable.route]
    return ", ".join(legs) + (f"; in all {cable.length.text}" if len(legs) > 1 else "")


def _losses(cable: ReadCable) -> str:
    if cable.loss_unknown:
        return f"not known: {cable.loss_unknown}"
    unknown = list(dict.fromkeys(loss.unknown for loss in cable.losses if loss.unknown))
    known = [_loss(loss) for loss in cable.losses if not loss.unknown]
    return "; ".join([*known, *(f"not known: {cause}" for cause in unknown)])


def _loss(loss: ReadLoss) -> str:
    assert loss.low_db is not None
    assert loss.nominal_db is not None
    assert loss.high_db is not None
    figures_db = (loss.low_db, loss.nominal_db, loss.high_db)
    low, nominal, high = (decibels(figure_db).removesuffix(" dB") for figure_db in figures_db)
    band = "" if low == high else f" ({low} to {high})"
    return f"{nominal} dB{band} at {megahertz(loss.frequency_hz)}"


def whose(state: str, owner: str) -> Iterator[str]:
    """Words for what is not new, or not the owner's."""
    if state != "new":
        yield state if state != "reserve" else "kept in reserve"
    if owner != "owner":
        yield f"the {owner}'s"
