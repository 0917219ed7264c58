"""The window of a service at its outlets, in figures and in words, from the design or the rules that bind it."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf

from coaxwright.checks.level._shared import window_at
from coaxwright.design.quantities import Frequency, Level, LevelRange
from coaxwright.design.sentences import frequency, level_unit, listed
from coaxwright.network import DeviceNode, Direction, ServiceNode
from coaxwright.network.service_demand import ANSWERED
from coaxwright.physics.comparison import at_most
from coaxwright.reports.levels.units import level_figure
from coaxwright.rules import Rule

WINDOW_RULES = ("level.outlet-window", "satellite.if-level")
CLASS_RULE = "cable.class-suits-service"
RETURN_RULE = "return.upstream-level"
Rules = Mapping[str, Rule]
_FEW = 4
"""Of so many frequencies that have a window, where others have none, each is named."""


def limits_dbmv(
    node: ServiceNode, direction: Direction, outlet: DeviceNode, freq_hz: float, rules: Rules
) -> tuple[float | None, float | None]:
    """The least and greatest level [dBmV] at an outlet; upstream only what its modem can send at most."""
    if direction == "up":
        said = outlet.device.output_level
        highest = said.high if said is not None else _highest(node, rules)
        return None, highest.level_dbmv if highest is not None else None
    window = _window(node, freq_hz, rules, outlet)
    return (None, None) if window is None else (window.low.level_dbmv, window.high.level_dbmv)


def own_window(direction: Direction, outlet: DeviceNode) -> str:
    """What the design states of the receiver or modem itself; empty where it states nothing."""
    said = outlet.device.input_level if direction == "down" else outlet.device.output_level
    return said.text if said is not None else ""


def window_words(node: ServiceNode, direction: Direction, rules: Rules) -> tuple[str, str]:
    """The window of a service and where it is published; of several standards each with its name."""
    if direction == "up":
        highest = _highest(node, rules)
        limits = [limit for limit in rules[RETURN_RULE].limits.all() if limit.name == "highest"] if highest else []
        return (highest.text if highest else ""), "; ".join(str(limit.source) for limit in limits)
    unit = unit_of(node, direction, rules)
    said = node.service.at_outlets
    if said is not None and said.level is not None:
        return f"{said.level.text}{_also_in(said.level, unit)}", "stated by the design"
    channels = {channel.frequency.freq_hz: channel for channel in node.service.channels or ()}
    windows: dict[str, dict[str, None]] = {}
    where_hz: list[float] = []
    sources: dict[str, None] = {}
    for freq_hz in node.grid_hz(direction):
        window = _window(node, freq_hz, rules)
        if window is not None:
            where_hz.append(freq_hz)
            channel = channels.get(freq_hz)
            windows.setdefault(f"{window.text}{_also_in(window, unit)}", {})[
                (channel.standard if channel is not None else None) or "others"
            ] = None
            sources[_source(window, rules)] = None
    at = f", at {listed([frequency(freq_hz) for freq_hz in where_hz])}"
    is_everywhere = len(where_hz) == len(node.grid_hz(direction)) or len(where_hz) > _FEW
    texts = [text if len(windows) == 1 else f"{text} ({', '.join(names)})" for text, names in windows.items()]
    return ", ".join(texts) + ("" if is_everywhere or not where_hz else at), "; ".join(filter(None, sources))


def _also_in(window: LevelRange, unit: Level) -> str:
    """A window in the unit of the levels as well, where it is written in another."""
    if level_unit(window.low) == level_unit(unit) == level_unit(window.high):
        return ""
    low, high = (level_figure(level.level_dbmv, unit) for level in (window.low, window.high))
    return f", that is {low} to {high} {level_unit(unit)}"


def longest_suiting_m(node: ServiceNode, rules: Rules, cable_class: str) -> float:
    """How long [m] a class may be for a service apart from its level; 0 where it is not made for it at all."""
    rule = rules.get(CLASS_RULE)
    if rule is None:
        return inf
    highest = rule.limits.quantity(Frequency, "highest", cable_class)
    grid_hz = node.grid_hz("down")
    if highest is not None and grid_hz and not at_most(grid_hz[-1], highest.freq_hz):
        return 0.0
    lead = rule.limits.length("longest lead", cable_class, node.service.kind)
    return inf if lead is None else max(lead.feet.length_m, lead.metric.length_m)


def unit_of(node: ServiceNode, direction: Direction, rules: Rules) -> Level:
    """A level in the unit that the author uses, or else the window."""
    stream = node.service.down if direction == "down" else node.service.up
    if direction == "up":
        wanted = stream.wanted if stream is not None else None
        return wanted or _highest(node, rules) or Level.parse("0 dBmV")
    if stream is not None and stream.level:
        return stream.level[0].level
    window = next((found for freq_hz in node.grid_hz(direction) if (found := _window(node, freq_hz, rules))), None)
    return window.high if window is not None else Level.parse("0 dBmV")


def _window(node: ServiceNode, freq_hz: float, rules: Rules, outlet: DeviceNode | None = None) -> LevelRange | None:
    for name in WINDOW_RULES:
        found = window_at(node, freq_hz, rules[name].limits, outlet) if name in rules else None
        if found is not None:
            return found
    return None


def _highest(node: ServiceNode, rules: Rules) -> Level | None:
    """What a modem can send at most; of another service nobody says."""
    is_bound = RETURN_RULE in rules and node.service.kind == ANSWERED
    return rules[RETURN_RULE].limits.level("highest") if is_bound else None


def _source(window: LevelRange, rules: Rules) -> str:
    for name in WINDOW_RULES:
        for limit in rules[name].limits.all() if name in rules else ():
            if limit.name == "window" and limit.value is window:
                return str(limit.source)
    return ""
