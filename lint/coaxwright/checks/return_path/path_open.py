"""What answers over a two-way service can do so through every device that it is fed through.

At one end of the return band at least; where in it the device parts the directions is a question of its split.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.return_path._shared import answering, is_shut, return_band, shows_modem
from coaxwright.checks.selectors import PASSAGE
from coaxwright.design.value_types import BAND, FREQUENCY, TAG, TAGS, WORD
from coaxwright.design.value_types import Values as ValueTypes
from coaxwright.network import DeviceNode, Unknown
from coaxwright.network.device_passages import Passage, PortPair
from coaxwright.network.devices import kind_of, options_of


def path_open(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What answers over a two-way service can do so through every device that it is fed through."""
    node, band = passage.device, return_band(passage.service)
    is_modem_shown = shows_modem(passage.service, context)
    legs = [(leg, senders) for leg in passage.legs if (senders := answering(leg, is_modem_shown))]
    if band is None or not legs:
        yield DoesNotApply("nothing answers")
        return
    shut = [senders for leg, senders in legs if is_shut(node, leg, band)]
    if shut:
        values: dict[str, object] = {
            "device": node.tag,
            "kind": kind_of(node.device),
            "service": passage.service.tag,
            "band": band,
            "behind": list(dict.fromkeys(device.tag for senders in shut for device in senders)),
        }
        made = _with_return(node, context)
        case, values = ("one way", values) if made is None else ("with return path made", {**values, "made": made})
        turned = context.network.survey.backward(node.tag) is not None
        yield NotMet(case, node.path, values, at_key=True, involved=(node.path,) if turned else ())
        return
    for leg, _ in legs:
        if not any(_passes_back(node, leg, freq_hz) for freq_hz in (band.low_hz, band.high_hz)):
            ports = {"device": node.tag, "other": leg.other.name, "one": leg.one.name, "frequency": band.high_hz}
            yield CannotJudge(Unknown("no figure of the way back", node.path, ports))
            return


def _passes_back(node: DeviceNode, leg: PortPair, freq_hz: float) -> bool:
    return node.entry is None or node.entry.passes(leg.other.name, leg.one.name, freq_hz) is True


def _with_return(node: DeviceNode, context: CheckContext) -> str | None:
    """The device that is alike but passes the return path, where one is made."""
    own = options_of(node.device)
    if own.variant == "return path":
        return None
    for options, entry in context.network.catalogue.made(node.device.kind).items():
        if options.variant == "return path" and (options.ways, options.outputs) == (own.ways, own.outputs):
            return entry.name
    return None


_SHUT: ValueTypes = {"device": TAG, "kind": WORD, "service": TAG, "band": BAND, "behind": TAGS}

CHECK = Check(
    name="return.path-open",
    each=PASSAGE,
    judge=path_open,
    cases={"with return path made": {**_SHUT, "made": WORD}, "one way": _SHUT},
    cannot_judge={"no figure of the way back": {"device": TAG, "other": TAG, "one": TAG, "frequency": FREQUENCY}},
    does_not_apply={"nothing answers": {}},
)
