"""A run of cable is not longer than its class allows; a run of several classes uses up a share of each.

sum of length / longest <= 1. A rule of thumb for where the levels behind the run are not computed (ANSI/TIA-570 plans
by length only where no loss is; from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coaxwright.analysis import USUAL_LEVEL
from coaxwright.catalogue import CableType
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import RUN
from coaxwright.design.quantities import Length, LengthPair, Level, in_system, in_system_of, is_at_most
from coaxwright.design.value_types import (
    DECIBELS,
    FREQUENCY,
    LENGTH,
    TAG,
    WORD,
    WORDS,
    Derived,
    Phrase,
    optional,
    phrase,
)
from coaxwright.frozen_value import frozen_value
from coaxwright.network import Known, Run, Unknown
from coaxwright.physics.comparison import at_most


def run_length(run: Run, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The run uses up no more than the whole of what its classes allow."""
    assumed = frozenset(kind for (kind,) in limits.keys(USUAL_LEVEL))
    if all(context.analysis.is_computed(link.tag, assumed) for link in run.cables):
        yield DoesNotApply("levels computed")
        return
    use = _use_of(run, limits)
    if not isinstance(use, _Use):
        yield use
        return
    if at_most(use.share, 1.0):
        return
    classes = list(use.longest)
    allowed = use.longest[classes[0]] if len(classes) == 1 else in_system_of(use.total, use.total.length_m / use.share)
    over_m = use.total.length_m - allowed.length_m
    values = {
        "run": run.tags,
        "class": classes,
        "length": use.total,
        "longest": allowed,
        "over": Derived(over_m, use.total),
        "loss": _loss(run, context),
    }
    at = (*run.first.path, "route" if run.first.segments else "length")
    cites = tuple(("longest", name) for name in classes)
    larger = _class_that_reaches(use, context, limits)
    if larger is None:
        yield NotMet("no class", at, values, cites=cites, excess=over_m)
    else:
        values |= {"larger": larger[0], "reach": larger[1]}
        yield NotMet("larger made", at, values, cites=cites, excess=over_m)


@frozen_value
class _Use:
    """How long a run is, and how much of what its classes allow it uses up."""

    total: Length
    share: float
    longest: Mapping[str, Length]
    """By class, in the author's system."""
    impedance_ohm: float
    """Of the cable that stands for it."""


def _use_of(run: Run, limits: Limits) -> _Use | CannotJudge | DoesNotApply:
    share, impedance_ohm = 0.0, 0.0
    classes: dict[str, Length] = {}
    total = run.length
    for link in run.cables:
        if not isinstance(link.type, CableType):
            return CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        name = link.type.cable_class.name
        longest = limits.row(LengthPair, "longest", name)
        if longest is None:
            return DoesNotApply("no longest run", {"class": name})
        if isinstance(total, Unknown):
            return CannotJudge(total)
        if isinstance(link.length, Unknown):
            return CannotJudge(link.length)
        classes[name] = longest.for_author(total.is_metric)
        share += in_system(link.length, total.is_metric) / in_system(classes[name], total.is_metric)
        if link is run.first:
            impedance_ohm = link.type.impedance_ohm
    return CannotJudge(total) if isinstance(total, Unknown) else _Use(total, share, classes, impedance_ohm)


def _class_that_reaches(use: _Use, context: CheckContext, limits: Limits) -> tuple[str, Length] | None:
    """The class of the same impedance with the shortest permitted run that is long enough, and that run."""
    found: list[tuple[float, str, Length]] = []
    for (name,) in limits.keys("longest"):
        pair, made = limits.row(LengthPair, "longest", name), context.network.catalogue.classes.get(name)
        if pair is None or made is None or made.impedance_ohm != use.impedance_ohm:
            continue
        limit = pair.for_author(use.total.is_metric)
        if is_at_most(use.total, limit):
            found.append((limit.length_m, name, limit))
    return min(found, key=lambda reach: reach[:2])[1:] if found else None


def _loss(run: Run, context: CheckContext) -> Phrase | None:
    """The run's loss at the top of what it carries; None where a figure is missing."""
    edges_hz = context.analysis.band_edges_hz(run.first)
    if edges_hz is None:
        return None
    losses = [context.analysis.line_loss_db(link, edges_hz[1]) for link in run.cables]
    known = [loss.nominal for loss in losses if isinstance(loss, Known)]
    return Phrase("loses", {"loss": sum(known), "frequency": edges_hz[1]}) if len(known) == len(losses) else None


_RUN = {
    "run": TAG,
    "class": WORDS,
    "length": LENGTH,
    "longest": LENGTH,
    "over": LENGTH,
    "loss": optional(phrase(loses={"loss": DECIBELS, "frequency": FREQUENCY})),
}

CHECK = Check(
    name="cable.run-length",
    each=RUN,
    judge=run_length,
    cases={"larger made": {**_RUN, "larger": WORD, "reach": LENGTH}, "no class": _RUN},
    does_not_apply={"levels computed": {}, "no longest run": {"class": WORD}},
    limits={
        "longest": LimitKind(LengthPair, by=("cable class",)),
        USUAL_LEVEL: LimitKind(Level, by=("service",)),
    },
)
