"""Real designs with figures that nobody would write: every form of the review and the levels still holds numbers only.

The texts stay what they are, a length a length; only the numbers in them become nothing, endless or upside down.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from xml.etree import ElementTree

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from coaxwright.cli.forms import Form, Paper, rendered
from coaxwright.computing import levels
from coaxwright.design import NotUnderstood
from coaxwright.errors import CoaxwrightError
from coaxwright.reports.levels import csv_form, json_form, svg, text
from coaxwright.reviewing import review
from coaxwright.reviewing.site import read_site
from coaxwright.source import ReadError

EXAMPLES = Path(__file__).parents[2] / "examples"
NO_NUMBER = re.compile(r"\b(nan|inf|infinity)\b", re.IGNORECASE)
STRANGE = (
    "0", "0.000000000000001", "0.5", "1", "3.01", "7", "49", "50", "75", "93", "300", "862", "1002", "1003", "3001",
    "9999", "1000000", "999999999", "999999999.999999999999999", "1/2", "-1", "-20", "-999999999", "+7",
)  # fmt: skip
BENCH = """coaxwright: 1
title: Dotterel Bench 1 (invented)
basis: {rulesets: [trade 1]}
places: {loft: {exposure: attic, temperature: -20 to 60 °C}}
catalogue:
  classes:
    reel 6:
      like: series 6
      attenuation: {table: {5 MHz: 0.45 dB/100 ft, 50 MHz: 1.45 dB/100 ft, 1000 MHz: 6.1 dB/100 ft}}
  devices:
    quiet splitter:
      like: 2-way splitter
      paths: [{from: in, to: out, band: 5 MHz to 1002 MHz, low: 3.1 dB, nominal: 3.4 dB, high: 3.8 dB}]
services:
  net:
    kind: cable broadband
    from: DROP
    down: {band: 54 MHz to 1002 MHz, level: [10 dBmV at 54 MHz, 4 dBmV at 1002 MHz], carriers: 120}
    up: {band: 5 MHz to 42 MHz, wanted: 38 dBmV}
    at outlets: {level: -8 to 10 dBmV, tilt: 8 dB}
devices:
  DROP: {kind: coax drop}
  GB: {kind: ground block, loss: 0.2 dB}
  AMP: {kind: drop amplifier, outputs: 1, gain: 12 dB, variant: return path, output level: 10 to 30 dBmV}
  SP: {kind: splitter, ways: 3, loss: 6.2 dB}
  TAP: {kind: tap, outputs: 2, value: 12 dB, loss: 1 dB}
  EQ: {kind: equalizer, value: 6 dB}
  MODEM: {kind: cable modem, serves: [net], output level: 20 to 51 dBmV, readings: [{return loss: 7 dB at 500 MHz}]}
  DEN: {kind: outlet, serves: [net]}
  BED: {kind: outlet, serves: [net], impedance: 50 ohm}
cables:
  C-1: {from: DROP, to: GB, type: series 6, length: 12 ft}
  C-2: {from: GB, to: AMP, type: 10 mm 50 ohm low-loss, length: 3 m}
  C-3: {from: AMP, to: EQ, type: reel 6, length: 30 ft, measured loss: [1.4 dB at 500 MHz, 2 dB at 900 MHz]}
  C-4: {from: EQ, to: SP, type: series 11, route: [loft: 40 ft]}
  C-5: {from: SP, to: MODEM, type: series 59, length: 20 ft}
  C-6: {from: SP, to: TAP, type: series 6, length: 90 ft}
  C-7: {from: TAP.tap-1, to: DEN, type: series 6, length: 30 ft}
  C-8: {from: TAP.tap-2, to: BED, type: 58-type foam, length: 30 ft}
"""
"""What the example sites hold few of: an amplifier, an equalizer, another impedance, open ports, measured losses."""


@dataclass(frozen=True)
class Drawing:
    """A design and the folder that it includes."""

    name: str
    folder: Path | None
    text: str

    @property
    def numbers(self) -> list[re.Match[str]]:
        """The numbers of its figures: not those of the head, of tags, of comments and of words with hyphens."""
        start = next(re.finditer(r"(?m)^(?:places|services|buildings):", self.text)).start()
        found = re.finditer(
            r"(?<![\w.#-])[0-9]+(?:\.[0-9]+)?(?= ?(?:[a-zA-Zµ°Ω²]|to |/|}|,|]|$))", self.text, re.MULTILINE
        )
        return [match for match in found if match.start() > start]


DRAWINGS = [
    Drawing("bench", None, BENCH),
    *(
        Drawing(f"{path.parent.name} {path.name.partition('.')[0]}", path.parent, path.read_text(encoding="utf-8"))
        for path in sorted(EXAMPLES.glob("*/*.coax.yaml"))
    ),
]


@st.composite
def mutated(draw: st.DrawFn) -> tuple[Drawing, str]:
    """A drawing with one to three of its numbers changed, the bench as often as all the sites."""
    drawing = draw(st.one_of(st.just(DRAWINGS[0]), st.sampled_from(DRAWINGS)))
    chosen = draw(st.lists(st.sampled_from(range(len(drawing.numbers))), min_size=1, max_size=3, unique=True))
    written = drawing.text
    for match in sorted((drawing.numbers[index] for index in chosen), key=lambda match: -match.start()):
        written = written[: match.start()] + draw(st.sampled_from(STRANGE)) + written[match.end() :]
    return drawing, written


@contextmanager
def on_disk(drawing: Drawing, written: str) -> Iterator[Path]:
    """The changed design where what it includes lies beside it."""
    with TemporaryDirectory() as made:
        folder = Path(made) / "site"
        if drawing.folder is None:
            folder.mkdir()
        else:
            shutil.copytree(drawing.folder, folder, ignore=shutil.ignore_patterns("*.coax.yaml", "*.txt"))
        path = folder / "mutated.coax.yaml"
        path.write_text(written, encoding="utf-8")
        yield path


def held_to_numbers(form: str, written: str) -> None:
    assert not (found := NO_NUMBER.search(written)), f"{form}: {written[max(0, found.start() - 80) : found.end() + 20]}"
    assert len(written) < 3_000_000, f"{form} grew without end"
    if form.endswith("json") or form.startswith("sarif"):
        json.loads(written, parse_constant=pytest.fail)
    if form.endswith("svg") or form == "junit":
        ElementTree.fromstring(written)


@settings(max_examples=60, deadline=None)
@given(mutated(), st.sampled_from((0, 23)))
@example((DRAWINGS[0], BENCH.replace("gain: 12 dB", "gain: 9999 dB")), 0)
def test_levels_hold_numbers_whatever_the_figures(made: tuple[Drawing, str], between: int) -> None:
    """Whether more frequencies are computed between the edges of the bands, as for a drawing, or not."""
    with on_disk(*made) as path:
        try:
            site = levels(path, between=between)
        except (ReadError, NotUnderstood):
            return
    held_to_numbers("levels text", text.render(site, 80))
    held_to_numbers("levels csv", csv_form.render(site))
    held_to_numbers("levels json", json_form.render(site))
    held_to_numbers("levels svg", svg.render(site))


@settings(max_examples=80, deadline=None)
@given(mutated())
def test_reviews_hold_numbers_whatever_the_figures(made: tuple[Drawing, str]) -> None:
    with on_disk(*made) as path:
        found = review([path], with_amendments=False)
        assert [crash for design in found.designs for crash in design.crashes] == []
        for form in Form:
            held_to_numbers(form.value, rendered(form, found, Paper(100)))


def test_most_changes_are_still_designs() -> None:
    """What is refused at the door proves nothing about what lies behind it."""
    numbers = DRAWINGS[0].numbers
    understood = 0
    for match in numbers[::3]:
        with on_disk(DRAWINGS[0], BENCH[: match.start()] + "93" + BENCH[match.end() :]) as path:
            try:
                read_site(path)
            except CoaxwrightError:
                continue
            understood += 1
    assert understood > len(numbers[::3]) / 2
