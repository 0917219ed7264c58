"""Every limit with two systems of units has boundary examples in both: at the limit, one figure beyond, one inside.

What is compared is listened to while the check of a rule judges the rule's own examples: an example that only looks
like a boundary, and whose figure never meets the limit, does not count.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from math import isclose
from unittest.mock import patch

import pytest
from _pytest.mark.structures import ParameterSet

from coaxwright.analysis import Analysis
from coaxwright.catalogue.measures import Percent
from coaxwright.checks import AnyCheck, CheckContext, Limit, all_checks
from coaxwright.design import understand
from coaxwright.design.quantities import Conductor, LengthPair, Quantity, RoofSlope, Voltage, WireSize
from coaxwright.network import build_network
from coaxwright.physics import comparison
from coaxwright.reviewing.effective_rules import catalogue_of
from coaxwright.rules import EffectiveRules, Rule, combine, shipped_registry
from coaxwright.rules.examples import example_files, examples_of
from coaxwright.source import read_text

NEAR = 0.051
"""A figure one digit beyond a limit differs from it by no more than this share: 5.9 mm and 6 mm, 1.9 in and 2 in."""
NEXT_SIZE = 1.6
"""Two gauges further a wire has 1.59 times the area: ASTM B258."""
GAUGES_MM2 = [WireSize.parse(f"{gauge} AWG").area_mm2 for gauge in ("3/0", "2/0", "1/0", *range(1, 31))]
ALL = frozenset(("at", "beyond", "inside"))
NO_EXACT_SIZE = frozenset(("beyond", "inside"))
"""What is asked for a size in the other system, in which none is sold that is exactly as large."""

COMPARING = ("coaxwright.checks", "coaxwright.design.quantities")
"""The rooms in which figures meet limits: checks compare figures themselves, or ask the quantities to."""


@dataclass(frozen=True)
class Compared:
    """One comparison: a figure, its limit, and whether the figure may be as large or as small as that."""

    figure: float
    limit: float
    at_most: bool

    @property
    def side(self) -> str:
        if isclose(self.figure, self.limit, rel_tol=1e-9):
            return "at"
        return "inside" if (self.figure < self.limit) == self.at_most else "beyond"


@cache
def basis(labels: tuple[str, ...]) -> EffectiveRules:
    return combine(labels, shipped_registry())


@cache
def compared(rule: str, ruleset: str) -> tuple[Compared, ...]:
    """What the check of a rule compares in the boundary examples of a ruleset."""
    heard: list[Compared] = []

    def listening(name: str, genuine: Callable[[float, float], bool]) -> Callable[[float, float], bool]:
        def asked(figure: float, limit: float) -> bool:
            heard.append(Compared(figure, limit, name == "at_most"))
            return genuine(figure, limit)

        return asked

    all_checks()  # a check that is not there yet would not be listened to
    names = {"at_most": comparison.at_most, "at_least": comparison.at_least}
    listeners = {name: listening(name, genuine) for name, genuine in names.items()}
    modules = [module for name, module in sys.modules.items() if name.startswith(COMPARING)]
    places = [(module, name) for module in modules for name in names if hasattr(module, name)]
    patches = [patch.object(module, name, listeners[name]) for module, name in places]
    for one in patches:
        one.start()
    try:
        for example in examples_of(rule, [f"{ruleset} 1"]):
            if example.kind == "boundary" and example.ruleset == ruleset:
                document = read_text(example.design, "example.coax.yaml")
                design = understand(document)
                bound = basis(tuple(design.basis.rulesets)).rules[rule]
                network = build_network(design, catalogue_of(document, design)[0])
                judge(bound, bound.check, CheckContext(network, Analysis(network)))
    finally:
        for one in patches:
            one.stop()
    return tuple(heard)


def judge(rule: Rule, check: AnyCheck, site: CheckContext) -> None:
    for thing in check.each.select(site.network):
        tuple(check.judge(thing, site, rule.limits))


def lengths(pair: LengthPair, heard: tuple[Compared, ...]) -> Iterator[tuple[str, frozenset[str]]]:
    """For each system the sides of the limit on which a figure was compared with it, one digit off at most."""
    for system, limit in (("feet", pair.feet.length_ft), ("meters", pair.metric.length_m)):
        yield (
            system,
            frozenset(
                one.side
                for one in heard
                if isclose(one.limit, limit, rel_tol=1e-9) and abs(one.figure - one.limit) <= NEAR * limit
            ),
        )


def is_gauge(area_mm2: float) -> bool:
    return any(isclose(area_mm2, gauge_mm2, rel_tol=1e-9) for gauge_mm2 in GAUGES_MM2)


def sizes(size: Conductor, heard: tuple[Compared, ...]) -> Iterator[tuple[str, frozenset[str]]]:
    area_mm2 = size.size.area_mm2
    own = [one for one in heard if isclose(one.limit, area_mm2, rel_tol=1e-9)]
    by_gauge = [one for one in own if is_gauge(one.figure)]
    yield (
        "gauges",
        frozenset(one.side for one in by_gauge if 1 / NEXT_SIZE <= one.figure / one.limit <= NEXT_SIZE * 1.001),
    )
    yield (
        "mm²",
        frozenset(
            one.side for one in own if not is_gauge(one.figure) and abs(one.figure - one.limit) <= NEAR * area_mm2
        ),
    )


def wanted(limit: Limit, system: str) -> frozenset[str]:
    if isinstance(limit.value, LengthPair):
        return ALL
    assert isinstance(limit.value, Conductor)
    own = "mm²" if limit.value.size.gauge is None else "gauges"
    return ALL if system == own else NO_EXACT_SIZE


EXCEPTIONS: dict[tuple[str, str], str] = {
    ("bonding.conductor-present", "size"): "told as a remedy, and compared with nothing",
    ("bonding.conductor-length", "joining"): "told as a remedy, and compared with nothing",
    ("bonding.electrode-rod", "rod at the least"): "judged unlike by the editions; tests/units/checks has its boundary",
    (
        "bonding.conductor-size",
        "ceiling",
    ): "no cable of the catalogue has a shield that good; tests/units/checks has one",
    ("cable.class-suits-service", "longest lead"): "0 ft for the 58-types: no lead of them is short enough",
    ("cable.conductor-material", "thick"): "the diameter of a class, kept in meters whatever its author writes",
    ("cable.run-length", "longest"): "a run of several classes adds up shares, which are compared with one",
    ("jacket.listed-indoors", "thin"): "the diameter of a class, kept in meters whatever its author writes",
    ("route.raceway-fill", "inner diameter"): "a table of dimensions that a share is computed from",
}
"""Limits, by rule and name, that no boundary example of their ruleset shows, and why."""


def _limits() -> Iterator[tuple[str, Rule, Limit]]:
    shelf = shipped_registry()
    for ruleset in shelf.names:
        for rule in basis((shelf.newest(ruleset),)).rules.values():
            has_examples = any(
                file.parent.parent.name == ruleset and file.stem == rule.name for file in example_files()
            )
            for limit in rule.limits.all():
                is_own = has_examples and limit.origin.startswith(f"{ruleset} ")
                if is_own and isinstance(limit.value, LengthPair | Conductor):
                    yield ruleset, rule, limit


LIMITS = list(_limits())


def key(rule: Rule, limit: Limit) -> tuple[str, ...]:
    return (rule.name, limit.name, *limit.keys)


def _params() -> Iterator[ParameterSet]:
    for ruleset, rule, limit in LIMITS:
        if (rule.name, limit.name) not in EXCEPTIONS:
            yield pytest.param(ruleset, rule, limit, id=f"{ruleset}: {' / '.join(key(rule, limit))}")


@pytest.mark.parametrize(("ruleset", "rule", "limit"), list(_params()))
def test_a_limit_has_boundary_examples_in_both_systems(ruleset: str, rule: Rule, limit: Limit) -> None:
    heard = compared(rule.name, ruleset)
    shown = lengths(limit.value, heard) if isinstance(limit.value, LengthPair) else sizes(limit.value, heard)
    missing = {system: wanted(limit, system) - sides for system, sides in shown}
    assert {system: sides for system, sides in missing.items() if sides} == {}


FIGURES: dict[type[Quantity], str] = {Voltage: "voltage_v", RoofSlope: "rise_per_run", Percent: "share"}
"""Quantities of routes that both systems write alike, and the figure of each."""


@pytest.mark.parametrize("ruleset", ["trade", "us"])
def test_limits_of_routes_that_both_systems_write_alike(ruleset: str) -> None:
    """A share of a raceway cannot be met exactly; of it the figures on both sides are asked for."""
    seen = 0
    for rule in basis((shipped_registry().newest(ruleset),)).rules.values():
        for limit in rule.limits.all():
            figure = FIGURES.get(type(limit.value))
            if figure is None or rule.topic != "route" or not limit.origin.startswith(f"{ruleset} "):
                continue
            own: float = getattr(limit.value, figure)
            sides = {
                one.side
                for one in compared(rule.name, ruleset)
                if isclose(one.limit, own, rel_tol=1e-9) and abs(one.figure - own) <= NEAR * own
            }
            assert sides >= (NO_EXACT_SIZE if figure == "share" else ALL), key(rule, limit)
            seen += 1
    assert seen >= {"trade": 6, "us": 2}[ruleset]


def test_exceptions_are_limits_that_are_there_and_have_reasons() -> None:
    assert EXCEPTIONS.keys() <= {(rule.name, limit.name) for _, rule, limit in LIMITS}
    assert all(EXCEPTIONS.values())
