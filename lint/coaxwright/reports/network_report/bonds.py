"""What was understood of the bonding: the way of each protector and mast to an electrode."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.design.quantities import Length
from coaxwright.network import BUILDING_LEVEL, Bondable, BondNode, BondPath, Network, Unknown
from coaxwright.reports.network_report.network import ReadLength
from coaxwright.reports.network_report.parts import BondStep, ReadBond, ReadBondItem
from coaxwright.rules.phrase_book import cause_text


def length_read(length: Length | Unknown) -> ReadLength:
    """A length, or what is missing to tell it."""
    if isinstance(length, Unknown):
        return ReadLength("", None, cause_text(length))
    return ReadLength(length.text, length.length_m, "")


def bonds(network: Network) -> Iterator[ReadBond]:
    """Every protector and mast in use with its way to an electrode, in tag order."""
    for bondable in network.bondables:
        path = network.bond_paths[bondable.reference]
        onwards: BondPath | None = None
        if path is not None and path.electrode.item.kind not in BUILDING_LEVEL:
            onwards = network.bonding.path_to_building(path.electrode.tag)
        yield ReadBond(
            thing=bondable.reference,
            what=f"mast of {bondable.device.tag}" if bondable.is_mast else bondable.device.device.kind,
            place=bondable.device.place.tag if bondable.device.place is not None else "",
            steps=_way(bondable.reference, path),
            electrode=path.electrode.tag if path is not None else "",
            electrode_what=_electrode(path.electrode) if path is not None else "",
            length=length_read(path.length) if path is not None else ReadLength("", None, ""),
            onwards=_way(path.electrode.tag, onwards) if path is not None else (),
            nowhere="" if path is not None else _nowhere(bondable, network),
        )


def bonding_items(network: Network) -> Iterator[ReadBondItem]:
    """Everything of the bonding section."""
    for tag, node in network.bonds.items():
        item = node.item
        yield ReadBondItem(
            tag=tag,
            kind=item.kind,
            place=node.place.tag if node.place is not None else "",
            electrode=item.electrode or "",
            from_=item.from_ or "",
            to=item.to or "",
            size=item.conductor.text if item.conductor is not None else "",
            length=item.length.text if item.length is not None else "",
            state=item.state,
            owner=item.owner,
            bonds=tuple(bondable.reference for bondable in network.bonded_over(tag)),
        )


def _way(start: str, path: BondPath | None) -> tuple[BondStep, ...]:
    steps: list[BondStep] = []
    here = start
    for conductor in path.conductors if path is not None else ():
        item = conductor.item
        here = (item.to if item.from_ == here else item.from_) or ""
        size = item.conductor.text if item.conductor is not None else ""
        steps.append(BondStep(conductor.tag, size, item.length.text if item.length is not None else "", here))
    return tuple(steps)


def _electrode(node: BondNode) -> str:
    return f"{node.item.kind}, {node.place.tag}" if node.place is not None else node.item.kind


def _nowhere(bondable: Bondable, network: Network) -> str:
    loose = network.bonding.loose_end(bondable.reference)
    if loose is not None:
        _, written = network.loose_reference(loose)
        return f"{loose.tag} leads to '{written}', which names nothing"
    joined = network.bonding.conductors_at(bondable.reference)
    if joined:
        return f"what is joined by {', '.join(node.tag for node in joined)} leads to no electrode"
    return "no bonding conductor is joined to it"
