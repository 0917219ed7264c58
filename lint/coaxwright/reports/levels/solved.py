"""Where adding decibels is not enough: what is doubtful, how the level swings, and what the solved network gives."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.analysis.reflections import Mismatch, ModelWarning, SolvedService
from coaxwright.design.quantities import shown
from coaxwright.design.sentences import decibels, listed
from coaxwright.reports.instances import units as ranges
from coaxwright.reports.levels.gather import OutletRow, ServiceLevels
from coaxwright.reports.network_report.page import Page
from coaxwright.rules.phrase_book import cause_text


def doubtful(page: Page, service: ServiceLevels) -> None:
    """Write what is doubtful about the sums of a service; nothing where they are good enough."""
    solved = service.solved
    if solved is None or not (solved.doubts or solved.not_solved is not None):
        return
    page.gap()
    page.paragraph("where adding decibels is not enough", 2)
    for words in (*_unlike(solved), *_ends(solved.doubts)):
        page.paragraph(words, 4, hang=2)
    if solved.not_solved is not None:
        page.paragraph(f"The network is not solved: {why_not(solved)}.", 4, hang=2)
        return
    for words in _departures(solved, service.outlets):
        page.paragraph(words.lstrip(), 6 if words.startswith(" ") else 4, hang=2)


def _unlike(solved: SolvedService) -> Iterator[str]:
    for mismatche in solved.mismatches:
        ends = [f"{end.device.tag} ({joint.port_ohm:g} Ω)" for end, joint in mismatche.ends if end.device is not None]
        back_db = min(joint.return_loss_db for _, joint in mismatche.ends)
        yield (
            f"{mismatche.cable.tag} is a cable of {mismatche.ends[0][1].cable_ohm:g} Ω at {listed(ends)}: "
            f"{decibels(back_db)} of return loss{_swing(mismatche)}"
        )


def _swing(mismatch: Mismatch) -> str:
    ripple = mismatch.ripple
    if ripple is None:
        return ""
    period = shown(ripple.period_hz / 1e6, 1 if ripple.period_hz < 1e8 else 0)
    return (
        f"; between its ends the level swings by {decibels(ripple.down_db)} to +{decibels(ripple.up_db)} every "
        f"{period} MHz"
    )


def _ends(doubts: Sequence[ModelWarning]) -> Iterator[str]:
    opened = [f"{doubt.tag}.{doubt.port}" if doubt.port else doubt.tag for doubt in doubts if doubt.kind == "open port"]
    if opened:
        yield f"open: {ranges(opened)}" if len(opened) > 1 else f"open: {opened[0]}"
    for doubt in doubts:
        if doubt.kind == "second way":
            yield f"{doubt.tag} brings some of it a second way; only the first is added"
        if doubt.kind == "poor end":
            yield f"{doubt.tag} was measured with {decibels(doubt.return_loss_db)} of return loss"


def _departures(solved: SolvedService, rows: Sequence[OutletRow]) -> Iterator[str]:
    """By how much the solved level departs from the sum, outlets with the same together, the largest first.

    What comes back from an open port goes on by the isolation of its neighbors, whose phase no data sheet gives: it
    may add or take away.
    """
    departures = solved.departures
    may_turn = any(doubt.kind == "open port" for doubt in solved.doubts)
    groups: dict[tuple[float, float], list[str]] = {}
    for departure in sorted(departures, key=lambda departure: min(departure.least_db, -abs(departure.most_db))):
        reach_db = max(abs(departure.least_db), abs(departure.most_db))
        low, high = (-reach_db, reach_db) if may_turn else (departure.least_db, departure.most_db)
        groups.setdefault((round(low, 1), round(high, 1)), []).append(departure.device.tag)
    if not groups:
        return
    yield "solved wave by wave, levels lie beside their sums by"
    for (least_db, most_db), tags in groups.items():
        words = _signed(least_db) if least_db == most_db else f"{_signed(least_db)} to {_signed(most_db)}"
        yield f"  {words} dB at {listed(_in_units(tags, rows))}"


def _in_units(tags: Sequence[str], rows: Sequence[OutletRow]) -> list[str]:
    """Outlets by name, those of repeated units by their own name and the units: ``TV in flat-02 to flat-05``."""
    unit_of = {row.tag: row.unit for row in rows if row.unit}
    of_unit: dict[str, list[str]] = {}
    for tag in tags:
        if tag in unit_of:
            of_unit.setdefault(tag.removeprefix(f"{unit_of[tag]}/"), []).append(unit_of[tag])
    alone = [tag for tag in tags if tag not in unit_of]
    return [*alone, *(f"{name} in {ranges(units)}" for name, units in of_unit.items())]


def _signed(value_db: float) -> str:
    text = f"{abs(value_db):.1f}"
    return "0" if text == "0.0" else f"{'+' if value_db > 0 else '-'}{text}"


def why_not(solved: SolvedService) -> str:
    """Why a network is not solved; empty for one that is."""
    return cause_text(solved.not_solved) if solved.not_solved is not None else ""
