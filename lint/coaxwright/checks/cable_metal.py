"""Is the centre conductor of a metal that carries what runs over it: direct current, baseband video?"""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from coaxwright.analysis.other_classes import SOLID_COPPER, in_class, smallest, with_option
from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import frequency, listed
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import Length, LengthPair, Resistance, shown
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, Feed, Unknown
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.line_loss import CrossSection, clad_centre_ratio
from coaxwright.physics.skin_effect import COPPER_OHM_M, Metal

_STEEL = "copper-clad steel"
_ALUMINIUM = "copper-clad aluminium"
_VIDEO = "camera video"
_LOW_END_HZ = 0.5e6
"""Where most of the energy of a video line lies. Source: common practice, no source."""
_STEEL_SHARE, _STEEL_PERMEABILITY = 0.103, 100.0
"""Of steel wire against copper; its permeability is 50 to 200. Source: from memory."""


def conductor_material(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A centre of solid copper where direct current or baseband video rides on the cable.

    Copper-clad steel is sound for radio frequencies alone. Copper-clad aluminium is sound in thick feeders, and never
    for new work in the thin centres of drop cable.
    """
    feeds = context.network.feeds_over(link.tag)
    video = sorted(one.tag for one in context.network.services_on(link.tag) if one.service.kind == _VIDEO)
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    metal = link.type.centre.name
    if metal == _ALUMINIUM and link.cable.state != "existing" and _is_thin(link.type, limits):
        yield _not_met("clad aluminium", link, link.type, {}, context, (("thick",),))
        return
    if not feeds and not video:
        yield DoesNotApply("neither direct current nor baseband video rides on it")
        return
    if metal != _STEEL:
        return
    if video:
        values = {"services": listed(video), "excess": _excess(link.type)}
        yield _not_met("video", link, link.type, values, context, ())
        return
    harmless = limits.quantity(Resistance, "harmless")
    assert harmless is not None
    loops = [_clad_loop(feed) for feed in feeds]
    unknown = next((loop for loop in loops if isinstance(loop, Unknown)), None)
    if unknown is not None:
        yield CannotJudge(unknown)
        return
    worst, feed = max(((loop, feed) for loop, feed in zip(loops, feeds, strict=True) if isinstance(loop, _Loop)),
                      key=lambda one: one[0].ohm)  # fmt: skip
    values = {"fed": feed.device.tag, "harmless": harmless.text, **_drops(link, link.type, feed)}
    values |= {"loop": f"{shown(worst.ohm, 2)} ohm", "cables": listed(list(worst.cables))}
    case = "short feed" if at_most(worst.ohm, harmless.resistance_ohm) else "feed"
    yield _not_met(case, link, link.type, values, context, (("harmless",),))


@frozen_value
class _Loop:
    """The resistance of the clad cables of a feed, out and back [ohm], and their tags."""

    ohm: float
    cables: tuple[str, ...]


def _clad_loop(feed: Feed) -> _Loop | Unknown:
    total_ohm = 0.0
    tags: list[str] = []
    for link in (leg.cable for leg in feed.legs if leg.cable is not None):
        if not isinstance(link.type, CableType) or link.type.centre.name != _STEEL:
            continue
        per_m = _loop_ohm_per_m(link.type)
        if per_m is None:
            name = link.type.cable_class.name
            return Unknown(f"no resistance of {name} with this shield and centre is known", (*link.path, "type"))
        if isinstance(link.length, Unknown):
            return link.length
        total_ohm += per_m * link.length.length_m
        tags.append(link.tag)
    return _Loop(total_ohm, tuple(tags))


def _loop_ohm_per_m(of: CableType) -> float | None:
    centre, shield = of.centre_resistance_ohm_per_m, of.shield_resistance_ohm_per_m
    return centre + shield if centre is not None and shield is not None else None


def _drops(link: CableLink, of: CableType, feed: Feed) -> dict[str, str]:
    """The volts that this cable takes, per ampere and of the current that is stated; with a copper centre as well."""
    now = _loop_ohm_per_m(of)
    assert now is not None  # the loop was computed
    assert isinstance(link.length, Length)
    now_ohm = now * link.length.length_m
    copper = of.cable_class.centres.get(SOLID_COPPER)
    values = {"volts": f"{shown(now_ohm, 2)} V", "with_copper": "", "length": link.length.text}
    if copper is not None and copper.resistance_ohm_per_m is not None and of.centre.resistance_ohm_per_m is not None:
        with_ohm = (now - of.centre.resistance_ohm_per_m + copper.resistance_ohm_per_m) * link.length.length_m
        values["with_copper"] = f", {shown(with_ohm, 2)} V with a copper centre"
    current = feed.device.device.current
    values["of_current"] = (
        f" ({shown(now_ohm * current.current_a, 2)} V at the {current.text} that {feed.device.tag} draws)"
        if current is not None
        else ""
    )
    return values


def _excess(of: CableType) -> str:
    """How much more a clad centre loses at the low end of video than one of copper, as a clause.

    The exact two-layer solution for the cladding that gives the centre its resistance beside steel of 10.3 % of copper
    and a permeability of 100 (from memory); empty where a resistance is not known.
    """
    copper = of.cable_class.centres.get(SOLID_COPPER)
    made = of.cable_class
    if copper is None or not copper.resistance_ohm_per_m or not of.centre.resistance_ohm_per_m:
        return ""
    share = copper.resistance_ohm_per_m / of.centre.resistance_ohm_per_m
    clad_area = (share - _STEEL_SHARE) / (1 - _STEEL_SHARE)
    if not 0 < clad_area < 1 or not made.dielectric_diameter_m > made.centre_diameter_m:
        return ""
    line = CrossSection(
        made.dielectric_diameter_m,
        made.centre_diameter_m,
        made.velocity_factor,
        centre=Metal(COPPER_OHM_M / _STEEL_SHARE, _STEEL_PERMEABILITY),
        cladding_m=made.centre_diameter_m / 2 * (1 - sqrt(1 - clad_area)),
    )
    times = clad_centre_ratio(_LOW_END_HZ, line)
    return f"; at {frequency(_LOW_END_HZ)} it loses about {shown(times, 1)} times as much as with a copper one"


def _is_thin(of: CableType, limits: Limits) -> bool:
    thick = limits.length("thick")
    assert thick is not None
    return not at_least(of.cable_class.centre_diameter_m, thick.metric.length_m)


def _not_met(
    case: str,
    link: CableLink,
    of: CableType,
    values: dict[str, str],
    context: CheckContext,
    cites: tuple[tuple[str, ...], ...],
) -> NotMet:
    """With the same type in copper, or the class nearest to it that is made so."""
    catalogue = context.network.catalogue
    suiting = with_option(of, SOLID_COPPER, of.cable_class.centres, catalogue)
    if suiting is None:
        diameter_m = of.cable_class.dielectric_diameter_m
        found = smallest(
            of.impedance_ohm,
            catalogue,
            lambda made: SOLID_COPPER in made.centres and at_least(made.dielectric_diameter_m, diameter_m),
            drops_only=False,
        )
        suiting = in_class(of, found.name, catalogue) if found is not None else None
    at = (*link.path, "type")
    wire = of.cable_class.centre_diameter_m
    values = {
        "cable": link.tag,
        "centre": of.centre.name,
        "thickness": f"{shown(wire * 1e3, 2)} mm",
        "how": " (its type says no other)" if "centre" in of.defaulted else "",
        "suiting": f"'{suiting}'" if suiting else "a cable of the same impedance with a centre of solid copper",
    } | values
    return NotMet(case, at, values, mend=Correction(at, suiting) if suiting else None, cites=cites)


_VALUES = ("cable", "centre", "how", "suiting")
_FEED = (*_VALUES, "fed", "volts", "with_copper", "of_current", "length", "loop", "cables", "harmless")

CHECKS = (
    Check(
        name="conductor-material",
        each=CABLE,
        judge=conductor_material,
        cases={
            "feed": _FEED,
            "short feed": _FEED,
            "video": (*_VALUES, "services", "excess"),
            "clad aluminium": (*_VALUES, "thickness"),
        },
        reads=(
            "cables.*.type",
            "cables.*.route",
            "cables.*.length",
            "cables.*.from",
            "cables.*.to",
            "cables.*.state",
            "services.*.kind",
            "devices.*.kind",
            "devices.*.ports",
        ),
        limits={"harmless": LimitKind(Resistance), "thick": LimitKind(LengthPair)},
    ),
)
