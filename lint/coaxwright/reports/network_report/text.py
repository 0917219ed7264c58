"""What was understood of a design, as text for its author, section by section."""

from __future__ import annotations

from coaxwright.design.sentences import count, listed
from coaxwright.reports.excerpt import columns, shown
from coaxwright.reports.network_report.page import WIDEST_LABEL, Page
from coaxwright.reports.network_report.parts import BondStep, NetworkReport, ReadPlace, Taken
from coaxwright.reports.network_report.path import Ways, whose
from coaxwright.reports.network_report.units import Units, listed_units

_NO_BUILDING = "outdoors"
_NO_NAME = "indoors, of no building that the design names"
_FEW = 3
"""So many things are told by name rather than as the others of their kind."""
_UNUSED = {
    "typical unit": "which no unit is like",
    "unit": "which no cable joins to the rest of the network",
    "place": "where nothing stands and nothing runs through",
    "raceway": "in which nothing runs",
}
"""What is not used, and why it seems so."""


def render(read: NetworkReport, width: int = 100) -> str:
    """Everything that was understood, within ``width`` columns."""
    return _Text(read, width).text()


class _Text:
    def __init__(self, read: NetworkReport, width: int) -> None:
        self.read = read
        self.page = Page(width)
        self.units = Units(read.units)
        self.ways = Ways(read, self.page, self.units)

    def text(self) -> str:
        self.head()
        self.buildings()
        self.places()
        self.repeated()
        self.services()
        self.ways.unreached()
        self.free_ports()
        self.entries()
        self.bonding()
        self.taken()
        self.author_values()
        self.unused()
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
            for told in self.units.once((place.tag, place) for place in groups[name]):
                self.page.paragraph(f"{_place(told.first)}{told.also}", 4, told.first.tag, hang)

    def repeated(self) -> None:
        if not self.read.units:
            return
        self.page.heading("Repeated units")
        likes: dict[str, list[str]] = {}
        for unit in self.read.units:
            likes.setdefault(unit.like, []).append(unit.tag)
        self.page.table([(like, listed_units(tags)) for like, tags in likes.items()])

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
                rows.append((device.tag, f"{listed_units(device.free_ports)} ({device.what}){without}"))
        once = self.units.once((tag, (tag, text)) for tag, text in rows)
        self.page.table([(told.first[0], f"{told.first[1]}{told.also}") for told in once])
        if not rows:
            self.page.paragraph("none", 2)

    def entries(self) -> None:
        self.page.heading("Points of entrance")
        for told in self.units.once((entry.cable, entry) for entry in self.read.entries):
            entry = told.first
            building = entry.building or "a building without a name"
            if entry.outside and entry.inside:
                where = f"{entry.outside} to {entry.inside}"
            else:
                where = f"at {entry.inside or entry.outside}, the way in is not drawn"
            self.page.paragraph(f"{entry.cable} comes into {building}: {where}, {entry.line}{told.also}", 2, hang=2)
            if entry.protector:
                text = self.ways.device(entry.protector)
            else:
                text = f"not known: {entry.unknown}" if entry.unknown else "none found"
            self.page.paragraph(text, 4, "protector", 11)
        if not self.read.entries:
            self.page.paragraph("nowhere", 2)

    def bonding(self) -> None:
        self.page.heading("Bonding, from each protector and mast to an electrode")
        for told in self.units.once((bond.thing, bond) for bond in self.read.bonds):
            bond = told.first
            inner = ", ".join(part for part in (bond.what, bond.place) if part)
            self.page.paragraph(f"{bond.thing} ({inner}){told.also}", 2, hang=2)
            if bond.nowhere:
                self.page.paragraph(f"no way to an electrode: {bond.nowhere}", 4, hang=2)
                continue
            self.bond_steps(bond.steps, f"{bond.electrode} ({bond.electrode_what})")
            if len(bond.steps) > 1:
                whole = bond.length.text or f"not known: {bond.length.unknown}"
                self.page.paragraph(f"total {whole}", 4, hang=2)
            if bond.onwards:
                self.page.paragraph(f"and from {bond.electrode} on to the building's electrode system", 4, hang=2)
                self.bond_steps(bond.onwards, bond.onwards[-1].to)
        if not self.read.bonds:
            self.page.paragraph("nothing that has to be bonded", 2)
        self.other_bonding()

    def other_bonding(self) -> None:
        """What conductors are brought to, and the conductors that no protector or mast is bonded over."""
        onwards = {step.conductor for bond in self.read.bonds for step in bond.onwards}
        for told in self.units.once((item.tag, item) for item in self.read.bonding):
            item = told.first
            remarks = [*whose(item.state, item.owner)]
            if item.kind != "bonding conductor":
                joined = "the electrodes of the electrical service" if item.electrode == "service" else item.electrode
                parts = [f"joined to {joined}"] if joined else []
                name = f"{item.tag} ({f'{item.kind}, {item.place}' if item.place else item.kind})"
                self.page.paragraph(f"{', '.join((name, *parts, *remarks))}{told.also}", 2, hang=2)
            elif not item.bonds and item.tag not in onwards:
                text = ", ".join((f"{item.tag} from {item.from_} to {item.to}", item.size, *remarks))
                self.page.paragraph(f"{text}: no protector or mast is bonded over it{told.also}", 2, hang=2)

    def bond_steps(self, steps: tuple[BondStep, ...], last: str) -> None:
        for number, step in enumerate(steps, 1):
            to = last if number == len(steps) else step.to
            parts = (step.size, step.length or "length not stated")
            self.page.paragraph(f"{', '.join(part for part in parts if part)}, to {to}", 4, step.conductor, 8)

    def taken(self) -> None:
        self.page.heading("Assumed")
        for assumed in self.read.taken:
            self.page.paragraph(f"{assumed.what}: {assumed.value}, for {self.holders(assumed)}", 2, hang=2)
        if not self.read.taken:
            self.page.paragraph("nothing", 2)

    def holders(self, taken: Taken) -> str:
        """The things that a default holds for: by name, or as all of their kind, with those for which it does not."""
        noun, every = self.kind(taken)
        if len(taken.of) >= _FEW and set(taken.of) <= set(every):
            others = [tag for tag in every if tag not in taken.of]
            if not others:
                return f"every {noun}"
            if len(others) <= _FEW < len(taken.of):
                return f"every {noun} but {self.units.listed(others)}"
        return self.units.listed(taken.of)

    def kind(self, taken: Taken) -> tuple[str, list[str]]:
        """What a default is one of, and all things of that kind."""
        read = self.read
        if taken.what.startswith("temperature"):
            passed = {leg.place for cable in read.cables for leg in cable.route}
            return "place that a cable runs through", [place.tag for place in read.places if place.tag in passed]
        if taken.what in ("exposure", "building"):
            return "place", [place.tag for place in read.places]
        if taken.what in ("shield", "center", "jacket"):
            return "cable", [cable.tag for cable in read.cables]
        return "building", [building.tag for building in read.buildings]

    def author_values(self) -> None:
        """What is taken on the author's word; no section where the catalogue's figures are all there is."""
        if not self.read.own_figures:
            return
        self.page.heading("Author-supplied values")
        for own_figure in self.read.own_figures:
            users = self.units.listed(own_figure.used_by) if own_figure.used_by else "nothing yet"
            text = (
                f"{own_figure.name} ({own_figure.kind}): {own_figure.document}; in {own_figure.file}; used by {users}"
            )
            self.page.paragraph(text, 2, hang=2)

    def unused(self) -> None:
        self.page.heading("Defined but not used")
        for kind, words in _UNUSED.items():
            tags = [thing.tag for thing in self.read.unused if thing.kind == kind]
            if tags:
                noun = kind if len(tags) == 1 else f"{kind}s"
                self.page.paragraph(f"{noun} {self.units.listed(tags)}, {words}", 2, hang=2)
        if not self.read.unused:
            self.page.paragraph("nothing", 2)

    def unconnected(self) -> None:
        self.page.heading("Unresolved connections")
        for told in self.units.once((connection.item, connection) for connection in self.read.unconnected):
            self.page.paragraph(str(told.first.where), 2, hang=2)
            others = f" (also in {listed_units(told.others)})" if told.others else ""
            self.page.paragraph(f"{told.first.text}{others}", 4, hang=2)
        if not self.read.unconnected:
            self.page.paragraph("nothing", 2)


def _place(place: ReadPlace) -> str:
    parts = [
        place.exposure,
        place.temperature,
        f"of {place.building} as {place.building_because}" if place.building_because else "",
    ]
    return ", ".join(part for part in parts if part)
