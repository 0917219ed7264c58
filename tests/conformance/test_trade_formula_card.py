"""A trade formula card: tilt of a cable and the equalizer for it."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows

from coaxwright.physics import tilt

QUANTITIES = {
    "tilt_db": lambda loss_db, ratio: tilt.tilt_of_loss_db(loss_db, ratio),
    "equalizer_db": lambda tilt_db, ratio: tilt.equalizer_value_db(tilt_db, ratio),
}


@pytest.mark.parametrize("row", rows("trade_formula_card.csv"), ids=named)
def test_examples(row: dict[str, str]) -> None:
    compare("tilt", row, QUANTITIES)


def test_the_rule_of_the_root_is_near_the_ratio_of_the_card() -> None:
    """54 to 450 MHz: 0.333 on the card, 0.346 by the root."""
    assert tilt.loss_ratio(54e6, 450e6) == pytest.approx(0.333, abs=0.014)
