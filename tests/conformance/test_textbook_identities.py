"""Figures every textbook prints. From memory, so they are a check against slips and no proof."""

from __future__ import annotations

from math import sqrt

import pytest
from accuracy import compare, named, rows

from coaxwright.physics import cascade, geometry, inserts, levels, mismatch, pads, skin_effect
from coaxwright.physics.dividing import ideal_through_db
from coaxwright.physics.loss_fit import LossCurve


def curve_loss(k1: float, k2: float, freq_mhz: float) -> float:
    return LossCurve(0, k1, k2, 5e6, 1002e6).loss(freq_mhz * 1e6)


def ripple_db(vswr_a: float, vswr_b: float) -> tuple[float, float]:
    return mismatch.ripple_limits_db(mismatch.reflection_of_vswr(vswr_a), mismatch.reflection_of_vswr(vswr_b))


def outlet_dbmv(
    tap_dbmv: float, drop_m: float, split_db: float, outlet_m: float, k1: float, k2: float, freq_mhz: float
) -> float:
    per_m = curve_loss(k1, k2, freq_mhz) / 100
    stage = cascade.TapStage(cable_db=drop_m * per_m, tap_db=split_db, through_db=split_db)
    return cascade.tap_cascade(tap_dbmv, [stage])[0].at_tap - outlet_m * per_m


QUANTITIES = {
    "impedance_ohm": lambda ratio, er: geometry.characteristic_impedance_ohm(ratio, 1, 1 / sqrt(er)),
    "delay_ns": lambda velocity, length_m: geometry.delay_s_per_m(velocity) * length_m * 1e9,
    "notch_mhz": lambda velocity, length_m: inserts.stub_notch_hz(length_m, velocity) / 1e6,
    "ripple_low_db": lambda vswr_a, vswr_b: ripple_db(vswr_a, vswr_b)[0],
    "ripple_high_db": lambda vswr_a, vswr_b: ripple_db(vswr_a, vswr_b)[1],
    "reflection": mismatch.reflection_coefficient,
    "return_loss_db": lambda **ohms: mismatch.return_loss_db(mismatch.reflection_coefficient(**ohms)),
    "mismatch_loss_db": lambda **ohms: mismatch.mismatch_loss_db(mismatch.reflection_coefficient(**ohms)),
    "seen_return_loss_db": lambda return_loss_db, line_db: mismatch.return_loss_through_line_db(
        return_loss_db, line_db
    ),
    "total_loss_db": lambda line_db, vswr: mismatch.total_line_loss_db(line_db, mismatch.reflection_of_vswr(vswr)),
    "pad_series_ohm": lambda **ohms: mismatch.minimum_loss_pad(**ohms).series_ohm,
    "pad_shunt_ohm": lambda **ohms: mismatch.minimum_loss_pad(**ohms).shunt_ohm,
    "pad_loss_db": lambda **ohms: mismatch.minimum_loss_pad(**ohms).loss_db,
    "pi_shunt_ohm": lambda **given: pads.pi_pad(**given).shunt_ohm,
    "pi_series_ohm": lambda **given: pads.pi_pad(**given).series_ohm,
    "star_arm_ohm": lambda outputs, impedance_ohm: pads.resistive_splitter(int(outputs), impedance_ohm).arm_ohm,
    "star_loss_db": lambda outputs, impedance_ohm: pads.resistive_splitter(int(outputs), impedance_ohm).loss_db,
    "dbmv_of_dbm": levels.dbmv_of_dbm,
    "dbuv_of_dbm": lambda **given: levels.dbuv_of_dbmv(levels.dbmv_of_dbm(**given)),
    "total_dbmv": lambda level_dbmv, carriers: levels.total_of_equal_carriers_db(level_dbmv, int(carriers)),
    "loss": curve_loss,
    "depth_um": lambda freq_mhz: skin_effect.skin_depth_m(freq_mhz * 1e6) * 1e6,
    "outlet_dbmv": outlet_dbmv,
    "funnelled_dbmv": lambda noise_dbmv, legs: cascade.funnelled_noise_dbmv(noise_dbmv, int(legs)),
    "insert_peak_db": inserts.insert_peak_loss_db,
    "insert_return_loss_db": inserts.insert_least_return_loss_db,
    "tee_loss_db": lambda lines: inserts.bare_joint_loss_db(int(lines)),
    "tee_return_loss_db": lambda lines: inserts.bare_joint_return_loss_db(int(lines)),
    "through_floor_db": lambda tap_db: ideal_through_db(tap_db),
}


@pytest.mark.parametrize("row", rows("textbook_identities.csv"), ids=named)
def test_identities(row: dict[str, str]) -> None:
    compare("textbook, from memory" if row["confidence"] == "from memory" else "mismatch", row, QUANTITIES)
