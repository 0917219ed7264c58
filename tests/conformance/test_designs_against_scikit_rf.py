"""Designs drawn by lot, from the text of the file to the level at the outlet, against scikit-rf's circuits.

The cables are scikit-rf's lines, with the loss that the catalogue prints and the delay of its velocity; how everything
is joined is told to scikit-rf by this test and to the product by the design. Splitters and taps are the product's
matrices on both sides. Where every port is ended and of one impedance, the plain sum of decibels has to do as well.
"""

from __future__ import annotations

import json
from math import inf, log10
from random import Random

import numpy as np
import pytest
import skrf
from accuracy import near, note
from skrf.circuit import Circuit
from skrf.media import DefinedGammaZ0

from coaxwright.analysis import Analysis, LossRange
from coaxwright.analysis.reflections import solve_service
from coaxwright.analysis.reflections.parts import device_matrices
from coaxwright.analysis.reflections.scattering_network import scattering
from coaxwright.catalogue import load_catalogue
from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.physics.scattering import solved
from coaxwright.source import read_text

FREQS_HZ = tuple(float(freq) for freq in np.linspace(50e6, 1000e6, 40))
FREQUENCY = skrf.Frequency.from_f(FREQS_HZ, unit="hz")
MATCHED = DefinedGammaZ0(FREQUENCY, z0=75.0, gamma=1j)
LIGHT_M_PER_S = 299_792_458
PARTS: dict[str, tuple[dict[str, object], tuple[str, ...]]] = {
    "2-way": ({"kind": "splitter", "ways": 2}, ("out-1", "out-2")),
    "3-way": ({"kind": "splitter", "ways": 3}, ("out-1", "out-2", "out-3")),
    "tap": ({"kind": "tap", "outputs": 2, "value": "12 dB"}, ("out", "tap-1", "tap-2")),
    "block": ({"kind": "ground block"}, ("out",)),
}
CLASSES = ("series 6", "series 11", "series 59")
UNLIKE = "10 mm 50 ohm low-loss"


class Drawn:
    """A design as data, and the same as a circuit."""

    def __init__(self, seed: int, *, clean: bool) -> None:
        self.lot = Random(seed)
        self.devices: dict[str, dict[str, object]] = {"DROP": {"kind": "coax drop"}}
        self.cables: dict[str, dict[str, str]] = {}
        self.outlets: list[str] = []
        self.open: list[str] = []
        ends = ["DROP"]
        for number in range(self.lot.randint(1, 6)):
            said, outs = PARTS[self.lot.choice(list(PARTS))]
            tag = f"P-{number}"
            self.devices[tag] = said
            self._cable(ends.pop(self.lot.randrange(len(ends))), f"{tag}.in", clean)
            ends += [f"{tag}.{out}" for out in outs]
        for number, end in enumerate(ends):
            if not clean and number and self.lot.random() < 0.3:
                self.open.append(end)
            elif clean and number and self.lot.random() < 0.2:
                self.devices[f"E-{number}"] = {"kind": "terminator", "on": end}
            else:
                tag = f"T-{number}"
                self.devices[tag] = {"kind": "outlet", "serves": ["net"]}
                self.outlets.append(tag)
                self._cable(end, tag, clean)

    def _cable(self, near_end: str, far_end: str, clean: bool) -> None:
        kind = self.lot.choice(CLASSES if clean else (*CLASSES, *CLASSES, UNLIKE))
        length = f"{self.lot.uniform(1, 40):.2f} m"
        self.cables[f"C-{len(self.cables)}"] = {"from": near_end, "to": far_end, "type": kind, "length": length}

    def network(self) -> Network:
        design = {
            "coaxwright": 1,
            "title": "Bench (invented)",
            "basis": {"rulesets": ["trade 1"]},
            "services": {"net": {"kind": "cable broadband", "from": "DROP", "down": {"band": "50 MHz to 1000 MHz"}}},
            "devices": self.devices,
            "cables": self.cables,
        }
        return build_network(understand(read_text(json.dumps(design), "bench.coax.yaml")))

    def circuit(self, network: Network) -> Circuit:
        """The source at port 0, then the outlets in order."""
        made: dict[str, skrf.Network] = {}
        numbers: dict[str, dict[str, int]] = {}
        for tag, said in self.devices.items():
            if said["kind"] in ("splitter", "tap", "ground block"):
                node = network.devices[tag]
                grid = np.array(device_matrices(node, FREQS_HZ))
                made[tag] = skrf.Network(frequency=FREQUENCY, s=grid, z0=75.0, name=tag)
                numbers[tag] = {port.name: number for number, port in enumerate(node.ports)}
        outside = {tag: Circuit.Port(FREQUENCY, f"at {tag}", z0=75.0) for tag in ("DROP", *self.outlets)}

        def at(written: str) -> tuple[skrf.Network, int]:
            tag, _, port = written.partition(".")
            return (made[tag], numbers[tag][port]) if port else (outside[tag], 0)

        connections = []
        for tag, said_cable in self.cables.items():
            line = self.line(said_cable)
            line.name = tag
            connections += [[at(said_cable["from"]), (line, 0)], [(line, 1), at(said_cable["to"])]]
        for number, end in enumerate(self.open):
            stub = MATCHED.load(1.0)
            stub.name = f"open {number}"
            connections.append([at(end), (stub, 0)])
        for tag, said in self.devices.items():
            if said["kind"] == "terminator":
                stub = MATCHED.load(0.0)
                stub.name = f"end {tag}"
                connections.append([at(str(said["on"])), (stub, 0)])
        ports = [outside[tag] for tag in ("DROP", *self.outlets)]
        connections.sort(key=lambda pair: next((ports.index(net) for net, _ in pair if net in ports), len(ports)))
        return Circuit(connections)

    @staticmethod
    def line(said: dict[str, str]) -> skrf.Network:
        made = load_catalogue().every_class[said["type"]]
        length_m = float(said["length"].removesuffix(" m"))
        loss_db = [made.attenuation.loss_db_per_m(freq_hz, 20.0).nominal_db_per_m for freq_hz in FREQS_HZ]
        phase = 2j * np.pi * FREQUENCY.f / (made.velocity_factor * LIGHT_M_PER_S)
        gamma = np.array(loss_db) / (20 * log10(np.e)) + phase
        return DefinedGammaZ0(FREQUENCY, z0=made.impedance_ohm, gamma=gamma, z0_port=75.0).line(length_m, "m")


def product_db(network: Network, outlets: list[str]) -> dict[str, list[float]]:
    """What the solved network of the design loses to each outlet [dB]."""
    (start,) = (one for one in network.signal("net", "down", FREQS_HZ).arrivals if one.before is None)
    ends = [(network.devices[tag], network.devices[tag].ports[0]) for tag in outlets]
    matrices = solved(scattering(network, (start.device, start.port), ends, FREQS_HZ))
    return {tag: [-20 * log10(abs(matrix[number][0])) for matrix in matrices] for number, tag in enumerate(outlets, 1)}


@pytest.mark.parametrize("seed", range(24))
def test_open_ports_and_unlike_cables(seed: int) -> None:
    drawn = Drawn(seed, clean=False)
    network = drawn.network()
    found = product_db(network, drawn.outlets)
    expected = drawn.circuit(network).s_external
    for number, tag in enumerate(drawn.outlets, 1):
        for index, computed_db in enumerate(found[tag]):
            wanted_db = -20 * log10(abs(complex(expected[index][number][0])))
            near("networks", "designs drawn by lot, by scikit-rf circuits", computed_db, wanted_db, "dB", 0.05)


@pytest.mark.parametrize("seed", range(100, 116))
def test_where_nothing_is_doubtful_the_sum_of_decibels_does(seed: int) -> None:
    """Every port ended: the rule of the trade is within 0.3 dB; outlets are taken for matched, so it is exact here."""
    drawn = Drawn(seed, clean=True)
    network = drawn.network()
    analysis = Analysis(network)
    told = solve_service(network, "net", "down", lambda grid: analysis.losses("net", "down", grid))
    assert told is not None
    assert told.doubts == ()
    found = product_db(network, drawn.outlets)
    expected = drawn.circuit(network).s_external
    for outlet in analysis.outlets("net", "down", FREQS_HZ):
        number = drawn.outlets.index(outlet.device.tag) + 1
        for reading, solved_db in zip(outlet.readings, found[outlet.device.tag], strict=True):
            assert isinstance(reading.loss_db, LossRange)
            wanted_db = -20 * log10(abs(complex(expected[reading.index][number][0])))
            near(
                "networks",
                "sums of decibels of matched designs, by scikit-rf",
                reading.loss_db.nominal,
                wanted_db,
                "dB",
                0.3,
            )
            note(
                "networks",
                "sums beside the solved network, matched",
                abs(reading.loss_db.nominal - solved_db),
                "dB",
                0.3,
            )
    assert inf > max(max(row) for row in found.values()) > 0
