from __future__ import annotations

from math import inf

import pytest

from coaxwright.physics.cascade import (
    PortToPort,
    TapLevels,
    TapStage,
    funnelled_noise_dbmv,
    port_to_port,
    tap_cascade,
    through_loss_is_possible,
    transmit_level_dbmv,
)


def test_the_last_tap_has_all_through_losses_before_it() -> None:
    stages = [TapStage(2, 20, 0.8), TapStage(3, 16, 1.0), TapStage(4, 12, 1.2)]
    levels = tap_cascade(40, stages)
    assert [level.at_tap for level in levels] == pytest.approx([18, 40 - 2 - 0.8 - 3 - 16, 40 - 9 - 1.8 - 12])
    assert levels[-1].passed_on == pytest.approx(40 - 9 - 3.0)
    assert tap_cascade(40, []) == []
    assert tap_cascade(10, [TapStage(0, 0, 0)]) == [TapLevels(10, 10)]


def test_catalogue_figures_below_the_floor() -> None:
    """8 dB of one output leaves 0.75 dB at least; conservation of power."""
    assert through_loss_is_possible(8, 0.76)
    assert not through_loss_is_possible(8, 0.7)
    assert not through_loss_is_possible(8, 0.76, outputs=2)


def test_the_modem_sends_for_the_worst_frequency() -> None:
    assert transmit_level_dbmv(0, [24.5, 31.25]) == 31.25
    with pytest.raises(ValueError, match="return frequency"):
        transmit_level_dbmv(0, [])


def test_every_leg_feeds_noise() -> None:
    assert funnelled_noise_dbmv(-40, 8) == pytest.approx(-30.969, abs=0.001)


def test_two_ways_from_port_to_port() -> None:
    """Both of 20 dB: 14 dB in step, nothing where they are opposed; voltages add."""
    both = port_to_port(20, 4, 4, 12)
    assert both.least_db == pytest.approx(20 - 6.0206, abs=0.0001)
    assert both.most_db == inf
    assert both.bound_db == 8


def test_isolation_alone_where_nothing_comes_back() -> None:
    assert port_to_port(22, 3.5, 3.5, inf) == PortToPort(pytest.approx(22), pytest.approx(22), 7)


def test_an_entry_filter_sends_all_back() -> None:
    ways = port_to_port(inf, 3.5, 3.5, 0)
    assert ways.least_db == ways.most_db == ways.bound_db == 7


def test_the_feed_counts_twice() -> None:
    assert port_to_port(inf, 3.5, 7, 10, feed_loss_db=2).least_db == pytest.approx(24.5)


@pytest.mark.parametrize("figures", [(-1, 3, 3, 10), (20, -1, 3, 10), (inf, 3, 3, inf), (20, 3, 3, float("nan"))])
def test_port_to_port_refusals(figures: tuple[float, float, float, float]) -> None:
    with pytest.raises(ValueError, match=r"zero or more|no way"):
        port_to_port(*figures)
