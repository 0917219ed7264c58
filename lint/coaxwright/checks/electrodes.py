"""Is what is bonded brought to an electrode that may serve, and are the electrodes of a building one system?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bonding import nearest_bonding_point
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import BONDABLE, OWN_ELECTRODE
from coaxwright.design.model.site import LightningSystem
from coaxwright.design.quantities import Conductor
from coaxwright.design.wire_sizes import as_written
from coaxwright.network import BUILDING_LEVEL, Bondable, BondNode, Network, Unknown
from coaxwright.physics.comparison import at_least

TERMINATION = "intersystem termination"
LIGHTNING = "lightning electrode system"
_COPPER_SHARE = {"copper": 1.0, "aluminium": 0.61}
"""Conductivity of a metal as a share of copper's; metals without one are no equal. Source: IEC 60889, from memory."""


def electrode_accepted(bondable: Bondable, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Nothing relies on a gas pipe as its electrode; a gas pipe that is bonded to the electrodes itself is sound.

    Source: NFPA 70, 250.52(B), from memory.
    """
    bonding = context.network.bonding
    if context.network.bond_paths[bondable.reference] is not None:
        return
    astray = bonding.astray(bondable.reference)
    if astray is None:
        loose = bonding.loose_end(bondable.reference)
        if loose is None:
            yield DoesNotApply("it is brought to no electrode")
        else:
            at, written = context.network.loose_reference(loose)
            yield CannotJudge(Unknown(f"{loose.tag} leads to {written!r}, which names nothing", at))
        return
    conductor, pipe = astray
    end = "to" if conductor.item.to == pipe else "from"
    values = {
        "thing": bondable.reference,
        "pipe": pipe,
        "conductor": conductor.tag,
        "termination": nearest_bonding_point(bondable, context.network),
    }
    yield NotMet("gas pipe", (*conductor.path, end), values)


def electrode_shared(electrode: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """An electrode of its own, or the lightning system's, is joined to the electrode system of its building.

    The conductors between are at least of the joining size where the electrode serves coax; for the lightning system's
    no size is set here. Source: NFPA 70, 250.106 and 800.100(D).
    """
    network = context.network
    tag, building = electrode.tag, electrode.place.building if electrode.place is not None else None
    bonded = relying_on(network, tag)
    lightning = electrode.item.kind == LIGHTNING or tag in _lightning_electrodes(network)
    if not bonded and not lightning:
        yield DoesNotApply("nothing is bonded to it")
        return
    joining = limits.conductor("joining", "copper")
    assert joining is not None
    anyhow = network.bonding.joined_with(tag, lambda conductor: True)
    large = anyhow if lightning else network.bonding.joined_with(tag, lambda conductor: _is_as_good(conductor, joining))
    if _serves(large, network):
        return
    values = {
        "electrode": tag,
        "kind": electrode.item.kind,
        "place": electrode.place.tag if electrode.place is not None else "a place not stated",
        "building": building or "the building",
        "things": listed(bonded),
        "rely": "relies" if len(bonded) == 1 else "rely",
        "joining": joining.text,
        "size": as_written(joining, network.survey.writes_metric).text,
        "system": _system(building, network),
        "conductors": "",
    }
    cites = () if lightning else (("joining", "copper"),)
    way = network.bonding.path_to_building(tag)
    if _serves(anyhow, network) and way is not None:
        thin = [node for node in way.conductors if not _is_as_good(node, joining)]
        values["conductors"] = listed([f"{node.tag} ({node.item.conductor})" for node in thin])
        yield NotMet("thin", electrode.path, values, at_key=True, cites=cites)
        return
    missing = _missing(tag, anyhow, network)
    if missing is not None:
        yield CannotJudge(missing)
    elif not bonded:
        yield NeedsPerson("lightning system", electrode.path, values, at_key=True)
    elif lightning:
        yield NotMet("lightning bonds", electrode.path, values, at_key=True)
    elif len(network.buildings) > 1 and not _shows_service(building, network):
        yield NeedsPerson("service not shown", electrode.path, values, at_key=True, cites=cites)
    else:
        yield NotMet("not joined", electrode.path, values, at_key=True, cites=cites)


def relying_on(network: Network, electrode: str) -> list[str]:
    """What is bonded to an electrode, and the terminations that are joined to it, by what they say or by a wire."""
    bonded = [bondable.reference for bondable in network.bonded_at(electrode)]
    return [*bonded, *network.survey.terminations_on(electrode)]


def termination_used(bondable: Bondable, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What is bonded goes to the building's intersystem termination where there is one.

    An electrode of its own at the entry, joined to the others, is the way out where the termination is too far; and no
    other place of the building's system will do. Source: NFPA 70, 800.100(B)(1) and 810.21(F), found in part.
    """
    path = context.network.bond_paths[bondable.reference]
    place = bondable.device.place
    building = place.building if place is not None else None
    found = context.network.survey.terminations(building)
    if path is None or not found:
        yield DoesNotApply("it is not bonded" if path is None else "its building shows no intersystem termination")
        return
    if bondable.is_in_house:
        yield DoesNotApply("its line stays on the premises, and no clause says where its bond goes")
        return
    end = path.electrode
    if end.item.kind == TERMINATION or end.item.kind not in BUILDING_LEVEL:
        return
    if context.network.bonding.meets(bondable.reference) & {node.tag for node in found}:
        return
    values = {
        "thing": bondable.reference,
        "conductor": path.conductors[-1].tag,
        "electrode": end.tag,
        "kind": end.item.kind,
        "termination": f"{found[0].tag} ({found[0].place.tag if found[0].place is not None else ''})",
    }
    line = "antenna" if bondable.line == "antenna" else "shield"
    yield NotMet(line, path.conductors[-1].path, values, at_key=True)


def _is_as_good(node: BondNode, needed: Conductor) -> bool:
    """Whether a conductor carries as much as one of copper."""
    own = node.item.conductor
    if own is None:
        return False
    return at_least(own.size.area_mm2 * _COPPER_SHARE.get(own.metal, 0.0), needed.size.area_mm2)


def _serves(joined: frozenset[str], network: Network) -> bool:
    """Whether the electrode system of the electrical service is among what hangs together."""
    items = [network.bonds[tag].item for tag in joined if tag in network.bonds]
    return any(
        item.electrode == "service" if item.kind == TERMINATION else item.kind in BUILDING_LEVEL for item in items
    )


def _missing(electrode: str, joined: frozenset[str], network: Network) -> Unknown | None:
    """A conductor that leads to nothing, or a termination that does not say what it is joined to."""
    loose = network.bonding.loose_end(electrode)
    if loose is not None:
        at, written = network.loose_reference(loose)
        return Unknown(f"{loose.tag} leads to {written!r}, which names nothing", at)
    for tag in sorted(joined):
        node = network.bonds.get(tag)
        if node is not None and node.item.kind == TERMINATION and node.item.electrode is None:
            cause = f"{tag} states no electrode, and no conductor leads on from it to the building's"
            return Unknown(cause, (*node.path, "electrode"))
    return None


def _lightning_electrodes(network: Network) -> frozenset[str]:
    systems = [node.building.lightning_system for node in network.buildings.values()]
    return frozenset(
        system.electrode for system in systems if isinstance(system, LightningSystem) and system.electrode is not None
    )


def _service_place(building: str | None, network: Network) -> str | None:
    node = network.buildings.get(building) if building is not None else None
    return node.building.service_equipment if node is not None else None


def _shows_service(building: str | None, network: Network) -> bool:
    """Whether the design shows that a building has an electrical service."""
    return _service_place(building, network) is not None or _nearest_system(building, network) is not None


def _nearest_system(building: str | None, network: Network) -> BondNode | None:
    node = network.bonding_point(building)
    return node if node is not None and node.item.kind in BUILDING_LEVEL else None


def _system(building: str | None, network: Network) -> str:
    """What an electrode is to be joined to, with its place where the design says it."""
    node, place = _nearest_system(building, network), _service_place(building, network)
    if node is not None and node.place is not None:
        return f"{node.tag} ({node.item.kind}, {node.place.tag})"
    where = f" at the service equipment ({place})" if place is not None else ""
    return f"the building's electrode system{where}"


_FIELDS = ("bonding.*.kind", "bonding.*.from", "bonding.*.to", "bonding.*.state", "bonding.*.place")
_OWN = ("electrode", "kind", "place", "building", "things", "rely", "joining", "size", "system")

CHECKS = (
    Check(
        name="electrode-accepted",
        each=BONDABLE,
        judge=electrode_accepted,
        cases={"gas pipe": ("thing", "pipe", "conductor", "termination")},
        reads=(*_FIELDS, "devices.*.mast", "devices.*.kind"),
    ),
    Check(
        name="electrode-shared",
        each=OWN_ELECTRODE,
        judge=electrode_shared,
        cases={
            **dict.fromkeys(("not joined", "service not shown"), _OWN),
            "thin": (*_OWN, "conductors"),
            "lightning bonds": ("electrode", "kind", "place", "building", "things", "rely", "system"),
            "lightning system": ("electrode", "kind", "place", "building", "system"),
        },
        reads=(
            *_FIELDS,
            "bonding.*.electrode",
            "bonding.*.conductor",
            "buildings.*.lightning system",
            "buildings.*.service equipment",
            "places.*.building",
        ),
        limits={"joining": LimitKind(Conductor, by=("metal",))},
    ),
    Check(
        name="termination-used",
        each=BONDABLE,
        judge=termination_used,
        cases=dict.fromkeys(("shield", "antenna"), ("thing", "conductor", "electrode", "kind", "termination")),
        reads=(*_FIELDS, "places.*.building", "devices.*.place"),
    ),
)
