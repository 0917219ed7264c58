"""Published pairs of standing-wave ratio, return loss, reflected power and mismatch loss."""

from __future__ import annotations

import pytest
from accuracy import near, rows

from coaxwright.physics import mismatch

PAIRS = rows("vswr_return_loss.csv")
LOSSES = rows("mismatch_loss.csv")


@pytest.mark.parametrize("row", PAIRS, ids=lambda row: f"{row['vswr']}-{row['return_loss_db']}")
def test_return_loss_and_vswr(row: dict[str, str]) -> None:
    vswr, return_loss_db = float(row["vswr"]), float(row["return_loss_db"])
    if row["tolerance"].endswith("dB"):
        tolerance_db = float(row["tolerance"].removesuffix(" dB"))
        computed_db = mismatch.return_loss_db(mismatch.reflection_of_vswr(vswr))
        near("mismatch", row["source"], computed_db, return_loss_db, "dB", tolerance_db)
    else:
        computed = mismatch.vswr(mismatch.reflection_of_return_loss(return_loss_db))
        near("mismatch", row["source"], computed, vswr, "%", float(row["tolerance"].removesuffix(" %")))


@pytest.mark.parametrize("row", LOSSES, ids=lambda row: row["vswr"])
def test_reflected_power_and_mismatch_loss(row: dict[str, str]) -> None:
    reflection = mismatch.reflection_of_vswr(float(row["vswr"]))
    reflected_percent = 100 * mismatch.reflected_power_share(reflection)
    near("mismatch", row["source"], reflected_percent, float(row["reflected_percent"]), "%", 1.12)
    near("mismatch", row["source"], mismatch.mismatch_loss_db(reflection), float(row["mismatch_loss_db"]), "dB", 0.005)


def test_a_page_that_is_wrong() -> None:
    """One public table prints VSWR 1.8 as 10.2 dB and 31.5 %; the formula gives 10.88 dB and 28.6 % (of voltage)."""
    reflection = mismatch.reflection_of_vswr(1.8)
    assert mismatch.return_loss_db(reflection) == pytest.approx(10.88, abs=0.005)
    assert reflection == pytest.approx(0.286, abs=0.0005)


def test_junction_of_50_and_75_ohm() -> None:
    """Derived: reflection 0.2, VSWR 1.5, return loss 13.979 dB, mismatch loss 0.1773 dB."""
    reflection = mismatch.reflection_coefficient(50, 75)
    assert reflection == pytest.approx(-0.2)
    assert mismatch.vswr(reflection) == pytest.approx(1.5)
    assert mismatch.return_loss_db(reflection) == pytest.approx(13.979, abs=0.0005)
    assert mismatch.mismatch_loss_db(reflection) == pytest.approx(0.1773, abs=0.0001)


def test_interaction_of_two_mismatches() -> None:
    """Radio-frequency reference page, found: VSWR 2.0 and 1.5 make about 0.58 dB, the mean of the two limits."""
    low_db, high_db = mismatch.ripple_limits_db(mismatch.reflection_of_vswr(2.0), mismatch.reflection_of_vswr(1.5))
    near("mismatch", "radio-frequency reference page, interaction", (high_db - low_db) / 2, 0.58, "dB", 0.006)
