"""Conversions of levels that a magazine, an encyclopaedia, a mailing list, a graph and lecture notes print."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows

from coaxwright.physics import levels

QUANTITIES = {
    "dbm_of_dbmv": levels.dbm_of_dbmv,
    "power_nw": lambda level_dbmv: levels.watts_of_dbm(levels.dbm_of_dbmv(level_dbmv, 75)) * 1e9,
    "voltage_mv": lambda level_dbmv: levels.volts_of_dbmv(level_dbmv) * 1e3,
    "dbm_of_dbuv": lambda level_dbuv, impedance_ohm: levels.dbm_of_dbmv(levels.dbmv_of_dbuv(level_dbuv), impedance_ohm),
    "voltage_of_dbm_mv": lambda level_dbm, impedance_ohm: (
        levels.volts_of_dbmv(levels.dbmv_of_dbm(level_dbm, impedance_ohm)) * 1e3
    ),
    "dbuv_of_uv": lambda voltage_uv: levels.dbuv_of_dbmv(levels.dbmv_of_volts(voltage_uv * 1e-6)),
    "dbm_of_uv": lambda voltage_uv, impedance_ohm: levels.dbm_of_dbmv(
        levels.dbmv_of_volts(voltage_uv * 1e-6), impedance_ohm
    ),
    "sum_db": lambda first, second: levels.sum_of_powers_db([first, second]),
}


@pytest.mark.parametrize("row", rows("level_conversions.csv"), ids=named)
def test_published_conversions(row: dict[str, str]) -> None:
    compare("levels and units", row, QUANTITIES)


def test_a_page_that_is_wrong() -> None:
    """One page quotes -44 dBm as 55 mV in 75 ohm; it is 1.73 mV."""
    assert levels.volts_of_dbmv(levels.dbmv_of_dbm(-44, 75)) * 1e3 == pytest.approx(1.73, abs=0.005)
