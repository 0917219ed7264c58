"""Is what has to be bonded bonded, by a conductor that is thick and short enough?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType
from coaxwright.checks.contract import CannotJudge, Check, DoesNotApply, Mend, NeedsPerson, NotMet, Site, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import in_system, length_text, listed
from coaxwright.checks.selectors import BONDABLE, BONDING_CONDUCTOR
from coaxwright.checks.wire_sizes import as_written, in_mm2, is_metric, writes_metric
from coaxwright.design.quantities import Conductor, LengthPair, WireSize, in_system_of
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.conductors import wire_resistance_ohm_per_m
from coaxwright.plant import BUILDING_LEVEL, Bondable, BondNode, BondPath, Plant, Unknown

DWELLINGS = ("one-family dwelling", "two-family dwelling")
_GAUGES = tuple(WireSize.parse(f"{gauge} AWG") for gauge in (17, 14, 12, 10, 8, 6))
"""Sizes of wire sold for bonding, thinnest first."""


def conductor_present(bondable: Bondable, site: Site, limits: Limits) -> Iterator[Verdict]:
    """A way leads from the thing over bonding conductors to an electrode or termination."""
    plant = site.plant
    path = plant.bond_paths[bondable.reference]
    if path is not None:
        end = path.electrode
        if plant.bonding.is_open(end):
            # A bar on a wall is no electrode: nobody has said what it is joined to.
            cause = f"{end.tag} states no electrode, and no conductor leads on from it"
            yield CannotJudge(Unknown(cause, (*end.path, "electrode")))
        return
    loose = plant.bonding.loose_end(bondable.reference)
    if loose is not None:
        at, written = plant.loose_reference(loose)
        yield CannotJudge(Unknown(f"{loose.tag} leads to {written!r}, which names nothing", at))
        return
    smallest = limits.conductor("size", _line(bondable), "copper")
    assert smallest is not None
    values = {
        "thing": bondable.reference,
        "kind": "mast" if bondable.is_mast else bondable.device.device.kind,
        "place": bondable.device.place.tag if bondable.device.place is not None else "a place not stated",
        "size": as_written(smallest, writes_metric(plant.design)).text,
        "termination": _nearest_bonding_point(bondable, plant),
    }
    joined = plant.bonding.conductors_at(bondable.reference)
    if joined:
        values["conductors"] = listed([node.tag for node in joined])
        yield NotMet("leads nowhere", joined[0].path, values, at_key=True)
    else:
        body = "lead-in" if bondable.line == "antenna" else "protector"
        yield NotMet("mast" if bondable.is_mast else body, bondable.path, values, at_key=True)


def conductor_size(node: BondNode, site: Site, limits: Limits) -> Iterator[Verdict]:
    """A bonding conductor is of a permitted metal and at least the size that the things bonded over it need."""
    served = site.plant.bonded_over(node.tag)
    beyond = site.plant.bonded_beyond(node.tag)
    conductor = node.item.conductor
    if not (served or beyond) or conductor is None:
        yield DoesNotApply("no protector or mast is bonded over it")
        return
    if beyond:
        yield from _of_termination(beyond[0], node, conductor, limits)
        return
    most: tuple[Bondable, Conductor, Conductor] | None = None  # who asks for most, the size needed, the least size
    for bondable in served:
        smallest = limits.conductor("smallest", _line(bondable), conductor.metal)
        if smallest is None:
            yield _metal(bondable, node, conductor, limits)
            return
        needed = _needed(bondable, smallest, site.plant, limits)
        if most is None or needed.size.area_mm2 > most[1].size.area_mm2:
            most = (bondable, needed, smallest)
    assert most is not None
    bondable, needed, smallest = most
    if at_least(conductor.size.area_mm2, needed.size.area_mm2):
        return
    at = (*node.path, "conductor")
    wanted = as_written(needed, is_metric(conductor))
    values = {
        **_bond_words(bondable, node, conductor),
        "smallest": wanted.text,
        "mm2": in_mm2(conductor),
        "needed_mm2": in_mm2(wanted),
    }
    case = "thin" if needed is smallest else "thinner than the shield"
    cites = (("smallest", _line(bondable), conductor.metal),)
    yield NotMet(case, at, values, mend=Mend(at, wanted.text), cites=cites)


def _of_termination(termination: BondNode, node: BondNode, conductor: Conductor, limits: Limits) -> Iterator[Verdict]:
    """The conductor from a termination on to the building's electrodes carries whatever is bonded to it."""
    smallest = limits.conductor("smallest", "termination", conductor.metal)
    copper = limits.conductor("smallest", "termination", "copper")
    if copper is None or (smallest is not None and at_least(conductor.size.area_mm2, smallest.size.area_mm2)):
        return
    at = (*node.path, "conductor")
    wanted = as_written(smallest or copper, is_metric(conductor))
    values = {
        "conductor": conductor.text,
        "thing": termination.tag,
        "use": "the termination of all that is bonded to it",
        "from": str(node.item.from_),
        "to": str(node.item.to),
        "smallest": wanted.text,
        "mm2": in_mm2(conductor),
        "needed_mm2": in_mm2(wanted),
    }
    cites = (("smallest", "termination", wanted.metal),)
    yield NotMet("thin", at, values, mend=Mend(at, wanted.text), cites=cites)


def _bond_words(bondable: Bondable, node: BondNode, conductor: Conductor) -> dict[str, str]:
    return {
        "conductor": conductor.text,
        "thing": bondable.reference,
        "use": _USES[_line(bondable)],
        "from": str(node.item.from_),
        "to": str(node.item.to),
    }


def _metal(bondable: Bondable, node: BondNode, conductor: Conductor, limits: Limits) -> NotMet | NeedsPerson:
    """No size is set for the metal: steel rusts and will not do; of others somebody has to say whether they do."""
    line = _line(bondable)
    metals = [limits.conductor("smallest", *keys) for keys in limits.keys("smallest") if keys[0] == line]
    listed_metals = [as_written(metal, is_metric(conductor)).text for metal in metals if metal is not None]
    values = {**_bond_words(bondable, node, conductor), "metals": listed(listed_metals, "or")}
    at = (*node.path, "conductor")
    if conductor.metal != "steel":
        return NeedsPerson("other metal", at, values)
    copper = limits.conductor("smallest", line, "copper")
    mend = Mend(at, as_written(copper, is_metric(conductor)).text) if copper is not None else None
    return NotMet("metal", at, values, mend=mend)


def conductor_length(bondable: Bondable, site: Site, limits: Limits) -> Iterator[Verdict]:
    """The shield bond of a dwelling is short, or goes to an electrode of its own that is joined to the building's."""
    if _line(bondable) == "antenna":
        yield DoesNotApply("masts and antenna lead-ins have no length limit")
        return
    path = site.plant.bond_paths[bondable.reference]
    if path is None:
        yield DoesNotApply("it is not bonded")
        return
    place = bondable.device.place
    occupancy = site.plant.occupancy(place.building if place is not None else None)
    pair, joining = limits.length("longest"), limits.conductor("joining", "copper")
    assert pair is not None
    assert joining is not None
    length = path.length
    if isinstance(length, Unknown):
        if occupancy in DWELLINGS or isinstance(occupancy, Unknown):
            yield CannotJudge(length)
        else:
            yield DoesNotApply(_DWELLINGS_ONLY)
        return
    longest = pair.for_author(length.is_metric)
    values = {
        "thing": bondable.reference,
        "conductors": listed([node.tag for node in path.conductors]),
        "electrode": path.electrode.tag,
        "length": length_text(length, longest),
        "longest": longest.text,
        "joining": as_written(joining, writes_metric(site.plant.design)).text,
    }
    at = (*path.conductors[0].path, "length")
    short = at_most(in_system(length, length.is_metric), in_system(longest, length.is_metric))
    joined = path.electrode.item.kind in BUILDING_LEVEL or _joined(path, joining, site.plant)
    if short and joined:
        if not isinstance(occupancy, Unknown) and occupancy not in DWELLINGS:
            yield DoesNotApply(_DWELLINGS_ONLY)
    elif isinstance(occupancy, Unknown):
        yield CannotJudge(occupancy)
    elif occupancy not in DWELLINGS:
        if short:
            yield DoesNotApply(_DWELLINGS_ONLY)
        else:
            yield NeedsPerson("other occupancy", at, values | {"occupancy": occupancy}, cites=(("longest",),))
    elif not short:
        over_m = length.length_m - longest.length_m
        over = in_system_of(length, over_m)
        yield NotMet("long", at, values | {"over": over.text}, cites=(("longest",),), excess=over_m)
    else:
        cites = (("joining", "copper"),)
        yield NotMet("electrode not joined", path.electrode.path, values, at_key=True, cites=cites)


_DWELLINGS_ONLY = "the length is limited in one- and two-family dwellings only"
_USES = {"antenna": "an antenna's mast or lead-in", "shield": "a coax shield"}


def _line(bondable: Bondable) -> str:
    """Which of the two tables of sizes binds: the antenna's or the shield's."""
    return "antenna" if bondable.line == "antenna" else "shield"


def _needed(bondable: Bondable, smallest: Conductor, plant: Plant, limits: Limits) -> Conductor:
    """The larger of the least size and of a wire that conducts as well as the shields it bonds, up to the ceiling."""
    ceiling = limits.conductor("ceiling", _line(bondable), smallest.metal)
    if bondable.is_mast or ceiling is None or smallest.metal != "copper":
        return smallest
    shields = [
        link.type.shield_resistance_ohm_per_m
        for link in plant.cables_at(bondable.device.tag)
        if link.in_use and isinstance(link.type, CableType) and link.type.shield_resistance_ohm_per_m
    ]
    if not shields:
        return smallest
    for size in _GAUGES:
        as_good = at_most(wire_resistance_ohm_per_m(size.area_mm2), min(shields))
        if as_good or at_least(size.area_mm2, ceiling.size.area_mm2):
            larger = size.area_mm2 > smallest.size.area_mm2
            return Conductor.parse(f"{size.text} {smallest.metal}") if larger else smallest
    return smallest


def _joined(path: BondPath, joining: Conductor, plant: Plant) -> bool:
    """Whether the electrode is joined to the building's system by conductors of at least the joining size."""
    onwards = plant.bonding.path_to_building(path.electrode.tag)
    if onwards is None:
        return False
    sizes = [node.item.conductor for node in onwards.conductors]
    return all(size is not None and at_least(size.size.area_mm2, joining.size.area_mm2) for size in sizes)


def _nearest_bonding_point(bondable: Bondable, plant: Plant) -> str:
    """The building's termination, else its electrode, by tag and place; else words for one that has to be provided."""
    node = plant.bonding_point(bondable.device.place.building if bondable.device.place is not None else None)
    if node is None or node.place is None:
        return "the building's intersystem termination, which the design does not show"
    return f"{node.tag} ({node.item.kind}, {node.place.tag})"


_BONDING_FIELDS = (
    "bonding.*.kind",
    "bonding.*.from",
    "bonding.*.to",
    "bonding.*.state",
    "devices.*.mast",
    "devices.*.kind",
)

CHECKS = (
    Check(
        name="conductor-present",
        each=BONDABLE,
        judge=conductor_present,
        cases={
            **dict.fromkeys(("protector", "lead-in", "mast"), ("thing", "kind", "place", "size", "termination")),
            "leads nowhere": ("thing", "kind", "place", "size", "termination", "conductors"),
        },
        reads=(
            *_BONDING_FIELDS,
            "bonding.*.conductor",
            "bonding.*.place",
            "bonding.*.electrode",
            "devices.*.place",
            "places.*.exposure",
        ),
        limits={"size": LimitKind(Conductor, by=("line", "metal"))},
    ),
    Check(
        name="conductor-size",
        each=BONDING_CONDUCTOR,
        judge=conductor_size,
        cases={
            "thin": ("conductor", "thing", "use", "from", "to", "smallest", "mm2", "needed_mm2"),
            "thinner than the shield": ("conductor", "thing", "use", "from", "to", "smallest", "mm2", "needed_mm2"),
            **dict.fromkeys(("metal", "other metal"), ("conductor", "thing", "use", "from", "to", "metals")),
        },
        reads=(*_BONDING_FIELDS, "bonding.*.conductor", "cables.*.type"),
        limits={
            "smallest": LimitKind(Conductor, by=("line", "metal")),
            "ceiling": LimitKind(Conductor, by=("line", "metal")),
        },
    ),
    Check(
        name="conductor-length",
        each=BONDABLE,
        judge=conductor_length,
        cases={
            "long": ("thing", "conductors", "electrode", "length", "longest", "over", "joining"),
            "electrode not joined": ("thing", "conductors", "electrode", "length", "longest", "joining"),
            "other occupancy": ("thing", "conductors", "electrode", "length", "longest", "occupancy"),
        },
        reads=(*_BONDING_FIELDS, "bonding.*.length", "bonding.*.conductor", "basis.occupancy", "buildings.*.occupancy"),
        limits={"longest": LimitKind(LengthPair), "joining": LimitKind(Conductor, by=("metal",))},
    ),
)
