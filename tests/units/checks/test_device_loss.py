"""What a passive part may be said to lose: no less than dividing takes, but for the rounding of data sheets to 0.1 dB.

Dividing alike between n takes 10 log n: 3.01 dB, 4.77 dB, 6.02 dB, 9.03 dB and 12.04 dB for 2, 3, 4, 8 and 16 ways. A
coupler with 6 dB aside keeps 1 - 10^-0.6 = 0.749 of the power, which is 1.26 dB. Source: conservation of power.
"""

from __future__ import annotations

import pytest

from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text


def told(device: str) -> list[str]:
    text = f"coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [trade 1]}}\ndevices:\n  X: {{{device}}}\n"
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert review.problems == ()
    assert review.crashes == ()
    return [one.case for one in review.unfolded if one.rule == "level.loss-plausible"]


SPLITTERS = {2: ("2.96 dB", "2.95 dB"), 3: ("4.72 dB", "4.71 dB"), 4: ("5.97 dB", "5.96 dB"), 8: ("8.98 dB", "8.97 dB")}


@pytest.mark.parametrize("ways", SPLITTERS)
def test_a_splitter_loses_what_dividing_takes_less_five_hundredths(ways: int) -> None:
    just, below = SPLITTERS[ways]
    assert told(f"kind: splitter, ways: {ways}, loss: {just}") == []
    assert told(f"kind: splitter, ways: {ways}, loss: {below}") == ["divides"]


def test_a_coupler_loses_what_it_gives_aside_less_five_hundredths() -> None:
    assert told("kind: directional coupler, value: 6 dB, loss: 1.21 dB") == []
    assert told("kind: directional coupler, value: 6 dB, loss: 1.2 dB") == ["gives aside"]


@pytest.mark.parametrize("more", ["ways: 5", "ways: 2, model: no such"])
def test_a_part_that_the_catalogue_does_not_have_is_not_judged(more: str) -> None:
    assert told(f"kind: splitter, {more}, loss: 1 dB") == []
