"""Levels of one design from Python; the command ``levels`` is a thin form over it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from coaxwright.analysis import Analysis
from coaxwright.errors import CoaxwrightError
from coaxwright.network import build_network
from coaxwright.network.tags import nearest_tag
from coaxwright.reports.levels import SiteLevels, site_levels
from coaxwright.reports.network_report.unused import read_units
from coaxwright.reviewing.site import read_site
from coaxwright.reviewing.what_if import suppose


class NoSuchTag(CoaxwrightError):
    """A service or outlet is asked for that the design has not."""


def levels(
    path: str | Path,
    *,
    services: Sequence[str] = (),
    outlet: str | None = None,
    suppositions: Sequence[str] = (),
    between: int = 0,
) -> SiteLevels:
    """What every outlet of a design gets, and what its modems have to send.

    services: only these, or none for all; outlet: only this one; suppositions: such as ``C-104 in series 11``, which
    leave the file as it is; between: how many frequencies to add between the edges of each band.
    Raises ReadError or NotUnderstood for a file that is not understood, SuppositionError and NoSuchTag for words that
    name nothing of the design.
    """
    site = read_site(path)
    design = suppose(site.design, site.data, suppositions, site.catalogue) if suppositions else site.design
    network = build_network(design, site.catalogue)
    for tag in services:
        _refuse_unknown(tag, network.services, f"the design has no service {tag!r}")
    if outlet is not None:
        wanting = dict.fromkeys(device.tag for tag in network.services for device in network.outlets_of(tag))
        is_there = outlet in network.devices
        words = f"no service is wanted at {outlet}" if is_there else f"the design has no outlet {outlet!r}"
        _refuse_unknown(outlet, wanting, words)
    return site_levels(
        site.document.name,
        Analysis(network),
        site.basis.rulesets,
        site.basis.rules,
        units={unit.tag: unit.like for unit in read_units(site.document)},
        only=services,
        outlet=outlet,
        suppositions=tuple(suppositions),
        between=between,
    )


def _refuse_unknown(tag: str, known: Iterable[str], words: str) -> None:
    tags = list(known)
    if tag not in tags:
        near = nearest_tag(tag, tags)
        raise NoSuchTag(words + (f"; did you mean {near!r}?" if near else ""))
