"""Is a path one impedance where no cable shows it: inside devices, at parts screwed on, at connectors?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import Joint, joint
from coaxwright.catalogue import DeviceEntry, Port, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, frequency, listed, ohms
from coaxwright.checks.selectors import CABLE, DEVICE
from coaxwright.checks.subject_filters import those
from coaxwright.design.quantities import Decibels, Frequency, Impedance
from coaxwright.network import CableEnd, CableLink, DeviceNode, Unknown
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.mismatch import minimum_loss_pad, reflection_coefficient, return_loss_db

STRAIGHT = frozenset(("ground block", "protector", "DC block", "galvanic isolator", "power inserter"))
"""Kinds that join their ports straight, and so never match. Source: common practice, no source."""
_DIVIDING = frozenset(("splitter", "tap", "directional coupler", "combiner", "diplexer", "filter", "equaliser"))
"""Kinds that are made of one impedance, but for terminals of twin lead. Source: common practice, no source."""
_TWIN_LEAD_OHM = 300.0
_AMBIGUOUS = ("N", "BNC", "TNC")
"""Series that are made in 50 and in 75 ohm. Source: common practice, no source."""


def path_uniform(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The impedance does not change inside a device that matches nothing, nor where a part is screwed on.

    A joint of a cable and a port is another rule's; here every cable suits its port, and the change lies between.
    """
    least = limits.decibels("return loss")
    assert least is not None
    on = context.network.fittings.get(node.tag)
    if on is not None and on.device is not None and on.port is not None and node.ports:
        if not _suits(on.port.impedance_ohm, node.ports[0].impedance_ohm, least):
            values = _step(on.port.impedance_ohm, node.ports[0].impedance_ohm, least)
            values |= {"part": node.tag, "kind": node.device.kind, "host": f"{on.device.tag}.{on.port.name}"}
            yield NotMet("screwed on", on.path, values, cites=(("return loss",),))
        return
    if node.device.kind not in STRAIGHT | _DIVIDING or node.entry is None:
        yield DoesNotApply("it ends a path, matches, or amplifies")
        return
    joined = _joined(node, context, least)
    pairs = [(one, other) for one in joined for other in joined]
    if not any(_passes(node.entry, one, other) for (one, _), (other, _) in pairs):
        yield DoesNotApply("no two cables that suit their ports meet in it")
        return
    for (here, link), (there, other) in pairs:
        if _suits(here.impedance_ohm, there.impedance_ohm, least) or not _passes(node.entry, here, there):
            continue
        if _is_twin_lead(node, here, there):
            continue
        pad = minimum_loss_pad(*sorted((here.impedance_ohm, there.impedance_ohm), reverse=True))
        values = _step(here.impedance_ohm, there.impedance_ohm, least)
        values |= {"device": node.tag, "kind": node.device.kind, "cable": link.tag, "other": other.tag}
        values["pad_loss"] = decibels(pad.loss_db)
        yield NotMet("inside", node.path, values, at_key=True, cites=(("return loss",),))
        return


def _joined(node: DeviceNode, context: CheckContext, least: Decibels) -> list[tuple[Port, CableLink]]:
    """The ports at which a cable in use suits the port, in the device's own order."""
    found: dict[str, CableLink] = {}
    for link in context.network.cables_at(node.tag):
        for end in link.ends if link.in_use else ():
            if end.device is not node or end.port is None:
                continue
            if link.is_matched or _is_sound(link, end, least):
                found.setdefault(end.port.name, link)
    return [(port, found[port.name]) for port in node.ports if port.name in found]


def _is_sound(link: CableLink, end: CableEnd, least: Decibels) -> bool:
    here = joint(link, end)
    return isinstance(here, Joint) and at_least(here.return_loss_db, least.ratio_db)


def _passes(entry: DeviceEntry, one: Port, other: Port) -> bool:
    """Whether a signal passes from one port to another at any frequency."""
    return one.name != other.name and any(path.ends.join(one, other) for path in entry.paths)


def _suits(one_ohm: float, other_ohm: float, least: Decibels) -> bool:
    return one_ohm == other_ohm or at_least(_return_loss_db(one_ohm, other_ohm), least.ratio_db)


def _return_loss_db(one_ohm: float, other_ohm: float) -> float:
    """Of two unlike impedances; alike from both sides, and the line is the one that is not zero."""
    return return_loss_db(reflection_coefficient(min(one_ohm, other_ohm), max(one_ohm, other_ohm)))


def _is_twin_lead(node: DeviceNode, here: Port, there: Port) -> bool:
    """A device for twin lead has its transformer inside."""
    return node.device.kind in _DIVIDING and _TWIN_LEAD_OHM in (here.impedance_ohm, there.impedance_ohm)


def _step(one_ohm: float, other_ohm: float, least: Decibels) -> dict[str, str]:
    return {
        "from_ohm": ohms(one_ohm),
        "to_ohm": ohms(other_ohm),
        "return_loss": decibels(_return_loss_db(one_ohm, other_ohm), least.ratio_db),
        "least": least.text,
    }


def connector_grade(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The connectors of a cable have its impedance, and pass what it carries."""
    stated = [connector.series for connector in link.cable.connectors or () if connector.series is not None]
    if not stated:
        yield DoesNotApply("no connector is stated")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    edges_hz = context.analysis.band_edges_hz(link)
    for index, connector in enumerate(link.cable.connectors or ()):
        if connector.series is None:
            continue
        at = (*link.path, "connectors", index, "series")
        values = {"cable": link.tag, "series": connector.series, "cable_ohm": ohms(link.type.impedance_ohm)}
        own = limits.quantity(Impedance, "impedance", connector.series)
        highest = limits.quantity(Frequency, "highest", connector.series)
        if own is not None and not _is_alike(own.impedance_ohm, link.type.impedance_ohm):
            if _suits_its_port(link, index, own.impedance_ohm):
                continue  # then the cable is the odd part, which is told at its ports
            values |= {"series_ohm": ohms(own.impedance_ohm), "suiting": _series(link.type.impedance_ohm, limits)}
            yield NotMet("impedance", at, values, facet=str(index), cites=(("impedance", connector.series),))
        elif highest is not None and edges_hz is not None and not at_most(edges_hz[1], highest.freq_hz):
            values |= {"top": frequency(edges_hz[1]), "highest": highest.text}
            values["suiting"] = _series(link.type.impedance_ohm, limits)
            yield NotMet("frequency", at, values, facet=str(index), cites=(("highest", connector.series),))


def _suits_its_port(link: CableLink, index: int, connector_ohm: float) -> bool:
    """Whether every port that a connector meets has its impedance, so far as they are known."""
    is_one_for_both = len(link.cable.connectors or ()) == 1
    wanted = ("from", "to") if is_one_for_both else (("from", "to")[index],)
    ports = [end.port for end in link.ends if end.path[-1] in wanted and end.port is not None]
    return bool(ports) and all(_is_alike(connector_ohm, port.impedance_ohm) for port in ports)


def _is_alike(connector_ohm: float, cable_ohm: float) -> bool:
    """Within a tenth: cables of 51.5 or 53.5 ohm take connectors of 50."""
    return at_most(abs(connector_ohm - cable_ohm), 0.1 * connector_ohm)


def _series(cable_ohm: float, limits: Limits) -> str:
    """The series that suit a cable, as far as limits tell; those made in both impedances with the one it needs."""
    own = [
        series
        for (series,) in limits.keys("impedance")
        if (made := limits.quantity(Impedance, "impedance", series)) and _is_alike(made.impedance_ohm, cable_ohm)
    ]
    return listed([*own, *(f"{series} of {ohms(cable_ohm)}" for series in _AMBIGUOUS)], "or")


CHECKS = (
    Check(
        name="path-uniform",
        each=DEVICE,
        judge=path_uniform,
        cases={
            "inside": ("device", "kind", "cable", "other", "from_ohm", "to_ohm", "return_loss", "least", "pad_loss"),
            "screwed on": ("part", "kind", "host", "from_ohm", "to_ohm", "return_loss", "least"),
        },
        reads=(
            "devices.*.kind",
            "devices.*.on",
            "devices.*.impedance",
            "devices.*.ports",
            "cables.*.from",
            "cables.*.to",
            "cables.*.type",
        ),
        limits={"return loss": LimitKind(Decibels)},
    ),
    Check(
        name="connector-grade",
        each=CABLE,
        judge=connector_grade,
        applies_to=those(lambda link: link.cable.connectors),
        cases={
            "impedance": ("cable", "series", "series_ohm", "cable_ohm", "suiting"),
            "frequency": ("cable", "series", "cable_ohm", "top", "highest", "suiting"),
        },
        reads=(
            "cables.*.connectors",
            "cables.*.type",
            "services.*.down",
            "services.*.up",
            "services.*.channels",
        ),
        limits={
            "impedance": LimitKind(Impedance, by=("series",)),
            "highest": LimitKind(Frequency, by=("series",)),
        },
    ),
)
