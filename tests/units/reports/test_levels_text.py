"""The levels as people read them. The snapshots are whole pages; after a change of wording, read them again."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from pytest_snapshot.plugin import Snapshot

from coaxwright.reports.excerpt import columns
from coaxwright.reports.levels import SiteLevels
from coaxwright.reports.levels.text import render

Levels = Callable[..., SiteLevels]


@pytest.fixture
def kept(snapshot: Snapshot) -> Snapshot:
    snapshot.snapshot_dir = Path(__file__).parent / "snapshots" / "levels_text"
    return snapshot


@pytest.mark.parametrize("width", [80, 120])
def test_whole_pages(design: str, width: int, levels: Levels, kept: Snapshot) -> None:
    kept.assert_match(render(levels(design), width), f"{design}-{width}.txt")


@pytest.mark.parametrize("width", [60, 71, 80, 100, 120])
def test_nothing_stands_out_to_the_right(design: str, width: int, levels: Levels) -> None:
    lines = render(levels(design), width).splitlines()
    assert max(map(columns, lines)) <= width
    assert [line for line in lines if line != line.rstrip()] == []


def test_a_gain_reads_as_a_gain(levels: Levels) -> None:
    """The amplifier of the house gains 15 dB; what is lost and gained on the way to M is 7.7 dB more than nothing."""
    page = render(levels("house"), 80)
    assert "    AMP    gains 15.0 dB  gains 15.0 dB  drop amplifier\n" in page
    assert "    total   gains 7.7 dB   gains 1.9 dB\n" in page
    assert "-15.0 dB" not in page


def test_figures_of_a_column_stand_below_each_other(levels: Levels) -> None:
    lines = render(levels("house"), 80).splitlines()
    head = next(index for index, line in enumerate(lines) if line.startswith("  outlet  54 MHz"))
    rows = [line for line in lines[head + 1 : head + 5] if line.startswith(("  BED", "  M ", "  SET"))]
    assert len(rows) == 3
    assert {line.index(" (") for line in rows} == {14}
    assert {line.rindex(" (") for line in rows} == {35}


def test_outlets_of_units_that_are_alike_are_told_once(levels: Levels) -> None:
    page = render(levels("flats"), 80)
    assert page.count("  flat-01/TV  ") == 2  # what it gets, and how long its run may be
    assert page.count("also in flat-02 to flat-13\n") == 2
    assert page.count("also in flat-02 to flat-12\n") == 2
    assert "  flat-02/TV" not in page
    assert page.count("  flat-13/PC  ") == 2


def test_outlets_that_are_alike_and_of_no_unit_are_told_each(levels: Levels, house: str) -> None:
    page = render(levels(house.replace("series 59, length: 90 ft", "series 6, length: 30 ft")), 80)
    assert "also in" not in page
    assert page.count("\n  BED ") == page.count("\n  SET ") == 1  # the modem alone sends


def test_of_many_frequencies_only_the_usual_level_is_shown_and_said_so(levels: Levels) -> None:
    page = render(levels("channels"), 80)
    assert "usual levels at 20 frequencies, in dBµV; --as csv gives what they can be" in page
    assert " to " not in "".join(line for line in page.splitlines() if line.startswith("  BED"))
    assert (
        page.count("THE ROOM AT THE BACK OF THE HOUSE\n") == 7
    )  # above its figures, here in four parts, in the runs in two, and of those kept apart


def test_several_standards_are_told_with_their_windows(levels: Levels) -> None:
    page = " ".join(render(levels("channels"), 120).split())
    assert "required at the outlets: 45 to 74 dBµV (DVB-T), 39 to 74 dBµV (DVB-T2) (IEC/EN 60728-1" in page


def test_without_a_hand_off_the_losses_are_shown(levels: Levels) -> None:
    """Series 6, 130 ft at 54 and 1002 MHz, and 3.5 dB of a splitter. Source: ANSI/SCTE 74, maximum attenuation."""
    page = render(levels("gaps"), 80)
    assert "no level is known, so the losses on the way are shown" in page
    assert "  DEN      5.6 dB  12.0 dB\n" in page
    assert "?  the level of net" not in page
    assert "? the level of net where it comes in is not stated (DEN)" in page
    assert "? C-2 has no length and no route (BED)" in page
    assert "  LOST          -        -\n" in page
    assert "- nothing of it comes to this outlet" in page


def test_what_there_is_nothing_to_tell_of_is_named(levels: Levels) -> None:
    page = render(levels("cameras"), 80)
    assert "eye is left out: camera video is judged by its distance, not by levels.\n" in page
    assert "A level is the usual one" not in page
    silent = (
        "services: {net: {kind: cable broadband, from: D}}\n"
        "devices: {D: {kind: coax drop}, T: {kind: outlet, serves: [net]}}\n"
    )
    assert "net is left out: it states no band and no channels.\n" in render(levels(silent), 80)


def test_a_receiver_that_says_what_it_takes_is_judged_by_that(levels: Levels, house: str) -> None:
    page = render(levels("house"), 80)
    figures = "  M       19.7 (19.0 to 20.6)   7.9 (6.6 to 9.7)   "
    assert f"{figures}9.8 dB out at 54 MHz\n    takes -8 to 10 dBmV itself\n" in page
    plain = render(levels(house.replace(", input level: -8 to 10 dBmV", "")), 80)
    assert f"{figures}4.8 dB out at 54 MHz\n" in plain


def test_where_it_is_never_20_degrees_the_usual_level_is_within_what_it_can_be(levels: Levels, house: str) -> None:
    cellar = house.replace("temperature: -10 to 50 °C", "temperature: 2 to 12 °C")
    for row in levels(cellar).services[0].outlets:
        for level in (point.level_dbmv for point in row.points):
            assert level is not None
            assert level.low < level.hot <= level.nominal < level.cold < level.high


def test_suppositions_stand_at_the_head(levels: Levels) -> None:
    page = render(levels("house", suppositions=("C-1 in series 11",)), 80)
    assert "\nsupposing C-1 in series 11; the file is not changed\n" in page
    assert "supposing" not in render(levels("house"), 80)


def test_the_longest_run_is_never_rounded_up(levels: Levels) -> None:
    """What is shown in whole feet still reaches; a foot more of it does not."""
    shown = levels("house").services[0].outlets[0]
    assert shown.longest is not None
    most_ft = shown.longest.by_class["series 6"] / 0.3048
    page = render(levels("house"), 80)
    assert f"  BED     C-3  90 ft      10 ft    {int(most_ft)} ft  " in page
