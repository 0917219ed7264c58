"""Is the line one impedance from port to port?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import Joint, joint, ripple
from coaxwright.checks.contract import CannotJudge, Check, NotMet, Site, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, listed, megahertz, ohms
from coaxwright.checks.selectors import CABLE_END, Plugged
from coaxwright.design.quantities import Decibels, shown
from coaxwright.physics.comparison import at_least
from coaxwright.plant import CableLink, Known, Unknown


def port_match(plugged: Plugged, site: Site, limits: Limits) -> Iterator[Verdict]:
    """A cable's impedance is that of the port it is joined to."""
    link, end = plugged.link, plugged.end
    here = joint(link, end)
    if isinstance(here, Unknown):
        yield CannotJudge(here)
        return
    least = limits.decibels("return loss")
    assert least is not None and end.device is not None
    if at_least(here.return_loss_db, least.ratio_db):
        return
    fitting = [name for name, made in site.plant.catalogue.classes.items() if made.impedance_ohm == here.port_ohm]
    values = {
        "cable": link.tag,
        "device": end.device.tag,
        "kind": end.device.device.kind,
        "cable_ohm": ohms(here.cable_ohm),
        "port_ohm": ohms(here.port_ohm),
        "return_loss": decibels(here.return_loss_db),
        "least": least.text,
        "reflected": f"{shown(100 * here.reflected_share, 1)} %",
        "ripple": _ripple(link, site),
        "classes": listed(fitting, "or"),
    }
    yield NotMet("class made" if fitting else "no class", end.path, values, facet=str(end.path[-1]))


def _ripple(link: CableLink, site: Site) -> str:
    """What both ends together do to the level, as a clause; empty where one end is sound or a figure is missing."""
    near, far = joint(link, link.near), joint(link, link.far)
    edges_hz = site.analysis.band_edges_hz(link)
    if not isinstance(near, Joint) or not isinstance(far, Joint) or edges_hz is None:
        return ""
    loss_db = site.analysis.line_loss_db(link, edges_hz[0])
    swing = ripple(link, near, far, loss_db) if isinstance(loss_db, Known) else None
    if swing is None:
        return ""
    peak_to_peak_db = swing.up_db - swing.down_db
    return f"; both ends together ripple the level by up to {decibels(peak_to_peak_db)}, every {megahertz(swing.period_hz)}"


CHECKS = (
    Check(
        name="port-match",
        each=CABLE_END,
        judge=port_match,
        cases={
            case: ("cable", "device", "kind", "cable_ohm", "port_ohm", "return_loss", "least", "reflected", "ripple", *more)
            for case, more in (("class made", ("classes",)), ("no class", ()))
        },
        reads=("cables.*.type", "cables.*.from", "cables.*.to", "devices.*.impedance", "devices.*.kind"),
        limits={"return loss": LimitKind(Decibels)},
    ),
)
