"""A level that is sure to be out, one that may be, and one that is in, at each edge of a window and of a modem's range.

The part between loses 3 to 6 dB, 4 dB as usual, and 2 dB more in its upper band; the leads are a foot long. So every
figure is the sum of the hand-off and of these.
"""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding, Outcome
from coaxwright.review import judge
from coaxwright.rules import shipped_shelf
from coaxwright.source import read_text

DESIGN = """\
coaxwright: 1
title: Dotterel Bench 4 (invented)
basis: {{rulesets: [trade 1]}}
catalogue:
  devices:
    wide splitter:
      like: 2-way splitter
      paths:
        - {{from: in, to: out, band: 5 MHz to 20 MHz, low: 3 dB, nominal: 4 dB, high: 6 dB}}
        - {{from: in, to: out, band: 21 MHz to 700 MHz, low: 5 dB, nominal: 6 dB, high: 8 dB}}
        - {{from: in, to: out, band: 701 MHz to 1002 MHz, low: 3 dB, nominal: 4 dB, high: 6 dB}}
services:
  net:
    kind: cable broadband
    from: DROP
    down: {{band: 600 MHz to 800 MHz, level: ["{down} dBmV at 600 MHz", "{down} dBmV at 800 MHz"]}}
    up: {{band: 10 MHz to 30 MHz, wanted: {up} dBmV}}
    at outlets: {{level: 0 to 10 dBmV}}
devices:
  DROP: {{kind: service drop}}
  SP: {{kind: splitter, ways: 2, model: wide splitter}}
  MODEM: {{kind: cable modem, serves: [net], output level: 20 to 50 dBmV}}
  T: {{kind: terminator, on: SP.out-2}}
cables:
  C-1: {{from: DROP, to: SP, type: series 6, length: 1 ft}}
  C-2: {{from: SP.out-1, to: MODEM, type: series 6, length: 1 ft}}
"""


def found(rule: str, down: float = 11, up: float = 40) -> Finding | None:
    review = judge(read_text(DESIGN.format(down=down, up=up), "bench.coax.yaml"), shipped_shelf())
    assert review.problems == ()
    assert review.crashes == ()
    of_it = [one for one in review.findings if one.rule == rule]
    assert len(of_it) <= 1
    return of_it[0] if of_it else None


@pytest.mark.parametrize(
    ("down", "outcome", "told"),
    [
        (18, Outcome.NOT_MET, "at 800 MHz"),  # 12 to 15 there: above 10 whatever holds
        (15, Outcome.CANNOT_BE_JUDGED, "8.9 dBmV to 11.9 dBmV at 800 MHz"),
        (12.5, None, ""),  # 9.5 at the most
        (9, None, ""),  # 1 at the least, where most is lost
        (7, Outcome.CANNOT_BE_JUDGED, "-1.1 dBmV to 1.9 dBmV at 600 MHz"),
        (4, Outcome.NOT_MET, "at 600 MHz"),  # -4 to -1 there: below 0 whatever holds
    ],
)
def test_a_window_at_an_outlet(down: float, outcome: Outcome | None, told: str) -> None:
    finding = found("level.outlet-window", down=down)
    assert (finding.outcome if finding is not None else None) is outcome
    assert finding is None or told in finding.found


@pytest.mark.parametrize(
    ("up", "outcome", "told"),
    [
        (46, Outcome.NOT_MET, "at 30 MHz"),  # 51 to 54 there: beyond 50 whatever holds
        (43.5, Outcome.CANNOT_BE_JUDGED, "48.5 dBmV to 51.5 dBmV at 30 MHz"),
        (41, None, ""),  # 49 at the most
    ],
)
def test_what_a_modem_can_send(up: float, outcome: Outcome | None, told: str) -> None:
    finding = found("return.upstream-level", up=up)
    assert (finding.outcome if finding is not None else None) is outcome
    assert finding is None or told in finding.found


def test_the_worst_frequency_is_told_with_what_is_missing_by_usual_figures() -> None:
    too_much = found("level.outlet-window", down=18)
    assert too_much is not None
    assert too_much.excess == pytest.approx(18 - 4 - 10, abs=0.2)
    too_little = found("level.outlet-window", down=2)  # at both frequencies, more so at 600 MHz
    assert too_little is not None
    assert too_little.excess == pytest.approx(0 - (2 - 6), abs=0.2)
    unreached = found("return.upstream-level", up=49)  # beyond 50 at both frequencies, more so at 30 MHz
    assert unreached is not None
    assert unreached.excess == pytest.approx(49 + 6 - 50, abs=0.2)
    assert "at 30 MHz" in unreached.found
    assert "SP 6" in unreached.found + unreached.remedy + unreached.required


def test_a_whole_range_of_levels_is_told_once_at_the_frequency_furthest_out() -> None:
    straddling = found("return.upstream-level", up=44.9)  # 47.9 to 50.9 at 10 MHz, 49.9 to 52.9 at 30 MHz
    assert straddling is not None
    assert straddling.outcome is Outcome.CANNOT_BE_JUDGED
    assert "at 30 MHz" in straddling.found
