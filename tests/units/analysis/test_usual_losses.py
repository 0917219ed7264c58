"""The sums of a fine grid are the usual figures of the levels, on every example site."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.analysis import Analysis, LossRange
from coaxwright.reviewing.site import read_site

SITES = sorted((Path(__file__).parents[3] / "examples").glob("*/corrected.coax.yaml"))


@pytest.mark.parametrize("path", SITES, ids=lambda path: path.parent.name)
def test_a_sweep_has_the_usual_figures_of_the_levels(path: Path) -> None:
    network = read_site(path).network()
    analysis = Analysis(network)
    compared = 0
    for tag, service in network.services.items():
        for direction in ("down", "up"):
            grid_hz = service.grid_hz(direction)
            sweep = analysis.usual_losses(tag, direction, grid_hz)
            losses = analysis.losses(tag, direction)
            for index, arrival in enumerate(losses.signal.arrivals):
                assert sweep.index_of(sweep.signal.arrivals[index]) == index
                for own_db, loss in zip(sweep.at(index), losses.to(arrival), strict=True):
                    if isinstance(loss, LossRange):
                        assert own_db == pytest.approx(loss.nominal, abs=1e-9)
                        compared += 1
                    else:
                        assert own_db is None
    assert compared > 20
