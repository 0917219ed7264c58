"""A cable's impedance is that of the ports it joins: return loss of each joint >= limit.

Where both ports want another impedance the cable is the odd part; where one does, that port is, and the cables that
do not match it are one finding. The return loss is
-20 log |(Z2 - Z1) / (Z2 + Z1)|. Source of the limit: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from coaxwright.analysis import Joint, joint, ripple
from coaxwright.catalogue import AttenuationKind, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import those
from coaxwright.design.quantities import Decibels
from coaxwright.design.value_types import (
    DECIBELS,
    IMPEDANCE,
    NUMBER,
    QUANTITY,
    SHARE,
    TAG,
    TAGS,
    WORD,
    WORDS,
    Phrase,
    list_of,
    optional,
    phrase,
)
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableEnd, CableLink, DeviceNode, Known, Unknown
from coaxwright.network.devices import options_of
from coaxwright.physics.comparison import at_least


def port_match(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each joint of the cable has the return loss that is asked for."""
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    least = limits.one(Decibels, "return loss")
    ends = _ends_of(link, least)
    for end, missing in ends.unknown:
        yield CannotJudge(missing, facet=str(end.path[-1]))
    if not ends.wrong:
        return
    alike = _alike(ends.wrong[0], context, least) if ends.is_sound_elsewhere else [link.tag]
    worst = min((wrong.joint for wrong in ends.wrong), key=lambda here: here.return_loss_db)
    values: dict[str, object] = {
        "cable": link.tag,
        "alike": [tag for tag in alike if tag != link.tag] or None,
        "cable_ohm": worst.cable_ohm,
        "ports": [_port(wrong) for wrong in ends.wrong],
        "port_ohm": worst.port_ohm,
        "return_loss": worst.return_loss_db,
        "least": least,
        "reflected": worst.reflected_share,
        "ripple": _ripple(link, context),
    }
    group = ("part", ends.wrong[0].device.tag) if len(alike) > 1 else ()
    yield replace(_part_at_fault(link, ends, worst, values, context), group=group)


@frozen_value
class _Wrong:
    """An end of a cable that does not match the port it joins."""

    end: CableEnd
    device: DeviceNode
    joint: Joint


@frozen_value
class _Ends:
    """The ends of a cable that do not match, whether another one does, and those that cannot be judged."""

    wrong: tuple[_Wrong, ...]
    is_sound_elsewhere: bool
    unknown: tuple[tuple[CableEnd, Unknown], ...]


def _ends_of(link: CableLink, least: Decibels) -> _Ends:
    wrong: list[_Wrong] = []
    unknown: list[tuple[CableEnd, Unknown]] = []
    is_sound_elsewhere = False
    for end in link.ends:
        here = joint(link, end)
        if isinstance(here, Unknown):
            unknown.append((end, here))
        elif at_least(here.return_loss_db, least.ratio_db):
            is_sound_elsewhere = True
        elif end.device is not None:
            wrong.append(_Wrong(end, end.device, here))
    return _Ends(tuple(wrong), is_sound_elsewhere, tuple(unknown))


def _alike(wrong: _Wrong, context: CheckContext, least: Decibels) -> list[str]:
    """The cables that do not match the part at an end and are sound at their other end."""
    found = []
    for other in context.network.cables_at(wrong.device.tag):
        ends = _ends_of(other, least)
        if other.in_use and ends.is_sound_elsewhere and [end.device for end in ends.wrong] == [wrong.device]:
            found.append(other.tag)
    return found


def _part_at_fault(
    link: CableLink, ends: _Ends, worst: Joint, values: dict[str, object], context: CheckContext
) -> NotMet:
    """The part, where the cable suits another port or two ports differ; else the cable."""
    cites = (("return loss",),)
    wanted_ohm = {wrong.joint.port_ohm for wrong in ends.wrong}
    if not ends.is_sound_elsewhere and len(wanted_ohm) == 1:
        at = (*link.path, "type")
        fitting = _classes(wanted_ohm, link, context)
        return (
            NotMet("wrong cable", at, values | {"classes": fitting}, cites=cites)
            if fitting
            else NotMet("no class", at, values, cites=cites)
        )
    first = ends.wrong[0]
    sorts = _other_sorts(first.device, worst.cable_ohm, context)
    if sorts:
        worded = [Phrase("sort", {"sort": sort}) for sort in sorts]
        return NotMet("sort not said", first.end.path, values | {"sorts": worded}, cites=cites)
    return NotMet("wrong port", first.end.path, values, cites=cites)


def _classes(wanted_ohm: set[float], link: CableLink, context: CheckContext) -> list[str]:
    """The usual classes of an impedance; for what a drop carries, those whose loss a standard limits, if there are any.

    A camera's video is carried by other classes as well.
    """
    made = [known for known in context.network.catalogue.classes.values() if wanted_ohm == {known.impedance_ohm}]
    drop = [known for known in made if known.attenuation.kind is AttenuationKind.MAXIMUM]
    kinds = {node.service.kind for node in context.network.services_on(link.tag)}
    return [known.name for known in (drop if drop and kinds - {"camera video"} else made)]


def _port(wrong: _Wrong) -> Phrase:
    values: dict[str, object] = {
        "device": wrong.device.tag,
        "kind": wrong.device.device.kind,
        "impedance": wrong.joint.port_ohm,
    }
    return Phrase("port", values)


def _other_sorts(node: DeviceNode, cable_ohm: float, context: CheckContext) -> list[str]:
    """Where a part does not say of which sort it is: those of its kind that have the impedance of the cable."""
    device, own = node.device, options_of(node.device)
    if own.variant is not None or device.impedance is not None or device.model is not None:
        return []
    return [
        options.variant
        for options, entry in context.network.catalogue.made(device.kind).items()
        if options.variant is not None
        and replace(options, variant=None) == own
        and {port.impedance_ohm for port in entry.ports} == {cable_ohm}
    ]


def _ripple(link: CableLink, context: CheckContext) -> Phrase | None:
    """What both ends together do to the level; None where one end is sound or a figure is missing."""
    near, far = joint(link, link.near), joint(link, link.far)
    edges_hz = context.analysis.band_edges_hz(link)
    if not isinstance(near, Joint) or not isinstance(far, Joint) or edges_hz is None:
        return None
    loss_db = context.analysis.line_loss_db(link, edges_hz[0])
    swing = ripple(link, near, far, loss_db) if isinstance(loss_db, Known) else None
    if swing is None:
        return None
    return Phrase("both ends", {"swing": swing.up_db - swing.down_db, "period_mhz": swing.period_hz / 1e6})


_VALUES = {
    "cable": TAG,
    "alike": optional(TAGS),
    "cable_ohm": IMPEDANCE,
    "ports": list_of(phrase(port={"device": TAG, "kind": WORD, "impedance": IMPEDANCE})),
    "port_ohm": IMPEDANCE,
    "return_loss": DECIBELS,
    "least": QUANTITY,
    "reflected": SHARE,
    "ripple": optional(phrase(**{"both ends": {"swing": DECIBELS, "period_mhz": NUMBER}})),
}

CHECK = Check(
    name="impedance.port-match",
    each=CABLE,
    judge=port_match,
    prefilter=those(lambda link: not link.is_matched),
    cases={
        "wrong cable": {**_VALUES, "classes": WORDS},
        "no class": _VALUES,
        "wrong port": _VALUES,
        "sort not said": {**_VALUES, "sorts": list_of(phrase(sort={"sort": WORD}))},
    },
    limits={"return loss": LimitKind(Decibels)},
)
