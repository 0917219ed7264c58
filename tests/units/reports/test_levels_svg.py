"""The levels as a drawing: well formed, every text inside, the window where the window is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from xml.etree import ElementTree

import pytest

from coaxwright.reports.excerpt import columns
from coaxwright.reports.levels import SiteLevels
from coaxwright.reports.levels.svg import MOST_OUTLETS, render
from coaxwright.reports.levels.svg_plot import PLOT_HEIGHT, PLOT_LEFT, PLOT_RIGHT, PLOT_TOP

Levels = Callable[..., SiteLevels]
SVG = "{http://www.w3.org/2000/svg}"
WIDEST_LETTER = 0.62
"""Share of the size that an ordinary letter is wide at most, on average; measured on common sans-serif fonts."""


def drawn(levels: SiteLevels) -> ElementTree.Element:
    return ElementTree.fromstring(render(levels))


def texts(root: ElementTree.Element) -> Iterator[tuple[float, float, float, str]]:
    """Left end, right end and base line of every text on the canvas, with its words."""
    for group in (root, *root.findall(f"{SVG}g")):
        shift = float(group.get("transform", "translate(0 0)").rstrip(")").split()[1])
        for text in group.findall(f"{SVG}text"):
            x, y, words = float(text.get("x", "")), float(text.get("y", "")), text.text or ""
            wide = columns(words) * float(text.get("font-size", "")) * WIDEST_LETTER
            left = {"start": x, "middle": x - wide / 2, "end": x - wide}[text.get("text-anchor", "start")]
            yield left, left + wide, y + shift, words


def windows(root: ElementTree.Element, service: int = 0) -> list[ElementTree.Element]:
    return [rect for rect in root.findall(f"{SVG}g")[service].findall(f"{SVG}rect") if rect.get("class") == "window"]


def ticks(root: ElementTree.Element) -> dict[float, float]:
    """The levels written at the axis of the first service, each with its height on the drawing."""
    marks = root.findall(f"{SVG}g")[0].findall(f"{SVG}text")
    return {
        float(mark.text or ""): float(mark.get("y", "")) - 4
        for mark in marks
        if mark.get("text-anchor") == "end" and float(mark.get("x", "")) < PLOT_LEFT and "d" not in (mark.text or "")
    }


def at(levels: dict[float, float], value: float) -> float:
    """Where a level stands, by two of the marks."""
    (one, y_one), *_, (other, y_other) = sorted(levels.items())
    return y_one + (value - one) / (other - one) * (y_other - y_one)


@pytest.mark.parametrize("between", [0, 23])
def test_every_text_is_inside(design: str, between: int, levels: Levels) -> None:
    root = drawn(levels(design, between))
    width, height = float(root.get("width", "")), float(root.get("height", ""))
    found = list(texts(root))
    assert len(found) > 2
    assert [words for left, right, y, words in found if left < 0 or right > width or not 8 <= y <= height - 2] == []


def test_long_words_are_cut_and_marks_are_escaped(levels: Levels, house: str) -> None:
    long = "A" * 300
    text = house.replace("BED:", f"{long}:").replace("to: BED", f"to: {long}")
    site = levels(text, suppositions=("<&> " * 90,))
    root = drawn(site)
    width = float(root.get("width", ""))
    assert max(right for _, right, _, _ in texts(root)) <= width
    assert any(words.endswith("…") and words.startswith("supposing <&>") for *_, words in texts(root))


def test_characters_that_no_xml_file_may_hold_are_replaced(levels: Levels) -> None:
    found = levels("house", suppositions=("a\x07b\x00c\uffff",))
    assert any("a\ufffdb\ufffdc\ufffd" in words for *_, words in texts(drawn(found)))


def test_the_window_is_where_the_window_is(levels: Levels) -> None:
    """-15 to 15 dBmV: DOCSIS, modem input per channel; M says of itself another one, and the drawing that of all."""
    root = drawn(levels("house", 23))
    (window,) = windows(root)
    marks = ticks(root)
    top = float(window.get("y", ""))
    bottom = top + float(window.get("height", ""))
    assert top == pytest.approx(at(marks, 15), abs=0.2)
    assert bottom == pytest.approx(at(marks, -15), abs=0.2)
    assert float(window.get("x", "")) == PLOT_LEFT
    assert float(window.get("width", "")) == PLOT_RIGHT - PLOT_LEFT


def test_channels_of_two_standards_have_two_windows_side_by_side(levels: Levels) -> None:
    """DVB-T 45 to 74 and DVB-T2 39 to 74 dBµV: EN 60728-1, system outlet."""
    root = drawn(levels("channels"))
    one, other = windows(root)
    marks = ticks(root)
    for window, low in ((one, 45), (other, 39)):
        bottom = float(window.get("y", "")) + float(window.get("height", ""))
        assert bottom == pytest.approx(at(marks, low), abs=0.2)
    right = float(one.get("x", "")) + float(one.get("width", ""))
    assert right == pytest.approx(float(other.get("x", "")), abs=0.2)


def test_upstream_the_window_has_no_lower_end(levels: Levels) -> None:
    root = drawn(levels("house", 23))
    (window,) = windows(root, 1)
    assert float(window.get("y", "")) + float(window.get("height", "")) == pytest.approx(PLOT_TOP + PLOT_HEIGHT)


def test_lines_and_marks_lie_inside_the_plot(design: str, levels: Levels) -> None:
    for group in drawn(levels(design, 23)).findall(f"{SVG}g"):
        for line in (*group.findall(f"{SVG}polyline"), *group.findall(f"{SVG}polygon")):
            for place in line.get("points", "").split():
                x, y = map(float, place.split(","))
                assert PLOT_LEFT - 0.1 <= x <= PLOT_RIGHT + 0.1
                assert PLOT_TOP - 0.1 <= y <= PLOT_TOP + PLOT_HEIGHT + 0.1


def test_units_that_are_alike_are_drawn_once_and_counted(levels: Levels) -> None:
    words = [words for *_, words in texts(drawn(levels("flats")))]
    assert words.count("flat-01/TV +12") == 2  # at its line and at its bar
    assert not any(word.startswith("flat-02") for word in words)
    assert any("+1 stands for one more unit that comes out alike" in word for word in words)


def test_of_many_outlets_the_tightest_are_drawn_and_the_others_counted(levels: Levels) -> None:
    outlets = "".join(f"  T-{n}: {{kind: outlet, serves: [net]}}\n" for n in range(16))
    cables = "".join(f"  D-{n}: {{from: SP, to: T-{n}, type: series 6, length: {10 + n} ft}}\n" for n in range(16))
    site = levels(
        "services: {net: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz, level: [9 dBmV at 54 MHz]}}}\n"
        f"devices:\n  D: {{kind: coax drop}}\n  SP: {{kind: splitter, ways: 16}}\n{outlets}"
        f"cables:\n  C: {{from: D, to: SP, type: series 6, length: 9 ft}}\n{cables}"
    )
    root = drawn(site)
    assert len(root.findall(f".//{SVG}polyline")) == MOST_OUTLETS
    assert "the outlets with the least margin; 4 more are not drawn" in [words for *_, words in texts(root)]


def test_one_frequency_is_marked_once(levels: Levels) -> None:
    words = [words for *_, words in texts(drawn(levels(
        'services: {tv: {kind: terrestrial TV, from: A, channels: [{name: "24", frequency: 533 MHz, standard: 8VSB, '
        "field: 60 dBµV/m}]}}\n"
        "devices: {A: {kind: antenna, gain: 9 dBi}, T: {kind: outlet, serves: [tv]}}\n"
        "cables: {C: {from: A, to: T, type: series 6, length: 9 ft}}\n"
    )))]  # fmt: skip
    assert words.count("533 MHz") == 1


def test_where_no_level_is_known_the_drawing_says_why(levels: Levels) -> None:
    words = [words for *_, words in texts(drawn(levels("gaps")))]
    assert "? the level of net where it comes in is not stated" in words
    assert "eye is left out: camera video is judged by its distance, not by levels." in words
