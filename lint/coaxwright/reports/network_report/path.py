"""A service told in the direction of its signal: a device, the cable out of it, the device at its end, and so on.

The text moves to the right where a signal is divided, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.design.sentences import decibels, frequency, listed
from coaxwright.network.service_overlap import IN_HOME
from coaxwright.reports.network_report.branches import Branches, LeftOut
from coaxwright.reports.network_report.network import ReadCable, ReadLoss, ReadService, ReadType, Step
from coaxwright.reports.network_report.page import Page
from coaxwright.reports.network_report.parts import NetworkReport
from coaxwright.reports.network_report.units import Units, listed_units

_LABEL = 8


class Ways:
    """Tells devices, cables and ways on a page; a cable is told in full once."""

    def __init__(self, read: NetworkReport, page: Page, units: Units) -> None:
        self.read = read
        self.page = page
        self.units = units
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
        if service.kind == IN_HOME:
            self.stations(service)
            return
        page.paragraph(self.device(service.start), 4, hang=2)
        if not service.steps:
            page.paragraph("no cable leads on from it", 4, hang=2)
        self.steps(service.steps)

    def stations(self, service: ReadService) -> None:
        """In-home data goes both ways between any two of its stations, over whatever coax joins them."""
        self.page.paragraph("both ways between its stations:", 4, hang=2)
        for station in service.stations:
            self.page.paragraph(self.device(station), 6, hang=2)
        if not service.over:
            self.page.paragraph("no coax joins two of them", 4, hang=2)
            return
        self.page.paragraph(f"over {listed_units(service.over)}", 4, hang=2)
        for tag in service.over:
            if not [carry for carry in self.cables[tag].carries if carry != service.tag]:
                self.page.gap()
                self.cable(self.cables[tag], 4)

    def steps(self, steps: Sequence[Step]) -> None:
        """Step by step; branches into several like units are told of the first, with where the others begin."""
        branches = Branches(steps, self.cables, self.units, self.words)
        seen: dict[tuple[str, ...], str] = {}
        left_out: list[tuple[int, LeftOut]] = []
        at = 0
        while True:
            while left_out and left_out[-1][1].start == at:
                indent, out = left_out.pop()
                self.page.gap()
                self.page.paragraph(out.text, indent, hang=2)
                at = self.passed(steps, at, out.end)
            if at >= len(steps):
                return
            step, indent = steps[at], 4 + 3 * steps[at].depth
            if step.divides:
                self.page.gap()
                alike = branches.alike(at)
                if alike is not None:
                    left_out.append((indent, alike))
            inside = branches.inside(at)
            self.cable(self.cables[step.cable], indent)
            if inside and inside in seen:
                self.page.paragraph(f"{step.device} and on from there: as in {seen[inside]}", indent, hang=2)
                at = self.passed(steps, at + 1, branches.end(at))
                continue
            if inside:
                seen[inside] = self.units.of(step.device)
            if step.device:
                self.page.paragraph(self.words(step)[-1], indent, hang=2)
            at += 1

    def passed(self, steps: Sequence[Step], start: int, end: int) -> int:
        """Steps that are told by telling others like them."""
        self.told.update(step.cable for step in steps[start:end])
        return end

    def words(self, step: Step) -> tuple[str, ...]:
        """All that is told of a step; last, the device at its far end."""
        head, rows = self.cable_words(self.cables[step.cable])
        if step.again:
            device = f"{step.device}, which the signal reached before"
        else:
            device = self.device(step.device) if step.device else ""
        return (head, *(text for row in rows for text in row), device)

    def cable(self, cable: ReadCable, indent: int) -> None:
        """A cable with its type, route and loss; by name only where it was told before."""
        head, rows = self.cable_words(cable)
        self.page.paragraph(head, indent, hang=2)
        for label, text in rows:
            self.page.paragraph(text, indent + 2, label, _LABEL)
        self.told.add(cable.tag)

    def cable_words(self, cable: ReadCable) -> tuple[str, list[tuple[str, str]]]:
        """What is told of a cable: its head line, and the lines below it with their labels."""
        if cable.tag in self.told:
            return f"{cable.tag} from {cable.near} to {cable.far}, told above", []
        rows: list[tuple[str, str]] = []
        if cable.turned:
            written = f"from {cable.far.written} to {cable.near.written}"
            rows.append(("turned", f"written {written}; the signal runs the other way"))
        rows += [("port", end) for end in dict.fromkeys((cable.near.unknown, cable.far.unknown)) if end]
        rows += [("type", _type(cable.type)), ("route", _route(cable)), ("loss", _losses(cable))]
        head = ", ".join((f"{cable.tag} from {cable.near} to {cable.far}", *whose(cable.state, cable.owner)))
        return head, rows

    def device(self, tag: str) -> str:
        """A device in one line."""
        device = self.devices[tag]
        inner = ", ".join(part for part in (device.what, device.place or "place not stated", device.mast) if part)
        wants = listed([want.service for want in device.wants])
        missing = [want.service for want in device.wants if not want.arrives]
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
        devices = [device for device in self.read.devices if not device.carries and device.tag not in on_a_port]
        cables = [cable for cable in self.read.cables if not cable.carries]
        if not devices and not cables:
            return
        self.page.heading("Reached by no service")
        for told in self.units.once((device.tag, self.device(device.tag)) for device in devices):
            self.page.paragraph(f"{told.first}{told.also}", 4, hang=2)
        for link in self.units.once((cable.tag, cable) for cable in cables):
            self.page.gap()
            self.cable(link.first, 4)
            if link.others:
                self.page.paragraph(f"alike in {listed_units(link.others)}", 6, hang=2)


def _type(read: ReadType) -> str:
    if read.unknown:
        return f"'{read.written}' is not understood: {read.unknown}"
    parts = [read.cable_class]
    for option, value in (("shield", read.shield), ("center", read.center), ("jacket", read.jacket)):
        parts.append(f"{value} {option}")
    return ", ".join(parts)


def _route(cable: ReadCable) -> str:
    if cable.length.unknown:
        return f"not known: {cable.length.unknown}"
    if not cable.route:
        return f"{cable.length.text}, no route written"
    legs = [f"{leg.place} {leg.length}" if leg.known else f"'{leg.place}' {leg.length}" for leg in cable.route]
    return ", ".join(legs) + (f"; total {cable.length.text}" if len(legs) > 1 else "")


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
    return f"{nominal} dB{band} at {frequency(loss.frequency_hz)}"


def whose(state: str, owner: str) -> Iterator[str]:
    """Words for what is not new, or not the owner's."""
    if state != "new":
        yield state if state != "reserve" else "kept in reserve"
    if owner != "owner":
        yield f"the {owner}'s"
