"""An electrode of its own, or the lightning system's, is joined to the electrode system of its building.

The conductors between are at least of the joining size where the electrode serves coax; for the lightning system's no
size is set here. Source: NFPA 70, 250.106 and 800.100(D).
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bonding._shared import (
    BUILDING,
    PLACE,
    TERMINATION,
    building_named,
    leads_to_nothing,
    place_of,
    relying_on,
)
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OWN_ELECTRODE
from coaxwright.design import LightningSystem
from coaxwright.design.quantities import Conductor
from coaxwright.design.value_types import CONDUCTOR, TAG, TAGS, WORD, Phrase, list_of, optional, phrase
from coaxwright.network import BUILDING_LEVEL, BondNode, Network, Unknown
from coaxwright.physics.comparison import at_least

_COPPER_SHARE = {"copper": 1.0, "aluminum": 0.61}
"""Conductivity of a metal as a share of copper's; metals without one are no equal. Source: IEC 60889, from memory."""


def electrode_shared(electrode: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What hangs together with it, over conductors that are large enough, serves the building."""
    network, tag = context.network, electrode.tag
    bonded = relying_on(network, tag)
    lightning = electrode.item.kind == "lightning electrode system" or tag in _lightning_electrodes(network)
    if not bonded and not lightning:
        yield DoesNotApply("nothing bonded to it")
        return
    joining = limits.row(Conductor, "joining", "copper")
    anyhow = network.bonding.joined_with(tag, lambda conductor: True)
    large = anyhow if lightning else network.bonding.joined_with(tag, lambda conductor: _is_as_good(conductor, joining))
    if _serves(large, network):
        return
    building = electrode.place.building if electrode.place is not None else None
    values = {
        "electrode": tag,
        "kind": electrode.item.kind,
        "place": place_of(electrode.place),
        "building": building_named(building),
        "system": _system(building, network),
        "things": bonded,
        "joining": joining,
        "size": joining,
    }
    cites = () if lightning else (("joining", "copper"),)
    way, missing = network.bonding.path_to_building(tag), _missing(tag, anyhow, network)
    if _serves(anyhow, network) and way is not None:
        thin = [_conductor(node) for node in way.conductors if not _is_as_good(node, joining)]
        yield NotMet("thin", electrode.path, {**values, "conductors": thin}, at_key=True, cites=cites)
    elif missing is not None:
        yield CannotJudge(missing)
    elif not bonded or (not lightning and len(network.buildings) > 1 and not _shows_service(building, network)):
        yield NeedsPerson(
            "service not shown" if bonded else "lightning system", electrode.path, values, at_key=True, cites=cites
        )
    else:
        yield NotMet("lightning bonds" if lightning else "not joined", electrode.path, values, at_key=True, cites=cites)


def _conductor(node: BondNode) -> Phrase:
    return Phrase("conductor", {"tag": node.tag, "size": node.item.conductor})


def _is_as_good(node: BondNode, needed: Conductor | None) -> bool:
    """Whether a conductor carries as much as one of copper."""
    own = node.item.conductor
    if own is None or needed is None:
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
        return leads_to_nothing(loose, network)
    for tag in sorted(joined):
        node = network.bonds.get(tag)
        if node is not None and node.item.kind == TERMINATION and node.item.electrode is None:
            return Unknown("no way to the building's", (*node.path, "electrode"), {"termination": tag})
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


def _system(building: str | None, network: Network) -> Phrase:
    """What an electrode is to be joined to, with its place where the design says it."""
    node, place = _nearest_system(building, network), _service_place(building, network)
    if node is not None and node.place is not None:
        return Phrase("shown", {"tag": node.tag, "kind": node.item.kind, "place": node.place.tag})
    return Phrase("missing", {"place": place})


_OWN = {
    "electrode": TAG,
    "kind": WORD,
    "place": PLACE,
    "building": BUILDING,
    "system": phrase(shown={"tag": TAG, "kind": WORD, "place": TAG}, missing={"place": optional(TAG)}),
    "things": TAGS,
    "joining": optional(CONDUCTOR),
    "size": optional(CONDUCTOR),
}
_CONDUCTORS = list_of(phrase(conductor={"tag": TAG, "size": optional(CONDUCTOR)}))

CHECK = Check(
    name="bonding.electrode-shared",
    each=OWN_ELECTRODE,
    judge=electrode_shared,
    cases={
        **dict.fromkeys(("not joined", "service not shown", "lightning bonds", "lightning system"), _OWN),
        "thin": {**_OWN, "conductors": _CONDUCTORS},
    },
    cannot_judge={
        "leads to nothing": {"conductor": TAG, "written": TAG},
        "no way to the building's": {"termination": TAG},
    },
    does_not_apply={"nothing bonded to it": {}},
    limits={"joining": LimitKind(Conductor, by=("metal",))},
    former_values={"rely": "{things:relies|rely}"},
)
