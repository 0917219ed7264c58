"""Several ways to one port, each for frequencies of its own, told as one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce
from itertools import takewhile

from coaxwright.analysis.path_loss import Loss, Losses, Step
from coaxwright.network.signals import Arrival


def losses_together(losses: Losses, arrivals: Sequence[Arrival]) -> tuple[Loss, ...]:
    """The whole loss to a port at each frequency of the grid, by the way that the frequency comes."""
    if len(arrivals) == 1:  # as almost always
        return losses.to(arrivals[0])
    return _filled(losses.to(arrival) for arrival in arrivals)


def chain_together(losses: Losses, arrivals: Sequence[Arrival]) -> tuple[Step, ...]:
    """The steps of all ways: those at both ends that they share once, between them one way behind the other.

    A step of which a frequency does not come has no loss there, so that the losses of all steps still add up to the
    whole. A part between two stretches that ways do not share stands once for each way.
    """
    return reduce(_merged, (losses.chain(arrival) for arrival in arrivals), ())


def _merged(one: tuple[Step, ...], other: tuple[Step, ...]) -> tuple[Step, ...]:
    if not one:
        return other
    ahead = _alike(one, other)
    behind = _alike(one[ahead:][::-1], other[ahead:][::-1])
    ends = len(one) - behind, len(other) - behind
    shared = [_both(*pair) for pair in zip(one[:ahead], other[:ahead], strict=True)]
    last = [_both(*pair) for pair in zip(one[ends[0] :], other[ends[1] :], strict=True)]
    return (*shared, *one[ahead : ends[0]], *other[ahead : ends[1]], *last)


def _alike(one: Sequence[Step], other: Sequence[Step]) -> int:
    """How many steps both begin with."""
    pairs = zip(one, other, strict=False)
    return sum(1 for _ in takewhile(lambda pair: pair[0].what == pair[1].what and _is_same(*pair), pairs))


def _is_same(one: Step, other: Step) -> bool:
    """Whether it is the same step: a device passed from and to the same ports, or the same cable."""
    ports = [
        (step.arrival.before.port.name if step.arrival.before else "", step.arrival.port.name) for step in (one, other)
    ]
    return one.is_cable == other.is_cable and (one.is_cable or ports[0] == ports[1])


def _both(one: Step, other: Step) -> Step:
    return Step(one.arrival, one.what, one.is_cable, _filled((one.losses, other.losses)))


def _filled(rows: Iterable[tuple[Loss, ...]]) -> tuple[Loss, ...]:
    return tuple(next((loss for loss in column if loss is not None), None) for column in zip(*rows, strict=True))
