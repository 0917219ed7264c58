"""Networks drawn by lot and solved twice: by the product, and by scikit-rf's circuits, 5 to 3000 MHz.

Lines, bare tees, resistors, ends and pads are scikit-rf's own on its side; splitters, taps and amplifiers, of which it
has none by data sheet, are the product's matrices on both sides, so what they compare is the solving of the network.
"""

from __future__ import annotations

from math import inf, log10, sqrt
from random import Random

import numpy as np
import pytest
import skrf
from accuracy import near, note
from skrf.circuit import Circuit
from skrf.media import DefinedGammaZ0

from coaxwright.physics import dividers, scatterers
from coaxwright.physics.geometry import delay_s_per_m, velocity_m_per_s
from coaxwright.physics.matrices import Matrix
from coaxwright.physics.mismatch import minimum_loss_pad
from coaxwright.physics.scattering import (
    Port,
    ScatteringNetwork,
    is_passive,
    port_return_loss_db,
    solved,
    transducer_gain_db,
)

FREQS_HZ = [float(freq) for freq in np.linspace(5e6, 3e9, 30)]
FREQUENCY = skrf.Frequency.from_f(FREQS_HZ, unit="hz")
MATCHED = DefinedGammaZ0(FREQUENCY, z0=75.0, gamma=1j)
ALLOWED_DB = 0.05
FAINT = 1e-5  # below -100 dB the figure is rounding
Made = tuple[list[Matrix], skrf.Network]


def from_matrices(grid: list[Matrix]) -> Made:
    return grid, skrf.Network(frequency=FREQUENCY, s=np.array(grid), z0=75.0)


def load(impedance_ohm: float) -> skrf.Network:
    reflection = 1.0 if impedance_ohm == inf else (impedance_ohm - 75) / (impedance_ohm + 75)
    return MATCHED.load(reflection)


def line(lot: Random) -> Made:
    length_m, velocity_factor = lot.choice([0.04, lot.uniform(0.2, 5), lot.uniform(5, 60)]), lot.uniform(0.66, 0.88)
    k1, k2 = lot.uniform(0.35, 1.2), lot.choice([0.0, 0.0015])  # dB/100 m, f in MHz
    impedance_ohm = lot.choice([50.0, 72.0, 75.0, 75.0, 77 - 2j, 93.0])
    loss_db = [length_m / 100 * (k1 * sqrt(freq / 1e6) + k2 * freq / 1e6) for freq in FREQS_HZ]
    ours = scatterers.line(FREQS_HZ, loss_db, length_m * delay_s_per_m(velocity_factor), impedance_ohm)
    gamma = np.array(loss_db) / (20 * log10(np.e) * length_m)
    gamma = gamma + 2j * np.pi * FREQUENCY.f / velocity_m_per_s(velocity_factor)
    return ours, DefinedGammaZ0(FREQUENCY, z0=impedance_ohm, gamma=gamma, z0_port=75.0).line(length_m, "m")


def splitter(lot: Random) -> Made:
    loss_db, outputs = lot.choice([(3.5, 2), (3.9, 2), (5.8, 3), (7.2, 4), (11.0, 8)])
    grid = dividers.divider(
        FREQS_HZ, [loss_db] * outputs, lot.uniform(14, 22), lot.uniform(14, 22), lot.uniform(18, 30), within_loss=True
    )
    assert all(map(is_passive, grid))
    return from_matrices(grid)


def tap(lot: Random) -> Made:
    through_db, tap_db = lot.choice([(2.4, 6.0), (1.1, 12.0), (0.7, 20.0)])
    return from_matrices(dividers.divider(FREQS_HZ, [through_db, tap_db], 18.0, 18.0, 26.0, within_loss=True))


def amplifier(lot: Random) -> Made:
    return from_matrices(dividers.amplifier(FREQS_HZ, lot.uniform(4, 25), 14.0, 16.0, lot.choice([inf, 40.0])))


def tee(lot: Random) -> Made:
    ports = lot.choice([3, 3, 4])
    return scatterers.bare_joint(FREQS_HZ, ports), MATCHED.splitter(ports)


def shunt(lot: Random) -> Made:
    impedance_ohm = lot.uniform(30, 2000)
    return scatterers.shunt(FREQS_HZ, impedance_ohm), MATCHED.shunt(load(impedance_ohm))


def series(lot: Random) -> Made:
    impedance_ohm = lot.uniform(0.1, 120)
    return scatterers.series(FREQS_HZ, impedance_ohm), MATCHED.resistor(impedance_ohm)


def pad(lot: Random) -> Made:
    resistors = minimum_loss_pad(75, 50)
    del lot
    cascade = MATCHED.resistor(resistors.series_ohm) ** MATCHED.shunt(load(resistors.shunt_ohm))
    return scatterers.matching_pad(FREQS_HZ, 75, 50), cascade


def end(lot: Random) -> Made:
    impedance_ohm = lot.choice([75.0, 50.0, 300.0, lot.uniform(20, 600), inf, 0.1])
    return scatterers.termination(FREQS_HZ, impedance_ohm), load(impedance_ohm)


KINDS = [line, line, line, line, splitter, splitter, tap, tee, shunt, series, pad, amplifier]


def drawn(seed: int) -> tuple[ScatteringNetwork, Circuit]:
    """A tree of parts, every third one with a loop; two to six ports stay outside, the others get an end."""
    lot = Random(seed)
    ours: dict[str, list[Matrix]] = {}
    theirs: dict[str, skrf.Network] = {}
    free: list[Port] = []
    joints: list[tuple[Port, Port]] = []

    def add(made: Made) -> list[Port]:
        name = f"part {len(ours)}"
        ours[name], theirs[name] = made
        theirs[name].name = name
        return [Port(name, number) for number in range(made[1].nports)]

    free.extend(add(splitter(lot) if seed % 2 else line(lot)))
    for _ in range(lot.randint(2, 14)):
        joined = free.pop(lot.randrange(len(free)))
        kinds = [kind for kind in KINDS if kind is not amplifier or seed % 3]  # a loop with gain need not be stable
        first, *others = add(lot.choice(kinds)(lot))
        joints.append((joined, first))
        free.extend(others)
    if seed % 3 == 0 and len(free) >= 4:
        one, other = (free.pop(lot.randrange(len(free))) for _ in range(2))
        first, second = add(line(lot))
        joints += [(one, first), (other, second)]
    while len(free) > 6 or (len(free) > 2 and lot.random() < 0.3):
        joints.append((free.pop(lot.randrange(len(free))), add(end(lot))[0]))
    connections = [[(theirs[port.part], port.number) for port in joint] for joint in joints]
    for index, port in enumerate(free):
        outside = Circuit.Port(FREQUENCY, f"outside {index}", z0=75.0)
        connections.append([(outside, 0), (theirs[port.part], port.number)])
    return ScatteringNetwork(ours, joints, free), Circuit(connections)


@pytest.mark.parametrize("seed", range(48))
def test_network(seed: int) -> None:
    network, circuit = drawn(seed)
    expected = circuit.s_external
    matrices = solved(network)
    size = range(len(network.outer))
    compared = 0
    for matrix, wanted in zip(matrices, expected, strict=True):
        for source in size:
            for load_port in size:
                wanted_size = abs(complex(wanted[load_port][source]))
                if wanted_size < FAINT:
                    assert abs(matrix[load_port][source]) < 2 * FAINT
                    continue
                computed_db = transducer_gain_db(matrix, source, load_port)
                if source == load_port:
                    computed_db = -port_return_loss_db(matrix, source)
                near("networks", "scikit-rf circuits", computed_db, 20 * log10(wanted_size), "dB", ALLOWED_DB)
                compared += 1
    assert compared >= len(FREQS_HZ)


@pytest.mark.parametrize("impedance_ohm", [50.0, 77 - 2j])
def test_phase_of_a_line(impedance_ohm: complex) -> None:
    loss_db = [2 * sqrt(freq / 1e9) for freq in FREQS_HZ]
    ours = scatterers.line(FREQS_HZ, loss_db, 1e-7, impedance_ohm)
    gamma = np.array(loss_db) / (20 * log10(np.e)) + 2j * np.pi * FREQUENCY.f * 1e-7
    theirs = DefinedGammaZ0(FREQUENCY, z0=impedance_ohm, gamma=gamma, z0_port=75.0).line(1, "m")
    note("networks", "scikit-rf line, waves", float(abs(np.array(ours) - theirs.s).max()), "of 1", 1e-9)


def test_renormalizing() -> None:
    """A matrix of 50, 50 and 300 ohm to 75 ohm throughout, by scikit-rf's own renormalizing."""
    grid = dividers.divider(FREQS_HZ, [3.6, 5.0], 15.0, 19.0, 24.0)
    theirs = skrf.Network(frequency=FREQUENCY, s=np.array(grid), z0=np.array([50.0, 50.0, 300.0]))
    theirs.renormalize(75.0)
    ours = [scatterers.renormalized(matrix, [50.0, 50.0, 300.0], 75.0) for matrix in grid]
    note("networks", "scikit-rf renormalizing, waves", float(abs(np.array(ours) - theirs.s).max()), "of 1", 1e-9)


def test_transducer_gain_with_a_source_and_a_load_of_other_impedances() -> None:
    """50 ohm source and 300 ohm load: |S21|² of the same network renormalized to them."""
    grid = dividers.divider(FREQS_HZ, [1.2, 12.0], 15.0, 19.0, 24.0)
    theirs = skrf.Network(frequency=FREQUENCY, s=np.array(grid), z0=75.0)
    theirs.renormalize(np.array([50.0, 300.0, 75.0]))
    for matrix, wanted in zip(grid, theirs.s, strict=True):
        computed_db = transducer_gain_db(matrix, 0, 1, (50 - 75) / (50 + 75), (300 - 75) / (300 + 75))
        expected_db = 20 * log10(abs(complex(wanted[1][0])))
        near("networks", "scikit-rf gain between unlike ends", computed_db, expected_db, "dB", 1e-6)
