"""Supposing something else than the design says, without touching its file: another class, level, amplifier, pad."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from copy import deepcopy
from typing import Any

from coaxwright.catalogue import CableType, Catalogue, UnknownWords
from coaxwright.design import Design
from coaxwright.design.quantities import Decibels, LevelAt
from coaxwright.errors import CoaxwrightError
from coaxwright.network import CableLink, Network, build_network
from coaxwright.network.tags import nearest_tag

EXAMPLES = (
    "'C-104 in series 11'",
    "'amplifier of 12 dB ahead of SP1'",
    "'pad of 6 dB ahead of LIV'",
    "'broadband with 12 dBmV at 54 MHz, 8 dBmV at 1002 MHz'",
)
_TYPE = re.compile(r"(?P<tag>.+?) in (?P<type>.+)")
_PART = re.compile(r"(?P<what>amplifier|pad) of (?P<value>.+?) ahead of (?P<tag>.+)")
_HANDOFF = re.compile(r"(?P<tag>.+?) with (?P<levels>.+)")

Data = dict[str, Any]


class SuppositionError(CoaxwrightError):
    """A supposition that names nothing of the design, or is none; the text says what would do."""


def suppose(
    design: Design, data: Mapping[str, Any], texts: Iterable[str], catalogue: Catalogue | None = None
) -> Design:
    """The design as it would be; ``data`` is the plain data it was made of.

    Raises SuppositionError for a text that is not understood.
    """
    changed: Data = deepcopy(dict(data))
    for number, text in enumerate(texts, start=1):
        _apply(build_network(design, catalogue), changed, text.strip(), number)
        design = Design.model_validate(changed)
    return design


def _apply(network: Network, data: Data, text: str, number: int) -> None:
    forms: tuple[tuple[re.Pattern[str], Callable[[Network, Data, re.Match[str], int], None]], ...] = (
        (_PART, _insert),
        (_HANDOFF, _hand_off),
        (_TYPE, _retype),
    )
    for pattern, act in forms:
        match = pattern.fullmatch(text)
        if match is not None:
            act(network, data, match, number)
            return
    raise SuppositionError(f"{text!r} is not understood; write it like {', '.join(EXAMPLES)}")


def _retype(network: Network, data: Data, match: re.Match[str], number: int) -> None:
    tag = _known(match["tag"], network.cables, "cable")
    wanted = network.catalogue.cable_type(match["type"])
    if isinstance(wanted, UnknownWords):
        raise SuppositionError(wanted.message)
    now = network.cables[tag].type
    jackets = [jacket.name for jacket in now.jackets] if isinstance(now, CableType) else []
    kept = [name for name in jackets if name in wanted.cable_class.jackets] if "jacket" in wanted.defaulted else []
    data["cables"][tag] = {**data["cables"][tag], "type": " ".join((match["type"], *kept))}


def _hand_off(network: Network, data: Data, match: re.Match[str], number: int) -> None:
    tag = _known(match["tag"], network.services, "service")
    levels = [level.strip() for level in match["levels"].split(",")]
    for level in levels:
        LevelAt.parse(level)
    service = data["services"][tag]
    down = service.get("down")
    if down is None:
        raise SuppositionError(
            f"{tag} states no downstream band ('down'), so it has no level at the demarcation point there"
        )
    data["services"][tag] = {**service, "down": {**down, "level": levels}}


def _insert(network: Network, data: Data, match: re.Match[str], number: int) -> None:
    tag, port = _spot(match["tag"], network)
    value = Decibels.parse(match["value"]).text
    if not Decibels.parse(value).ratio_db > 0:
        raise SuppositionError(f"{match['what']} of {value}: write a figure above 0 dB")
    link = _cable_into(network, tag, port)
    part = f"supposed {match['what']} {number}"
    if match["what"] == "pad":
        made = [options.value_db for options in network.catalogue.made("attenuator")]
        if Decibels.parse(value).ratio_db not in made:
            known = ", ".join(f"{part:g} dB" for part in made if part is not None)
            raise SuppositionError(f"no pad of {value} is made; there are {known}")
        device: Data = {"kind": "attenuator", "value": value}
    else:
        device = {"kind": "drop amplifier", "outputs": 1, "variant": "return path", "gain": value}
    end = str(link.far.path[-1])  # `from` or `to`, whichever lies at the device
    cable = data["cables"][link.tag]
    data["devices"] = {**data["devices"], part: device}
    jumper = {"from": f"{part}.out", "to": cable[end], "type": cable["type"], "length": "0 ft"}
    data["cables"] = {**data["cables"], link.tag: {**cable, end: f"{part}.in"}, f"{part} jumper": jumper}


def _spot(text: str, network: Network) -> tuple[str, str | None]:
    """A device, or a device and one of its ports: ``MS.terrestrial``."""
    device, dot, port = text.rpartition(".")
    if not dot or text in network.devices or device not in network.devices:
        return _known(text, network.devices, "device"), None
    return device, _known(port, [port.name for port in network.devices[device].ports], f"port of {device}")


def _cable_into(network: Network, device: str, port: str | None) -> CableLink:
    into = [
        link
        for link in network.cables_at(device)
        if link.in_use and link.far.device is not None and link.far.device.tag == device
    ]
    if port is not None:
        into = [link for link in into if link.far.port is not None and link.far.port.name == port]
    if len(into) == 1:
        return into[0]
    spot = device if port is None else f"{device}.{port}"
    if not into:
        raise SuppositionError(f"no cable leads into {spot}, so nothing can be put ahead of it")
    ports = [f"{device}.{link.far.port.name}" for link in into if link.far.port is not None]
    raise SuppositionError(f"several cables lead into {spot}: say ahead of which, such as {', '.join(ports)}")


def _known(tag: str, things: Iterable[str], kind: str) -> str:
    known = list(things)
    if tag in known:
        return tag
    near = nearest_tag(tag, known)
    hint = f"; did you mean {near!r}?" if near else ""
    raise SuppositionError(f"the design has no {kind} {tag!r}{hint}")
