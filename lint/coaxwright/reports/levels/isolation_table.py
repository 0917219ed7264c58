"""From outlet to outlet: how much is lost between two stations, or keeps two receivers from each other."""

from __future__ import annotations

from coaxwright.analysis import LossRange
from coaxwright.design.sentences import count, frequency
from coaxwright.network import Unknown
from coaxwright.network.service_overlap import IN_HOME
from coaxwright.reports.levels.gather import ServiceLevels
from coaxwright.reports.levels.units import loss_figure
from coaxwright.reports.network_report.page import Page
from coaxwright.rules.phrase_book import cause_text

_MOST = 10
"""So many different figures are shown."""


def between(page: Page, service: ServiceLevels) -> None:
    """Write the losses between outlets: of in-home data the greatest ones first, else the least."""
    if not service.apart:
        return
    is_wanted = service.kind == IN_HOME
    known = [(pair, pair.loss_db) for pair in service.apart if isinstance(pair.loss_db, LossRange)]
    known.sort(key=lambda pair: (-pair[1].high if is_wanted else pair[1].low, pair[0].one.tag, pair[0].other.tag))
    causes = dict.fromkeys(cause_text(pair.loss_db) for pair in service.apart if isinstance(pair.loss_db, Unknown))
    parted = [pair for pair in service.apart if pair.loss_db is None]
    page.gap()
    what = "lost between two stations, most first" if is_wanted else "outlet-to-outlet isolation, least first"
    page.paragraph(f"{what}, at {frequency(service.apart_hz)}", 2)
    groups: dict[str, list[str]] = {}
    for one, loss in known:
        groups.setdefault(_figures(loss), []).append(f"{one.one.tag} and {one.other.tag}")
    wide = max(map(len, groups), default=0)
    for words, pairs in list(groups.items())[:_MOST]:
        more = f", and {count(len(pairs) - 1, 'pair')} more alike" if len(pairs) > 1 else ""
        page.paragraph(f"{words.ljust(wide)}  {pairs[0]}{more}", 4, hang=wide + 2)
    left = sum(len(pairs) for pairs in list(groups.values())[_MOST:])
    if left:
        page.paragraph(f"and {count(left, 'pair')} more", 4)
    for one in parted:
        assert one.parted_by is not None
        page.paragraph(f"{one.one.tag}, {one.other.tag}: {one.parted_by.tag} passes one way only", 4, hang=2)
    for cause in causes:
        page.paragraph(f"?  {cause}", 4, hang=3)


def _figures(loss_db: LossRange) -> str:
    low, usual, high = (loss_figure(value) for value in (loss_db.low, loss_db.nominal, loss_db.high))
    return usual if low == high else f"{usual} ({low.removesuffix(' dB')} to {high.removesuffix(' dB')})"
