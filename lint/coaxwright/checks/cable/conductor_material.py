"""A center conductor of solid copper where direct current or baseband video rides on the cable.

Copper-clad steel is sound for radio frequencies alone. Copper-clad aluminum is sound in thick feeders, and never for
new work in the thin centers of drop cable. Source: common practice, no source; video: trade articles on camera cabling.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from coaxwright.analysis.other_classes import SOLID_COPPER, in_class, smallest, with_option
from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import LengthPair, Resistance
from coaxwright.design.value_types import (
    FREQUENCY,
    NUMBER,
    QUANTITY,
    TAG,
    TAGS,
    TEXT,
    WORD,
    Phrase,
    Values,
    optional,
    phrase,
)
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, Feed, Unknown
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.line_loss import CrossSection, clad_center_ratio
from coaxwright.physics.skin_effect import COPPER_OHM_M, Metal

_STEEL = "copper-clad steel"
_ALUMINUM = "copper-clad aluminum"
_VIDEO = "camera video"
_LOW_END_HZ = 0.5e6
"""Where most of the energy of a video line lies. Source: common practice, no source."""
_STEEL_SHARE, _STEEL_PERMEABILITY = 0.103, 100.0
"""Of steel wire against copper; its permeability is 50 to 200. Source: from memory."""


def conductor_material(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Its center is of a metal that carries what rides on it."""
    feeds = context.network.feeds_over(link.tag)
    video = sorted(node.tag for node in context.network.services_on(link.tag) if node.service.kind == _VIDEO)
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    metal = link.type.center.name
    if metal == _ALUMINUM and link.cable.state != "existing" and _is_thin(link.type, limits):
        values: dict[str, object] = {"thickness": _mm(link.type.cable_class.center_diameter_m)}
        yield _not_met("clad aluminum", link, link.type, values, context, (("thick",),))
        return
    if not feeds and not video:
        yield DoesNotApply("nothing rides on it")
        return
    if metal != _STEEL:
        return
    if video:
        yield _not_met("video", link, link.type, {"services": video, "excess": _excess(link.type)}, context, ())
    else:
        yield _fed_over_steel(link, link.type, feeds, context, limits)


@frozen_value
class _Loop:
    """The resistance of the clad cables of a feed, out and back [ohm], and their tags."""

    feed: Feed
    ohm: float
    cables: tuple[str, ...]


def _fed_over_steel(
    link: CableLink, of: CableType, feeds: tuple[Feed, ...], context: CheckContext, limits: Limits
) -> Verdict:
    """By the feed whose clad cables resist most."""
    loops = [_clad_loop(feed) for feed in feeds]
    unknown = next((loop for loop in loops if isinstance(loop, Unknown)), None)
    if unknown is not None:
        return CannotJudge(unknown)
    worst = max((loop for loop in loops if isinstance(loop, _Loop)), key=lambda loop: loop.ohm)
    harmless = limits.one(Resistance, "harmless")
    values = {
        "fed": worst.feed.device.tag,
        "harmless": harmless,
        "loop": Phrase("ohm", {"loop": worst.ohm}),
        "cables": list(worst.cables),
        "length": link.length,
        **_drops(link, of, worst.feed),
    }
    case = "short feed" if at_most(worst.ohm, harmless.resistance_ohm) else "feed"
    return _not_met(case, link, of, values, context, (("harmless",),))


def _clad_loop(feed: Feed) -> _Loop | Unknown:
    total_ohm = 0.0
    tags: list[str] = []
    for link in (leg.cable for leg in feed.legs if leg.cable is not None):
        if not isinstance(link.type, CableType) or link.type.center.name != _STEEL:
            continue
        own_ohm = _loop_ohm(link, link.type)
        if isinstance(own_ohm, Unknown):
            return own_ohm
        total_ohm += own_ohm
        tags.append(link.tag)
    return _Loop(feed, total_ohm, tuple(tags))


def _loop_ohm(link: CableLink, of: CableType) -> float | Unknown:
    """The resistance of center and shield together over the length of a cable [ohm]."""
    center, shield = of.center_resistance_ohm_per_m, of.shield_resistance_ohm_per_m
    if center is None or shield is None:
        return Unknown("no resistance", (*link.path, "type"), {"class": of.cable_class.name})
    return link.length if isinstance(link.length, Unknown) else (center + shield) * link.length.length_m


def _drops(link: CableLink, of: CableType, feed: Feed) -> dict[str, object]:
    """The volts that this cable takes, per ampere and of the current that is stated; with a copper center as well."""
    now_ohm = _loop_ohm(link, of)
    if isinstance(now_ohm, Unknown) or isinstance(link.length, Unknown):
        return {}
    copper, center_ohm_per_m = of.cable_class.centers.get(SOLID_COPPER), of.center.resistance_ohm_per_m
    values: dict[str, object] = {"volts": Phrase("volts", {"volts": now_ohm})}
    if copper is not None and copper.resistance_ohm_per_m is not None and center_ohm_per_m is not None:
        with_ohm = now_ohm + (copper.resistance_ohm_per_m - center_ohm_per_m) * link.length.length_m
        values["with_copper"] = Phrase("volts", {"volts": with_ohm})
    current = feed.device.device.current
    if current is not None:
        drawn = {"volts": now_ohm * current.current_a, "current": current, "device": feed.device.tag}
        values["of_current"] = Phrase("drawn", drawn)
    return values


def _excess(of: CableType) -> Phrase | None:
    """How much more a clad center loses at the low end of video than one of copper.

    The exact two-layer solution for the cladding that gives the center its resistance beside steel of 10.3 % of copper
    and a permeability of 100 (from memory); None where a resistance is not known.
    """
    copper = of.cable_class.centers.get(SOLID_COPPER)
    made = of.cable_class
    if copper is None or not copper.resistance_ohm_per_m or not of.center.resistance_ohm_per_m:
        return None
    share = copper.resistance_ohm_per_m / of.center.resistance_ohm_per_m
    clad_area = (share - _STEEL_SHARE) / (1 - _STEEL_SHARE)
    if not 0 < clad_area < 1 or not made.dielectric_diameter_m > made.center_diameter_m:
        return None
    line = CrossSection(
        made.dielectric_diameter_m,
        made.center_diameter_m,
        made.velocity_factor,
        center=Metal(COPPER_OHM_M / _STEEL_SHARE, _STEEL_PERMEABILITY),
        cladding_m=made.center_diameter_m / 2 * (1 - sqrt(1 - clad_area)),
    )
    return Phrase("times", {"frequency": _LOW_END_HZ, "times": clad_center_ratio(_LOW_END_HZ, line)})


def _is_thin(of: CableType, limits: Limits) -> bool:
    return not at_least(of.cable_class.center_diameter_m, limits.one(LengthPair, "thick").metric.length_m)


def _mm(length_m: float) -> Phrase:
    return Phrase("mm", {"mm": length_m * 1e3})


def _not_met(
    case: str,
    link: CableLink,
    of: CableType,
    values: dict[str, object],
    context: CheckContext,
    cites: tuple[tuple[str, ...], ...],
) -> NotMet:
    """With the same type in copper, or the class nearest to it that is made so."""
    at, suiting = (*link.path, "type"), _in_copper(of, context)
    values = {
        "cable": link.tag,
        "center": of.center.name,
        "how": Phrase("assumed") if "center" in of.defaulted else None,
        "suiting": Phrase("type", {"type": suiting}) if suiting else Phrase("other"),
    } | values
    if case == "clad aluminum":
        del values["how"]
    return NotMet(case, at, values, mend=Correction(at, suiting) if suiting else None, cites=cites)


def _in_copper(of: CableType, context: CheckContext) -> str | None:
    catalogue = context.network.catalogue
    suiting = with_option(of, SOLID_COPPER, of.cable_class.centers, catalogue)
    if suiting is not None:
        return suiting
    diameter_m = of.cable_class.dielectric_diameter_m
    found = smallest(
        of.impedance_ohm,
        catalogue,
        lambda made: SOLID_COPPER in made.centers and at_least(made.dielectric_diameter_m, diameter_m),
        drops_only=False,
    )
    return in_class(of, found.name, catalogue) if found is not None else None


_VOLTS = phrase(volts={"volts": NUMBER})
_VALUES: Values = {"cable": TAG, "center": WORD, "suiting": phrase(type={"type": TEXT}, other={})}
_HOW: Values = {**_VALUES, "how": optional(phrase(assumed={}))}
_FEED: Values = {
    **_HOW,
    "fed": TAG,
    "volts": _VOLTS,
    "with_copper": optional(_VOLTS),
    "of_current": optional(phrase(drawn={"volts": NUMBER, "current": QUANTITY, "device": TAG})),
    "length": QUANTITY,
    "loop": phrase(ohm={"loop": NUMBER}),
    "cables": TAGS,
    "harmless": QUANTITY,
}

CHECK = Check(
    name="cable.conductor-material",
    each=CABLE,
    judge=conductor_material,
    cases={
        "feed": _FEED,
        "short feed": _FEED,
        "video": {
            **_HOW,
            "services": TAGS,
            "excess": optional(phrase(times={"frequency": FREQUENCY, "times": NUMBER})),
        },
        "clad aluminum": {**_VALUES, "thickness": phrase(mm={"mm": NUMBER})},
    },
    cannot_judge={"no resistance": {"class": WORD}},
    does_not_apply={"nothing rides on it": {}},
    limits={"harmless": LimitKind(Resistance), "thick": LimitKind(LengthPair)},
)
