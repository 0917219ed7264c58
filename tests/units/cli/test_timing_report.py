"""Where the time went, in words."""

from __future__ import annotations

from coaxwright.cli.timing_report import MOST_RULES, timing_lines
from coaxwright.reviewing.timing import NETWORK, READING, Clock


def test_parts_in_their_order_and_rules_by_their_time() -> None:
    seconds = {NETWORK: 1.0, READING: 0.5, "cable.run-length": 0.5, "level.tilt": 2.0}
    clock = Clock(seconds, {"cable.run-length": 1, "level.tilt": 1200}, designs=1200)
    assert list(timing_lines(clock, 2.5)) == [
        "1,200 designs reviewed in 2.50 s; work of all processes together 4.00 s:",
        "  reading the files                           500.0 ms   12%",
        "  building the network                          1.00 s   25%",
        "  asking 2 rules                                2.50 s   62%",
        "    level.tilt                                  2.00 s   50%  1,200 subjects",
        "    cable.run-length                          500.0 ms   12%  1 subject",
    ]


def test_the_fastest_rules_are_told_together() -> None:
    names = [f"topic.rule-{number:02}" for number in range(MOST_RULES + 3)]
    clock = Clock({name: 0.001 * number for number, name in enumerate(names)}, dict.fromkeys(names, 1), designs=1)
    lines = list(timing_lines(clock, 0.2))
    assert lines[0] == "1 design reviewed in 200.0 ms; work of all processes together 105.0 ms:"
    assert lines[2].split()[0] == names[-1]
    assert lines[-1] == "    3 further rules                             3.0 ms    3%"
    assert len(lines) == 2 + MOST_RULES + 1


def test_where_every_design_was_answered_there_are_no_rules() -> None:
    assert len(list(timing_lines(Clock({READING: 0.1}, {}, 0), 0.1))) == 2
