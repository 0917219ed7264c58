"""Is the line one impedance from port to port?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from coaxwright.analysis import Joint, joint, ripple
from coaxwright.catalogue import AttenuationKind, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, listed, ohms
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import those
from coaxwright.design.quantities import Decibels, shown
from coaxwright.network import CableEnd, CableLink, Known, Unknown
from coaxwright.network.devices import options_of
from coaxwright.physics.comparison import at_least


def port_match(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable's impedance is that of the ports it joins.

    Where both ports want another impedance the cable is the odd part; where one does, that port is.
    """
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    least = limits.decibels("return loss")
    assert least is not None
    wrong, is_sound_elsewhere, unknown = _ends(link, least)
    for end, missing in unknown:
        yield CannotJudge(missing, facet=str(end.path[-1]))
    if not wrong:
        return
    worst = min((here for _, here in wrong), key=lambda here: here.return_loss_db)
    wanted_ohm = {here.port_ohm for _, here in wrong}
    is_part = is_sound_elsewhere or len(wanted_ohm) > 1
    alike = _told_together(wrong[0][0], context, least) if is_sound_elsewhere else [link.tag]
    if alike[0] != link.tag:
        yield DoesNotApply(f"the part at fault is told at {alike[0]}")
        return
    fitting = _classes(wanted_ohm, link, context)
    values = {
        "cable": listed(alike) if len(alike) == 1 else f"{alike[0]}, like {listed(alike[1:])},",
        "cable_ohm": ohms(worst.cable_ohm),
        "ports": listed([_port(end, here) for end, here in wrong]),
        "port_ohm": ohms(worst.port_ohm),
        "return_loss": decibels(worst.return_loss_db, least.ratio_db),
        "least": least.text,
        "reflected": f"{shown(100 * worst.reflected_share, 1)} %",
        "ripple": _ripple(link, context),
        "classes": listed(fitting, "or"),
    }
    if is_part:
        sorts = _other_sorts(wrong[0][0], worst.cable_ohm, context)
        case = "sort not said" if sorts else "wrong port"
        values |= {"sorts": listed([f"'variant: {sort}'" for sort in sorts], "or")} if sorts else {}
        yield NotMet(case, wrong[0][0].path, values, cites=(("return loss",),))
    else:
        case = "wrong cable" if fitting else "no class"
        yield NotMet(case, (*link.path, "type"), values, cites=(("return loss",),))


_Wrong = tuple[CableEnd, Joint]


def _ends(link: CableLink, least: Decibels) -> tuple[list[_Wrong], bool, list[tuple[CableEnd, Unknown]]]:
    """The ends of a cable that do not match, whether another one does, and those that cannot be judged."""
    wrong: list[_Wrong] = []
    unknown: list[tuple[CableEnd, Unknown]] = []
    is_sound_elsewhere = False
    for end in link.ends:
        here = joint(link, end)
        if isinstance(here, Unknown):
            unknown.append((end, here))
        elif at_least(here.return_loss_db, least.ratio_db):
            is_sound_elsewhere = True
        else:
            wrong.append((end, here))
    return wrong, is_sound_elsewhere, unknown


def _told_together(wrong: CableEnd, context: CheckContext, least: Decibels) -> list[str]:
    """The cables that do not match the part at an end and are sound at their other end: one of them tells of all."""
    assert wrong.device is not None  # a joint is known at a known device only
    found = []
    for other in context.network.cables_at(wrong.device.tag):
        ends, is_sound_elsewhere, _ = _ends(other, least)
        if other.in_use and is_sound_elsewhere and [end.device for end, _ in ends] == [wrong.device]:
            found.append(other.tag)
    return found


def _classes(wanted_ohm: set[float], link: CableLink, context: CheckContext) -> list[str]:
    """The usual classes of an impedance; for what a drop carries, those whose loss a standard limits, if there are any.

    A camera's video is carried by other classes as well.
    """
    made = [one for one in context.network.catalogue.classes.values() if wanted_ohm == {one.impedance_ohm}]
    drop = [one for one in made if one.attenuation.kind is AttenuationKind.MAXIMUM]
    kinds = {node.service.kind for node in context.network.services_on(link.tag)}
    return [one.name for one in (drop if drop and kinds - {"camera video"} else made)]


def _port(end: CableEnd, here: Joint) -> str:
    assert end.device is not None  # a joint is known at a known device only
    return f"{end.device.tag} ({end.device.device.kind}, {ohms(here.port_ohm)})"


def _other_sorts(end: CableEnd, cable_ohm: float, context: CheckContext) -> list[str]:
    """Where a part does not say of which sort it is: those of its kind that have the impedance of the cable."""
    assert end.device is not None  # a joint is known at a known device only
    device, own = end.device.device, options_of(end.device.device)
    if own.variant is not None or device.impedance is not None or device.model is not None:
        return []
    return [
        options.variant
        for options, entry in context.network.catalogue.made(device.kind).items()
        if options.variant is not None
        and replace(options, variant=None) == own
        and {port.impedance_ohm for port in entry.ports} == {cable_ohm}
    ]


def _ripple(link: CableLink, context: CheckContext) -> str:
    """What both ends together do to the level, as a clause; empty where one end is sound or a figure is missing."""
    near, far = joint(link, link.near), joint(link, link.far)
    edges_hz = context.analysis.band_edges_hz(link)
    if not isinstance(near, Joint) or not isinstance(far, Joint) or edges_hz is None:
        return ""
    loss_db = context.analysis.line_loss_db(link, edges_hz[0])
    swing = ripple(link, near, far, loss_db) if isinstance(loss_db, Known) else None
    if swing is None:
        return ""
    peak_to_peak_db = swing.up_db - swing.down_db
    period = f"{shown(swing.period_hz / 1e6, 1)} MHz"
    return f"; both ends together ripple the level by up to {decibels(peak_to_peak_db)}, every {period}"


_VALUES = ("cable", "cable_ohm", "ports", "port_ohm", "return_loss", "least", "reflected", "ripple")

CHECKS = (
    Check(
        name="port-match",
        each=CABLE,
        judge=port_match,
        prefilter=those(lambda link: not link.is_matched),
        cases={
            "wrong cable": (*_VALUES, "classes"),
            "no class": _VALUES,
            "wrong port": _VALUES,
            "sort not said": (*_VALUES, "sorts"),
        },
        reads=(
            "cables.*.type",
            "cables.*.from",
            "cables.*.to",
            "devices.*.impedance",
            "devices.*.kind",
            "devices.*.variant",
        ),
        limits={"return loss": LimitKind(Decibels)},
    ),
)
