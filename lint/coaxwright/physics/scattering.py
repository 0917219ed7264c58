"""Solving a network of parts by their scattering matrices: a tree of splitters and cables, or any other.

Every part is a matrix for each frequency of one grid, all at one real reference impedance: b = S a, waves in a and
out b, their squares the powers. ``scatterers`` makes them. Grid in, grid out: one answer for each frequency.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf, log10
from typing import NamedTuple

from coaxwright.physics.matrices import Matrix, Singular, is_positive, solve_sparse

REFERENCE_OHM = 75.0
"""The reference impedance where none is named."""
PASSIVE_SLACK = 1e-9
"""Share of power that rounding may seem to add."""


class Port(NamedTuple):
    """A port of a part, counted from 0."""

    part: str
    number: int


class Resonance(ValueError):
    """A part of the network keeps a wave without any loss, so nothing settles how strong it is."""


@dataclass(frozen=True, slots=True)
class ScatteringNetwork:
    """Parts and how their ports are joined.

    parts: by name, one matrix for each frequency; joints: pairs of ports, face to face; outer: the ports that stay
    outside, in the order of the solution. Every port is in one joint or is an outer one; an unused port gets an open
    end or a terminator as a part of its own. Raises ValueError where that is not so, or grids or matrices differ.
    """

    parts: Mapping[str, Sequence[Matrix]]
    joints: Sequence[tuple[Port, Port]]
    outer: Sequence[Port]

    def __post_init__(self) -> None:
        if len({len(grid) for grid in self.parts.values()}) > 1:
            raise ValueError("the parts of a network have one matrix for each frequency of one grid")
        for name, grid in self.parts.items():
            sizes = {len(row) for matrix in grid for row in matrix} | {len(matrix) for matrix in grid}
            if len(sizes) > 1:
                raise ValueError(f"the matrices of {name} are square, and of one size at every frequency")
        if self.frequencies == 0:
            return  # no frequency, no matrix, no ports to count
        there = {Port(name, number) for name, grid in self.parts.items() for number in range(len(grid[0]))}
        named = Counter([*self.outer, *(port for joint in self.joints for port in joint)])
        if strange := sorted(named.keys() - there):
            raise ValueError(f"there is no port {strange[0].number} at {strange[0].part}")
        if left := sorted(there - named.keys()):
            raise ValueError(f"port {left[0].number} of {left[0].part} is joined to nothing: join it or end it")
        if twice := sorted(port for port, count in named.items() if count > 1):
            raise ValueError(f"port {twice[0].number} of {twice[0].part} is joined twice")

    @property
    def frequencies(self) -> int:
        """How many the grid has."""
        return len(next(iter(self.parts.values()), ()))


def solved(network: ScatteringNetwork) -> list[Matrix]:
    """The scattering matrix between the outer ports, for each frequency.

    b = S a at every part, a of a port = b of the port that it faces; b of the inner ports is solved for.
    Raises Resonance where a lossless loop or stub makes the equations singular.
    Source: textbook, connection of multiports.
    """
    number = {port: index for index, port in enumerate(_inner_in_order(network))}
    faces = {port: other for joint in network.joints for port, other in (joint, joint[::-1])}
    sources = {port: len(number) + index for index, port in enumerate(network.outer)}
    # Where the wave into a port comes from: the wave out of the port it faces, or from outside.
    arrives = {**{port: number[faces[port]] for port in number}, **sources}
    ports: dict[str, list[Port]] = {}
    for port in sorted(arrives):
        ports.setdefault(port.part, []).append(port)
    return [
        _solved_at({name: grid[index] for name, grid in network.parts.items()}, ports, number, arrives, network.outer)
        for index in range(network.frequencies)
    ]


def _solved_at(
    parts: Mapping[str, Matrix],
    ports: Mapping[str, Sequence[Port]],
    number: Mapping[Port, int],
    arrives: Mapping[Port, int],
    outer: Sequence[Port],
) -> Matrix:
    rows: list[dict[int, complex]] = [{} for _ in number]
    for port, index in number.items():
        row = rows[index]
        for through, share in zip(ports[port.part], parts[port.part][port.number], strict=True):
            if share:
                source = arrives[through]
                row[source] = share if source >= len(number) else -share
        row[index] = row.get(index, 0j) + 1  # two ports of one part that face each other meet here
    try:
        waves = solve_sparse(rows, range(len(number)))
    except Singular as singular:
        raise Resonance("a loop or stub without any loss resonates: give its cables their loss") from singular
    made = []
    for port in outer:
        out = [0j] * len(outer)
        for through, share in zip(ports[port.part], parts[port.part][port.number], strict=True):
            source = arrives[through]
            coming = {source: 1 + 0j} if source >= len(number) else waves[source]
            for key, value in coming.items():
                out[key - len(number)] += share * value
        made.append(tuple(out))
    return tuple(made)


def _inner_in_order(network: ScatteringNetwork) -> list[Port]:
    """The joined ports, those of the outermost parts first: so the equations of a tree hardly fill up."""
    neighbors: dict[str, Counter[str]] = {name: Counter() for name in network.parts}
    inner: dict[str, list[Port]] = {name: [] for name in network.parts}
    for joint in network.joints:
        for port, other in (joint, joint[::-1]):
            inner[port.part].append(port)
            if port.part != other.part:
                neighbors[port.part][other.part] += 1
    order = []
    while neighbors:
        name = min(neighbors, key=lambda part: (neighbors[part].total(), part))
        for beside in neighbors.pop(name):
            del neighbors[beside][name]
        order.extend(sorted(inner[name]))
    return order


def is_passive(matrix: Matrix, slack: float = PASSIVE_SLACK) -> bool:
    """Whether no wave makes the part give out more power than goes in: no eigenvalue of I - S^H S below zero.

    slack [-]: share of power that rounding may add. Source: textbook; Cholesky's factor of (1 + slack) I - S^H S.
    """
    size = len(matrix)
    columns = list(zip(*matrix, strict=True))
    return is_positive(
        tuple(
            tuple(
                (1 + slack if row == column else 0)
                - sum((a.conjugate() * b for a, b in zip(columns[row], columns[column], strict=True)), 0j)
                for column in range(size)
            )
            for row in range(size)
        )
    )


def transducer_gain_db(
    matrix: Matrix, source: int, load: int, source_reflection: complex = 0j, load_reflection: complex = 0j
) -> float:
    """Power into the load at one port over the power available from the source at another [dB]; -math.inf for none.

    |S21|² (1 - |rs|²)(1 - |rl|²) / |(1 - S11 rs)(1 - S22 rl) - S12 S21 rs rl|²

    source, load: numbers of the ports; their reflections against the reference impedance [-], 0 where they match it;
    the other ports end in the reference impedance. Raises ValueError for a reflection of 1 and more.
    Source: textbook; with matched ends |S21|².
    """
    if not (abs(source_reflection) < 1 and abs(load_reflection) < 1):
        raise ValueError("a source and a load that give or take power reflect less than all")
    s11, s12 = matrix[source][source], matrix[source][load]
    s21, s22 = matrix[load][source], matrix[load][load]
    echo = (1 - s11 * source_reflection) * (1 - s22 * load_reflection)
    echo -= s12 * s21 * source_reflection * load_reflection
    kept = (1 - abs(source_reflection) ** 2) * (1 - abs(load_reflection) ** 2)
    size = abs(s21)
    return -inf if size == 0 else 20 * log10(size / abs(echo)) + 10 * log10(kept)


def level_shift_db(gain_db: float, source_ohm: float, load_ohm: float) -> float:
    """Change of level [dBmV at the load less dBmV of the source, matched] for a gain of power [dB].

    gain + 10 log(load / source)

    source_ohm, load_ohm [ohm]: the voltage at a load of another impedance differs from its power.
    Raises ValueError where an impedance is not above zero. Source: identity, P = V²/R.
    """
    if not (0 < source_ohm < inf and 0 < load_ohm < inf):
        raise ValueError("an impedance is above zero")
    return gain_db + 10 * log10(load_ohm / source_ohm)


def port_return_loss_db(matrix: Matrix, port: int) -> float:
    """Return loss [dB] at an outer port, the others ending in the reference impedance; math.inf for none.

    Source: definition of the return loss.
    """
    size = abs(matrix[port][port])
    return inf if size == 0 else -20 * log10(size) + 0.0
