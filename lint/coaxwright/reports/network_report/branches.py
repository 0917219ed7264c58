"""The branches of a service's way, and which of them are alike but for the repeated unit that they lead into."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from coaxwright.frozen_value import frozen_value
from coaxwright.reports.network_report.network import ReadCable, Step
from coaxwright.reports.network_report.units import Units, listed_units

Words = Callable[[Step], tuple[str, ...]]
"""All that is told of a step: of its cable, and of the device at its far end."""


@frozen_value
class LeftOut:
    """Branches that are as the one before them, and need no telling."""

    start: int
    end: int
    """The step behind them."""
    text: str
    """Which they are, and where they begin."""


class Branches:
    """Answers for the steps of one service."""

    def __init__(self, steps: Sequence[Step], cables: dict[str, ReadCable], units: Units, words: Words) -> None:
        self.steps = steps
        self.cables = cables
        self.units = units
        self.words = words

    def end(self, at: int) -> int:
        """The step behind the branch that begins with a step."""
        depth = self.steps[at].depth
        at += 1
        while at < len(self.steps) and not (self.steps[at].divides and self.steps[at].depth <= depth):
            at += 1
        return at

    def inside(self, at: int) -> tuple[str, ...]:
        """What is told from the device at the end of a step on, without the name of its unit; nothing outside units."""
        unit = self.units.of(self.steps[at].device)
        end = self.end(at) if unit else at
        if end <= at + 1:
            return ()
        first = self.steps[at]
        told = [self.units.typical[unit], self.words(first)[-1]]
        for step in self.steps[at + 1 : end]:
            told += (str(step.depth - first.depth), str(step.divides), str(step.again), *self.words(step))
        return tuple(self.units.without(unit, text) for text in told)

    def alike(self, at: int) -> LeftOut | None:
        """The branches next to one, from the same device, that are as it is in other units."""
        unit = self._unit(at)
        if not unit:
            return None
        whole, near = self._whole(at), self._cable(at).near
        start = here = self.end(at)
        others: list[int] = []
        while here < len(self.steps) and self.steps[here].divides and self._cable(here).near.device == near.device:
            if self._unit(here) in ("", unit) or self._whole(here) != whole:
                break
            others.append(here)
            here = self.end(here)
        return LeftOut(start, here, self._text(others)) if others else None

    def _unit(self, at: int) -> str:
        step = self.steps[at]
        return self.units.of(step.cable) or self.units.of(step.device)

    def _cable(self, at: int) -> ReadCable:
        return self.cables[self.steps[at].cable]

    def _whole(self, at: int) -> tuple[str, ...]:
        """What is told of a branch, but for its unit, for the port where it begins, and for a cable from outside."""
        unit, cable = self._unit(at), self._cable(at)
        own = self.units.own(cable.tag) if self.units.of(cable.tag) else ""
        near = replace(cable.near, port="", written=cable.near.device)
        bare = repr(replace(cable, tag=own, near=near))
        end_words = self.words(self.steps[at])[-1]
        return (*(self.units.without(unit, text) for text in (bare, end_words)), *self.inside(at))

    def _text(self, others: list[int]) -> str:
        cables = [self._cable(at) for at in others]
        parts = [f"alike in {listed_units(self._unit(at) for at in others)}"]
        if not all(self.units.of(cable.tag) for cable in cables):
            parts.append(f"by {listed_units(cable.tag for cable in cables)}")
        if all(cable.near.port for cable in cables):
            parts.append(f"from {cables[0].near.device}.{listed_units(cable.near.port for cable in cables)}")
        return ", ".join(parts)
