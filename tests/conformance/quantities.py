"""What the files of published values ask for, by the names of their first column."""

from __future__ import annotations

from collections.abc import Callable
from math import pi, sqrt
from types import MappingProxyType

from coaxwright.physics import cascade, geometry, inserts, levels, line_loss, mismatch, pads, skin_effect
from coaxwright.physics.attenuation import loss_at_temperature
from coaxwright.physics.dividing import ideal_split_db, ideal_through_db
from coaxwright.physics.loss_fit import LossCurve
from coaxwright.physics.placing import gain_window_db
from coaxwright.physics.skin_effect import Metal

FT = 0.3048
IN = 0.0254


def conductor_db_per_100_ft(outer_in: float, inner_in: float, impedance_ohm: float) -> float:
    """At 1 MHz, for a line whose velocity gives that impedance."""
    velocity_factor = impedance_ohm / geometry.characteristic_impedance_ohm(outer_in, inner_in, 1.0)
    line = line_loss.CrossSection(outer_in * IN, inner_in * IN, velocity_factor)
    return line_loss.conductor_loss_db_per_m(1e6, line) * 100 * FT


def outer_radius_mm(impedance_ohm: float, er: float, inner_mm: float) -> float:
    """The radius at which a line has an impedance."""
    least, most = inner_mm, inner_mm * 100
    for _ in range(60):
        middle = (least + most) / 2
        is_small = geometry.characteristic_impedance_ohm(middle, inner_mm, 1 / sqrt(er)) < impedance_ohm
        least, most = (middle, most) if is_small else (least, middle)
    return least


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


def wire_ohm_per_m(diameter_mm: float, freq_mhz: float, rho: float) -> float:
    return skin_effect.wire_impedance_ohm_per_m(freq_mhz * 1e6, diameter_mm * 1e-3, Metal(rho)).real


QUANTITIES: MappingProxyType[str, Callable[..., float]] = MappingProxyType(
    {
        # levels
        "dbm_of_dbmv": levels.dbm_of_dbmv,
        "dbmv_of_dbm": levels.dbmv_of_dbm,
        "dbuv_of_dbm": lambda **given: levels.dbuv_of_dbmv(levels.dbmv_of_dbm(**given)),
        "power_nw": lambda level_dbmv: levels.watts_of_dbm(levels.dbm_of_dbmv(level_dbmv, 75)) * 1e9,
        "voltage_mv": lambda level_dbmv: levels.volts_of_dbmv(level_dbmv) * 1e3,
        "dbm_of_dbuv": lambda level_dbuv, impedance_ohm: levels.dbm_of_dbmv(
            levels.dbmv_of_dbuv(level_dbuv), impedance_ohm
        ),
        "voltage_of_dbm_mv": lambda level_dbm, impedance_ohm: (
            levels.volts_of_dbmv(levels.dbmv_of_dbm(level_dbm, impedance_ohm)) * 1e3
        ),
        "dbuv_of_uv": lambda voltage_uv: levels.dbuv_of_dbmv(levels.dbmv_of_volts(voltage_uv * 1e-6)),
        "dbm_of_uv": lambda voltage_uv, impedance_ohm: levels.dbm_of_dbmv(
            levels.dbmv_of_volts(voltage_uv * 1e-6), impedance_ohm
        ),
        "sum_db": lambda first, second: levels.sum_of_powers_db([first, second]),
        "total_dbmv": lambda level_dbmv, carriers: levels.total_of_equal_carriers_db(level_dbmv, int(carriers)),
        "funnelled_dbmv": lambda noise_dbmv, legs: cascade.funnelled_noise_dbmv(noise_dbmv, int(legs)),
        "least_mv": levels.us_minimum_level_mv,
        "dbmv_of_mv": lambda voltage_mv: levels.dbmv_of_volts(voltage_mv * 1e-3),
        # the line
        "impedance_ohm": lambda ratio, er: geometry.characteristic_impedance_ohm(ratio, 1, 1 / sqrt(er)),
        "outer_radius_mm": outer_radius_mm,
        "velocity_m_per_s": lambda er: geometry.velocity_m_per_s(1 / sqrt(er)),
        "velocity_ft_per_s_of_factor": lambda velocity: geometry.velocity_m_per_s(velocity) / FT,
        "delay_ns_per_ft_of_factor": lambda velocity: geometry.delay_s_per_m(velocity) * 1e9 * FT,
        "delay_ns_per_ft": lambda er: geometry.delay_s_per_m(1 / sqrt(er)) * 1e9 * FT,
        "delay_ns": lambda velocity, length_m: geometry.delay_s_per_m(velocity) * length_m * 1e9,
        "capacitance_pf_per_ft": lambda ratio, er: geometry.capacitance_pf_per_m(ratio, 1, 1 / sqrt(er)) * FT,
        "capacitance_of_impedance_pf_per_ft": lambda impedance_ohm, velocity: (
            geometry.capacitance_of_impedance_pf_per_m(impedance_ohm, velocity) * FT
        ),
        "inductance_uh_per_ft": lambda ratio: geometry.inductance_uh_per_m(ratio, 1) * FT,
        "cutoff_ghz": lambda sum_in, er: (
            geometry.cutoff_hz(sum_in * 0.8 * 25.4, sum_in * 0.2 * 25.4, 1 / sqrt(er)) / 1e9
        ),
        "conductor_db_per_100_ft": conductor_db_per_100_ft,
        "dielectric_db_per_100_ft": lambda er, loss_tangent: (
            line_loss.dielectric_loss_db_per_m(1e6, 1 / sqrt(er), loss_tangent) * 100 * FT
        ),
        "loss": curve_loss,
        "loss_at_db": lambda loss_db, temperature_f: loss_at_temperature(loss_db, (temperature_f - 32) / 1.8),
        "depth_um": lambda freq_mhz, rho=skin_effect.COPPER_OHM_M: (
            skin_effect.skin_depth_m(freq_mhz * 1e6, Metal(rho)) * 1e6
        ),
        "resistance_mohm_per_m": lambda **given: wire_ohm_per_m(**given) * 1e3,
        "ratio_to_dc": lambda diameter_mm, freq_mhz, rho: (
            wire_ohm_per_m(diameter_mm, freq_mhz, rho) / (rho / (pi / 4 * (diameter_mm * 1e-3) ** 2))
        ),
        # mismatch
        "reflection": mismatch.reflection_coefficient,
        "vswr_of_ohms": lambda **ohms: mismatch.vswr(mismatch.reflection_coefficient(**ohms)),
        "return_loss_of_ohms_db": lambda **ohms: mismatch.return_loss_db(mismatch.reflection_coefficient(**ohms)),
        "mismatch_loss_db": lambda **ohms: mismatch.mismatch_loss_db(mismatch.reflection_coefficient(**ohms)),
        "vswr": lambda return_loss_db: mismatch.vswr(mismatch.reflection_of_return_loss(return_loss_db)),
        "return_loss_db": lambda vswr: mismatch.return_loss_db(mismatch.reflection_of_vswr(vswr)),
        "reflected_percent": lambda vswr: 100 * mismatch.reflected_power_share(mismatch.reflection_of_vswr(vswr)),
        "mismatch_loss_of_vswr_db": lambda vswr: mismatch.mismatch_loss_db(mismatch.reflection_of_vswr(vswr)),
        "interaction_mean_db": lambda **vswrs: (ripple_db(**vswrs)[1] - ripple_db(**vswrs)[0]) / 2,
        "ripple_low_db": lambda **vswrs: ripple_db(**vswrs)[0],
        "ripple_high_db": lambda **vswrs: ripple_db(**vswrs)[1],
        "seen_return_loss_db": lambda return_loss_db, line_db: mismatch.return_loss_through_line_db(
            return_loss_db, line_db
        ),
        "total_loss_db": lambda line_db, vswr: mismatch.total_line_loss_db(line_db, mismatch.reflection_of_vswr(vswr)),
        "extra_loss_db": lambda line_db, vswr: (
            mismatch.total_line_loss_db(line_db, mismatch.reflection_of_vswr(vswr)) - line_db
        ),
        "notch_mhz": lambda velocity, length_m: inserts.stub_notch_hz(length_m, velocity) / 1e6,
        "insert_peak_db": inserts.insert_peak_loss_db,
        "insert_return_loss_db": inserts.insert_least_return_loss_db,
        "tee_loss_db": lambda lines: inserts.bare_joint_loss_db(int(lines)),
        "tee_return_loss_db": lambda lines: inserts.bare_joint_return_loss_db(int(lines)),
        "pad_series_ohm": lambda **ohms: mismatch.minimum_loss_pad(**ohms).series_ohm,
        "pad_shunt_ohm": lambda **ohms: mismatch.minimum_loss_pad(**ohms).shunt_ohm,
        "pad_loss_db": lambda **ohms: mismatch.minimum_loss_pad(**ohms).loss_db,
        "pi_shunt_ohm": lambda **given: pads.pi_pad(**given).shunt_ohm,
        "pi_series_ohm": lambda **given: pads.pi_pad(**given).series_ohm,
        # what divides
        "star_arm_ohm": lambda outputs, impedance_ohm: pads.resistive_splitter(int(outputs), impedance_ohm).arm_ohm,
        "star_loss_db": lambda outputs, impedance_ohm: pads.resistive_splitter(int(outputs), impedance_ohm).loss_db,
        "split_db": lambda ways: ideal_split_db(int(ways)),
        "through_db": ideal_through_db,
        "through_floor_db": ideal_through_db,
        "outlet_dbmv": outlet_dbmv,
        "least_gain_db": lambda antenna_dbmv, splitter_db, least_dbmv, most_dbmv: (
            gain_window_db(antenna_dbmv, splitter_db, least_dbmv, most_dbmv).least_db
        ),
        "most_gain_db": lambda antenna_dbmv, splitter_db, least_dbmv, most_dbmv: (
            gain_window_db(antenna_dbmv, splitter_db, least_dbmv, most_dbmv).most_db
        ),
    }
)
