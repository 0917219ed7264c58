"""Is what has to be bonded bonded, by a conductor that is thick and short enough?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bond_sizes import conductor_size, line_of
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import in_system, length_text, listed
from coaxwright.checks.selectors import BONDABLE, BONDING_CONDUCTOR
from coaxwright.design.quantities import Conductor, LengthPair, in_system_of
from coaxwright.design.wire_sizes import as_written
from coaxwright.design.words import SMALL_DWELLINGS
from coaxwright.network import Bondable, Network, Unknown
from coaxwright.physics.comparison import at_most


def conductor_present(bondable: Bondable, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A way leads from the thing over bonding conductors to an electrode or termination."""
    network = context.network
    path = network.bond_paths[bondable.reference]
    if path is not None:
        missing = network.bonding.open_end(path.electrode)
        if missing is not None:
            yield CannotJudge(missing)
        return
    if network.bonding.astray(bondable.reference) is not None:
        yield DoesNotApply("it is bonded to a gas pipe, which is judged as an electrode")
        return
    loose = network.bonding.loose_end(bondable.reference)
    if loose is not None:
        at, written = network.loose_reference(loose)
        yield CannotJudge(Unknown(f"{loose.tag} leads to {written!r}, which names nothing", at))
        return
    smallest = limits.conductor("size", line_of(bondable), "copper")
    assert smallest is not None
    values = {
        "thing": bondable.reference,
        "kind": "mast" if bondable.is_mast else bondable.device.device.kind,
        "place": bondable.device.place.tag if bondable.device.place is not None else "a place not stated",
        "size": as_written(smallest, network.survey.writes_metric).text,
        "termination": nearest_bonding_point(bondable, network),
    }
    joined = network.bonding.conductors_at(bondable.reference)
    if joined:
        values["conductors"] = listed([node.tag for node in joined])
        yield NotMet("leads nowhere", joined[0].path, values, at_key=True, is_by_practice=bondable.is_in_house)
    else:
        body = "lead-in" if bondable.line == "antenna" else "protector"
        case = "mast" if bondable.is_mast else body
        yield NotMet(case, bondable.path, values, at_key=True, is_by_practice=bondable.is_in_house)


def conductor_length(bondable: Bondable, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The shield bond of a dwelling is short; that an electrode of its own is joined has a rule of its own.

    The length counts to the first termination or electrode: the clause limits the conductor of the protector, and the
    conductor that joins a termination to the service is a part of the service. Source: NFPA 70, 800.100(A)(4) and
    250.94(A), found in part.
    """
    if line_of(bondable) == "antenna":
        yield DoesNotApply("masts and antenna lead-ins have no length limit")
        return
    path = context.network.bond_paths[bondable.reference]
    if path is None:
        yield DoesNotApply("it is not bonded")
        return
    place = bondable.device.place
    occupancy = context.network.occupancy(place.building if place is not None else None)
    pair, joining = limits.length("longest"), limits.conductor("joining", "copper")
    assert pair is not None
    assert joining is not None
    length = path.length
    if isinstance(length, Unknown):
        if occupancy in SMALL_DWELLINGS or isinstance(occupancy, Unknown):
            yield CannotJudge(length)
        else:
            yield DoesNotApply(_DWELLINGS_ONLY)
        return
    longest = pair.for_author(length.is_metric)
    if at_most(in_system(length, length.is_metric), in_system(longest, length.is_metric)):
        if not isinstance(occupancy, Unknown) and occupancy not in SMALL_DWELLINGS:
            yield DoesNotApply(_DWELLINGS_ONLY)
        return
    values = {
        "thing": bondable.reference,
        "conductors": listed([node.tag for node in path.conductors]),
        "electrode": path.electrode.tag,
        "length": length_text(length, longest),
        "longest": longest.text,
        "size": as_written(joining, context.network.survey.writes_metric).text,
    }
    at = (*path.conductors[0].path, "length")
    if bondable.is_in_house:
        yield NeedsPerson("on the premises", at, values, cites=(("longest",),))
    elif isinstance(occupancy, Unknown):
        yield CannotJudge(occupancy)
    elif occupancy not in SMALL_DWELLINGS:
        yield NeedsPerson("other occupancy", at, values | {"occupancy": occupancy}, cites=(("longest",),))
    else:
        over_m = length.length_m - longest.length_m
        over = in_system_of(length, over_m)
        yield NotMet("long", at, values | {"over": over.text}, cites=(("longest",),), excess=over_m)


_DWELLINGS_ONLY = "the length is limited in one- and two-family dwellings only"


def nearest_bonding_point(bondable: Bondable, network: Network) -> str:
    """The building's termination, else its electrode, by tag and place; else words for one that has to be provided."""
    node = network.bonding_point(bondable.device.place.building if bondable.device.place is not None else None)
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

_ENDS = ("conductor", "thing", "from", "to")
_SIZED = (*_ENDS, "use", "smallest", "mm2", "needed_mm2", "size")

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
            **dict.fromkeys(("thin", "thinner than the shield"), _SIZED),
            "thinner than a bond": (*_SIZED, "brought"),
            **dict.fromkeys(("metal", "other metal"), (*_ENDS, "use", "metals", "sizes")),
        },
        reads=(*_BONDING_FIELDS, "bonding.*.conductor", "bonding.*.electrode", "cables.*.type"),
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
            "long": ("thing", "conductors", "electrode", "length", "longest", "over", "size"),
            "other occupancy": ("thing", "conductors", "electrode", "length", "longest", "occupancy"),
            "on the premises": ("thing", "conductors", "electrode", "length", "longest"),
        },
        reads=(*_BONDING_FIELDS, "bonding.*.length", "bonding.*.conductor", "basis.occupancy", "buildings.*.occupancy"),
        limits={"longest": LimitKind(LengthPair), "joining": LimitKind(Conductor, by=("metal",))},
    ),
)
