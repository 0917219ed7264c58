"""Is the cable of the right class for its run?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, frequency, in_system, length_text, listed
from coaxwright.checks.selectors import RUN
from coaxwright.design.quantities import Length, LengthPair, Level, in_system_of
from coaxwright.network import CableLink, Known, Run, Unknown
from coaxwright.physics.comparison import at_most


def run_length(run: Run, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A run of cable is not longer than its class allows; a run of several classes uses up a share of each.

    A rule of thumb: where the level behind the run is known, that is judged instead (ANSI/TIA-570 plans by length only
    where no loss is computed; from memory).
    """
    assumed = frozenset(kind for (kind,) in limits.keys("usual hand-off"))
    if all(context.analysis.is_computed(link.tag, assumed) for link in run.cables):
        yield DoesNotApply("the levels behind it are computed, and judged instead")
        return
    used = 0.0
    classes: dict[str, Length] = {}
    total = run.length
    for link in run.cables:
        if not isinstance(link.type, CableType):
            yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
            return
        name = link.type.cable_class.name
        longest = limits.length("longest", name)
        if longest is None:
            yield DoesNotApply(f"no longest run is set for {name}")
            return
        if isinstance(total, Unknown):
            yield CannotJudge(total)
            return
        assert isinstance(link.length, Length)
        classes[name] = longest.for_author(total.is_metric)
        used += in_system(link.length, total.is_metric) / in_system(classes[name], total.is_metric)
    assert isinstance(total, Length)
    if at_most(used, 1.0):
        return
    allowed = next(iter(classes.values())) if len(classes) == 1 else in_system_of(total, total.length_m / used)
    over_m = total.length_m - allowed.length_m
    values = {
        "run": run.tags,
        "class": listed(list(classes)),
        "length": length_text(total, allowed),
        "longest": allowed.text,
        "over": in_system_of(total, over_m).text,
        "loss": _loss(run, context),
    }
    larger = _class_that_reaches(total, run.first, context, limits)
    if larger is not None:
        values["larger"], values["reach"] = larger
    at = (*run.first.path, "route" if run.first.segments else "length")
    cites = tuple(("longest", name) for name in classes)
    yield NotMet("larger made" if larger else "no class", at, values, cites=cites, excess=over_m)


def _class_that_reaches(
    total: Length, first: CableLink, context: CheckContext, limits: Limits
) -> tuple[str, str] | None:
    """The class of the same impedance with the shortest permitted run that is long enough."""
    assert isinstance(first.type, CableType)
    found: list[tuple[float, str, str]] = []
    for (name,) in limits.keys("longest"):
        pair, made = limits.length("longest", name), context.network.catalogue.classes.get(name)
        assert pair is not None
        limit = pair.for_author(total.is_metric)
        fits = made is not None and made.impedance_ohm == first.type.impedance_ohm
        if fits and at_most(in_system(total, total.is_metric), in_system(limit, total.is_metric)):
            found.append((limit.length_m, name, limit.text))
    return min(found)[1:] if found else None


def _loss(run: Run, context: CheckContext) -> str:
    """The run's loss at the top of what it carries, as a clause; empty where a figure is missing."""
    edges_hz = context.analysis.band_edges_hz(run.first)
    if edges_hz is None:
        return ""
    loss_db = 0.0
    for link in run.cables:
        loss = context.analysis.line_loss_db(link, edges_hz[1])
        if not isinstance(loss, Known):
            return ""
        loss_db += loss.nominal
    return f" and loses {decibels(loss_db)} at {frequency(edges_hz[1])}"


CHECKS = (
    Check(
        name="run-length",
        each=RUN,
        judge=run_length,
        cases={
            "larger made": ("run", "class", "length", "longest", "over", "loss", "larger", "reach"),
            "no class": ("run", "class", "length", "longest", "over", "loss"),
        },
        reads=(
            "cables.*.type",
            "cables.*.length",
            "cables.*.route",
            "cables.*.from",
            "cables.*.to",
            "services.*.down",
            "services.*.up",
            "services.*.channels",
        ),
        limits={
            "longest": LimitKind(LengthPair, by=("cable class",)),
            "usual hand-off": LimitKind(Level, by=("service",)),
        },
    ),
)
