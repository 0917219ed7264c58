"""Does everything on the way of a two-way service pass its return band, and part it where the service does?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import article, frequency, listed
from coaxwright.checks.selectors import PASSAGE
from coaxwright.design.quantities import Band, shown
from coaxwright.network import DeviceNode, ServiceNode, Unknown
from coaxwright.network.device_passages import Passage, PortPair
from coaxwright.network.devices import kind_of, options_of
from coaxwright.network.diplex import DiplexPoint, diplex_point
from coaxwright.physics.comparison import at_least, at_most

_MADE_SPLITS = ((42, 54), (65, 85), (85, 102), (204, 258))
"""Splits that amplifiers and filters are made with [MHz]. Source: common practice, no source."""


def path_open(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What answers over a two-way service can do so through every device that it is fed through."""
    band = _return_band(passage.service)
    shows_modem = _shows_modem(passage.service, context)
    legs = [(leg, answering) for leg in passage.legs if (answering := _answering(leg, shows_modem))]
    if band is None or not legs:
        yield DoesNotApply("nothing that answers lies behind it")
        return
    node = passage.device
    shut = [(leg, answering) for leg, answering in legs if _is_shut(node, leg, band)]
    if shut:
        behind = dict.fromkeys(device.tag for _, answering in shut for device in answering)
        values = {
            "device": node.tag,
            "kind": article(kind_of(node.device)),
            "service": passage.service.tag,
            "band": _band_text(band),
            "behind": listed(list(behind)),
        }
        made = _with_return(node, context)
        if made is not None:
            yield NotMet("with return path made", node.path, {**values, "made": article(made)}, at_key=True)
        else:
            yield NotMet("one way", node.path, values, at_key=True)
        return
    for leg, _ in legs:
        if not any(_passes_back(node, leg, freq_hz) for freq_hz in (band.low_hz, band.high_hz)):
            at = frequency(band.high_hz)
            cause = f"no figure says whether {node.tag} passes {at} from {leg.other.name} to {leg.one.name}"
            yield CannotJudge(Unknown(cause, node.path))
            return


def _return_band(service: ServiceNode) -> Band | None:
    up = service.service.up
    return up.band if up is not None and service.service.kind != "in-home data" else None


def _shows_modem(service: ServiceNode, context: CheckContext) -> bool:
    return any(device.device.kind == "cable modem" for device in context.network.outlets_of(service.tag))


def _answering(leg: PortPair, shows_modem: bool) -> list[DeviceNode]:
    """What has to answer behind a leg: modems; where the design shows none, whatever the service is wanted at."""
    return [device for device in leg.wanted if device.device.kind == "cable modem" or not shows_modem]


def _is_shut(node: DeviceNode, leg: PortPair, band: Band) -> bool:
    """Whether nothing of a band passes back: every frequency is stopped, or the device passes one way only."""
    entry = node.entry
    if entry is None:
        return False
    if not any(path.ends.join(leg.other, leg.one) for path in entry.paths):
        return True
    return all(entry.passes(leg.other.name, leg.one.name, freq_hz) is False for freq_hz in (band.low_hz, band.high_hz))


def _passes_back(node: DeviceNode, leg: PortPair, freq_hz: float) -> bool:
    return node.entry is None or node.entry.passes(leg.other.name, leg.one.name, freq_hz) is True


def _with_return(node: DeviceNode, context: CheckContext) -> str | None:
    """The device that is alike but passes the return path, where one is made."""
    own = options_of(node.device)
    for options, entry in context.network.catalogue.made(node.device.kind).items():
        if options.variant == "return path" and (options.ways, options.outputs) == (own.ways, own.outputs):
            return entry.name
    return None


def split_matches(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A device that parts up- and downstream does so where the service does."""
    node, service = passage.device, passage.service.service
    split, band = diplex_point(node), _return_band(passage.service)
    if split is None or band is None or service.down is None:
        yield DoesNotApply("it does not part the two directions")
        return
    if any(_is_shut(node, leg, band) for leg in passage.legs):
        yield DoesNotApply("it passes one direction only")
        return
    down = service.down.band
    shows_modem = _shows_modem(passage.service, context)
    answers = not passage.legs or any(_answering(leg, shows_modem) for leg in passage.legs)
    is_up_cut = answers and not at_most(band.high_hz, split.up_to_hz)
    is_down_cut = not at_least(down.low_hz, split.down_from_hz)
    if not is_up_cut and not is_down_cut:
        return
    if not split.is_stated:
        cause = (
            f"{node.tag} states no split, and the usual one of {_split_text(split)} does not suit {passage.service.tag}"
        )
        yield CannotJudge(Unknown(cause, (*node.path, "split")))
        return
    values = {
        "device": node.tag,
        "kind": article(kind_of(node.device)),
        "split": _split_text(split),
        "service": passage.service.tag,
        "up": _band_text(band),
        "down": _band_text(down),
        "suiting": _suiting(band, down),
        "lost": _lost(band.high_hz - split.up_to_hz if is_up_cut else split.down_from_hz - down.low_hz),
    }
    excess = max(band.high_hz - split.up_to_hz, split.down_from_hz - down.low_hz)
    case = "return cut" if is_up_cut else "forward cut"
    yield NotMet(case, (*node.path, "split"), values, excess=excess)


def _lost(width_hz: float) -> str:
    return f"{shown(width_hz / 1e6, 3)} MHz"


def _split_text(split: DiplexPoint) -> str:
    return f"{shown(split.up_to_hz / 1e6, 3)}/{shown(split.down_from_hz / 1e6, 3)} MHz"


def _band_text(band: Band) -> str:
    return f"{frequency(band.low_hz)} to {frequency(band.high_hz)}"


def _suiting(up: Band, down: Band) -> str:
    """The first split made that leaves both bands whole, else the service's own edges."""
    for up_to_mhz, down_from_mhz in _MADE_SPLITS:
        if at_most(up.high_hz, up_to_mhz * 1e6) and at_least(down.low_hz, down_from_mhz * 1e6):
            return f"{up_to_mhz}/{down_from_mhz} MHz"
    return f"{shown(up.high_hz / 1e6, 3)}/{shown(down.low_hz / 1e6, 3)} MHz"


_READS = (
    "services.*.from",
    "services.*.kind",
    "services.*.down",
    "services.*.up",
    "devices.*.kind",
    "devices.*.variant",
    "devices.*.outputs",
    "devices.*.serves",
    "devices.*.split",
    "cables.*.from",
    "cables.*.to",
)
_SHUT = ("device", "kind", "service", "band", "behind")
_SPLIT = ("device", "kind", "split", "service", "up", "down", "suiting", "lost")

CHECKS = (
    Check(
        name="path-open",
        each=PASSAGE,
        judge=path_open,
        cases={"with return path made": (*_SHUT, "made"), "one way": _SHUT},
        reads=_READS,
    ),
    Check(
        name="split-matches",
        each=PASSAGE,
        judge=split_matches,
        cases={"return cut": _SPLIT, "forward cut": _SPLIT},
        reads=_READS,
    ),
)
