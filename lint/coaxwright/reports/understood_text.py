"""What was understood of a design, as text for its author, section by section."""

from __future__ import annotations

from coaxwright.checks.phrasing import count, listed
from coaxwright.reports.excerpt import columns, shown
from coaxwright.reports.understood_page import WIDEST_LABEL, Page
from coaxwright.reports.understood_parts import BondStep, ReadPlace, Understood
from coaxwright.reports.understood_way import Ways, whose

_NO_BUILDING = "in the open"
_NO_NAME = "indoors, of no building that the design names"
_MOST = 1_000
"""Lists for an author's eyes are not cut."""


def render(read: Understood, width: int = 100) -> str:
    """Everything that was understood, within ``width`` columns."""
    return _Text(read, width).text()


class _Text:
    def __init__(self, read: Understood, width: int) -> None:
        self.read = read
        self.page = Page(width)
        self.ways = Ways(read, self.page)

    def text(self) -> str:
        self.head()
        self.buildings()
        self.places()
        self.services()
        self.ways.unreached()
        self.free_ports()
        self.entries()
        self.bonding()
        self.taken()
        self.unconnected()
        self.page.gap()
        self.page.paragraph("Nothing is judged here; 'coaxwright review' judges.")
        return self.page.text()

    def head(self) -> None:
        read = self.read
        self.page.paragraph(read.title, hang=2)
        parts = [
            read.file,
            f"job {read.job}" if read.job else "",
            f"sheet {read.sheet}" if read.sheet else "",
            f"revision {read.revision}" if read.revision else "",
            f"stage {read.stage}",
            f"to be judged by {listed(read.rulesets)}",
        ]
        self.page.paragraph(", ".join(part for part in parts if part), hang=2)
        counts = [
            count(len(read.buildings), "building"),
            count(len(read.places), "place"),
            count(len(read.services), "service"),
            count(len(read.devices), "device"),
            count(len(read.cables), "cable"),
            count(len(read.bonding), "bonding item"),
        ]
        number = len(read.unconnected)
        rest = f"{count(number, 'thing')} could not be connected: see the end" if number else "all of it is connected"
        self.page.paragraph(f"Understood: {listed(counts)}; {rest}.", hang=2)

    def buildings(self) -> None:
        self.page.heading("Buildings")
        rows = []
        for building in self.read.buildings:
            parts = [
                building.occupancy or "occupancy not stated",
                f"cables come in at {listed(building.entries)}" if building.entries else "no entry named",
                "has a lightning protection system" if building.lightning_system else "",
            ]
            rows.append((building.tag, "; ".join(part for part in parts if part)))
        self.page.table(rows)
        if not rows:
            self.page.paragraph("none named: everything indoors is taken to be one building", 2)

    def places(self) -> None:
        if not self.read.places:
            return
        self.page.heading("Places")
        groups: dict[str, list[ReadPlace]] = {}
        for place in self.read.places:
            groups.setdefault(place.building or (_NO_NAME if place.indoors else _NO_BUILDING), []).append(place)
        widths = [columns(shown(place.tag)) for place in self.read.places]
        hang = max((width for width in widths if width <= WIDEST_LABEL), default=0) + 2
        for name in sorted(groups, key=lambda name: (name in (_NO_BUILDING, _NO_NAME), name)):
            self.page.paragraph(name, 2, hang=2)
            for place in groups[name]:
                self.page.paragraph(_place(place), 4, place.tag, hang)

    def services(self) -> None:
        if self.read.services:
            self.page.heading("Services, in the direction of the signal")
        for service in self.read.services:
            self.page.gap()
            self.ways.service(service)

    def free_ports(self) -> None:
        self.page.heading("Free ports")
        waiting: dict[str, list[str]] = {}
        for cable in self.read.cables:
            for end in (cable.near, cable.far):
                if end.device and not end.port and cable.state != "abandoned":
                    waiting.setdefault(end.device, []).append(cable.tag)
        rows = []
        for device in self.read.devices:
            if device.free_ports and device.state != "abandoned":
                rest = waiting.get(device.tag, [])
                without = f"; {listed(rest)} {'has' if len(rest) == 1 else 'have'} none yet" if rest else ""
                rows.append((device.tag, f"{listed(device.free_ports, most=_MOST)} ({device.what}){without}"))
        self.page.table(rows)
        if not rows:
            self.page.paragraph("none", 2)

    def entries(self) -> None:
        self.page.heading("Where coax comes into buildings")
        for entry in self.read.entries:
            building = entry.building or "a building without a name"
            if entry.outside and entry.inside:
                where = f"{entry.outside} to {entry.inside}"
            else:
                where = f"at {entry.inside or entry.outside}, the way in is not drawn"
            self.page.paragraph(f"{entry.cable} comes into {building}: {where}, {entry.line}", 2, hang=2)
            if entry.protector:
                text = self.ways.device(entry.protector)
            else:
                text = f"not known: {entry.unknown}" if entry.unknown else "none found"
            self.page.paragraph(text, 4, "protector", 11)
        if not self.read.entries:
            self.page.paragraph("nowhere", 2)

    def bonding(self) -> None:
        self.page.heading("Bonding, from each protector and mast to an electrode")
        for bond in self.read.bonds:
            self.page.paragraph(
                f"{bond.thing} ({', '.join(part for part in (bond.what, bond.place) if part)})", 2, hang=2
            )
            if bond.nowhere:
                self.page.paragraph(f"no way to an electrode: {bond.nowhere}", 4, hang=2)
                continue
            self.bond_steps(bond.steps, f"{bond.electrode} ({bond.electrode_what})")
            if len(bond.steps) > 1:
                whole = bond.length.text or f"not known: {bond.length.unknown}"
                self.page.paragraph(f"in all {whole}", 4, hang=2)
            if bond.onwards:
                self.page.paragraph(f"and from {bond.electrode} on to the building's electrode system", 4, hang=2)
                self.bond_steps(bond.onwards, bond.onwards[-1].to)
        if not self.read.bonds:
            self.page.paragraph("nothing that has to be bonded", 2)
        self.other_bonding()

    def other_bonding(self) -> None:
        """What conductors are brought to, and the conductors that no protector or mast is bonded over."""
        onwards = {step.conductor for bond in self.read.bonds for step in bond.onwards}
        for item in self.read.bonding:
            remarks = [*whose(item.state, item.owner)]
            if item.kind != "bonding conductor":
                joined = "the electrodes of the electrical service" if item.electrode == "service" else item.electrode
                parts = [f"joined to {joined}"] if joined else []
                name = f"{item.tag} ({f'{item.kind}, {item.place}' if item.place else item.kind})"
                self.page.paragraph(", ".join((name, *parts, *remarks)), 2, hang=2)
            elif not item.bonds and item.tag not in onwards:
                text = ", ".join((f"{item.tag} from {item.from_} to {item.to}", item.size, *remarks))
                self.page.paragraph(f"{text}: no protector or mast is bonded over it", 2, hang=2)

    def bond_steps(self, steps: tuple[BondStep, ...], last: str) -> None:
        for number, step in enumerate(steps, 1):
            to = last if number == len(steps) else step.to
            parts = (step.size, step.length or "length not stated")
            self.page.paragraph(f"{', '.join(part for part in parts if part)}, to {to}", 4, step.conductor, 8)

    def taken(self) -> None:
        self.page.heading("Taken by default")
        for one in self.read.taken:
            self.page.paragraph(f"{one.what}: {one.value}", 2, hang=2)
            self.page.paragraph(f"for {listed(one.of, most=_MOST)}", 4, hang=2)
        if not self.read.taken:
            self.page.paragraph("nothing", 2)

    def unconnected(self) -> None:
        self.page.heading("Could not be connected")
        for one in self.read.unconnected:
            self.page.paragraph(str(one.where), 2, hang=2)
            self.page.paragraph(one.text, 4, hang=2)
        if not self.read.unconnected:
            self.page.paragraph("nothing", 2)


def _place(place: ReadPlace) -> str:
    parts = [
        f"{place.exposure}{' by default' if place.exposure_by_default else ''}",
        place.temperature,
        f"of {place.building} by default, as {place.building_because}" if place.building_because else "",
    ]
    return ", ".join(part for part in parts if part)
