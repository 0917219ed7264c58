"""The ways of signals, port by port, at each frequency and in each direction."""

from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: x (invented)\nbasis: {rulesets: [trade 1]}\n"
BROADBAND = """\
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}, up: {band: 5 to 42 MHz}}
devices:
  DROP: {kind: coax drop}
  SP:   {kind: splitter, ways: 2}
  TV:   {kind: outlet, serves: [net]}
  M:    {kind: cable modem, serves: [net]}
cables:
  C-1: {from: DROP, to: SP, type: series 6, length: 20 ft}
  C-2: {from: SP, to: TV, type: series 6, length: 20 ft}
  C-3: {from: SP, to: M, type: series 6, length: 20 ft}
"""


def network(text: str) -> Network:
    return build_network(understand(read_text(HEAD + text, "x")))


def steps(site: Network, service: str, direction: str, device: str) -> list[str]:
    signal = site.signal(service, "down" if direction == "down" else "up")
    (arrival,) = signal.at(device)
    return [f"{step.device.tag}.{step.port.name}" for step in arrival.way]


def test_downstream_goes_from_port_to_port_to_the_outlet() -> None:
    site = network(BROADBAND)
    assert steps(site, "net", "down", "TV") == ["DROP.out", "SP.in", "SP.out-1", "TV.in"]
    assert site.signal("net", "down").grid_hz == (54e6, 1002e6)


def test_upstream_tells_the_ways_that_lead_to_the_hand_off() -> None:
    site = network(BROADBAND)
    assert steps(site, "net", "up", "M") == ["DROP.out", "SP.in", "SP.out-2", "M.in"]
    assert site.signal("net", "up").grid_hz == (5e6, 42e6)


def test_a_one_way_amplifier_stops_the_return_path_and_passes_the_other() -> None:
    site = network(BROADBAND.replace("SP:   {kind: splitter, ways: 2}", "SP:   {kind: drop amplifier, outputs: 4}"))
    assert site.signal("net", "down").reaches("M")
    up = site.signal("net", "up")
    assert not up.reaches("M")
    (stop,) = up.stops
    assert (stop.arrival.device.tag, up.hertz(stop.frequencies), stop.is_known) == ("SP", (5e6, 42e6), True)


def test_a_diplexer_parts_the_bands_of_one_cable() -> None:
    site = network("""\
services:
  tv:  {kind: terrestrial TV, from: MIX, channels: [{name: "40", frequency: 626 MHz}]}
  sat: {kind: satellite IF, from: MIX, down: {band: 950 to 2150 MHz}}
devices:
  MIX: {kind: coax drop}
  DX:  {kind: diplexer, variant: TV/satellite}
  TV:  {kind: receiver}
  SAT: {kind: satellite receiver}
cables:
  C-1: {from: MIX, to: DX, type: series 6, length: 20 ft}
  C-2: {from: DX.TV, to: TV, type: series 6, length: 20 ft}
  C-3: {from: DX.satellite, to: SAT, type: series 6, length: 20 ft}
""")
    assert site.undecided_ports == ()
    assert site.unknown_references == ()
    tv = site.signal("tv", "down")
    sat = site.signal("sat", "down")
    assert (tv.reaches("TV"), tv.reaches("SAT")) == (True, False)
    assert (sat.reaches("TV"), sat.reaches("SAT")) == (False, True)
    both = site.signal("tv", "down", (626e6, 1500e6))
    assert both.hertz(both.at("TV")[0].frequencies) == (626e6,)
    assert both.hertz(both.at("SAT")[0].frequencies) == (1500e6,)
    assert both.stops == ()


def test_a_double_way_for_one_frequency_is_noted_once() -> None:
    site = network("""\
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}}
devices:
  DROP: {kind: coax drop}
  S1: {kind: splitter, ways: 2}
  S2: {kind: splitter, ways: 2}
  TV: {kind: outlet}
cables:
  C-1: {from: DROP, to: S1, type: series 6, length: 3 ft}
  C-2: {from: S1.out-1, to: S2.out-1, type: series 6, length: 3 ft}
  C-3: {from: S1.out-2, to: S2.out-2, type: series 6, length: 3 ft}
  C-4: {from: S2.in, to: TV, type: series 6, length: 3 ft}
""")
    down = site.signal("net", "down")
    assert down.reaches("TV")
    assert {f"{double.device.tag}.{double.port.name}" for double in down.doubles} >= {"S2.in"}


def test_a_dish_sends_by_the_converter_in_front_of_it() -> None:
    site = network("""\
services: {sat: {kind: satellite IF, from: DISH, down: {band: 950 to 2150 MHz}}}
devices:
  DISH: {kind: dish}
  LNB:  {kind: LNB, outputs: 1, on: DISH}
  SAT:  {kind: satellite receiver}
cables: {C-1: {from: LNB, to: SAT, type: series 6, length: 20 ft}}
""")
    assert site.signal("sat", "down").reaches("SAT")


def test_what_begins_at_nothing_goes_nowhere() -> None:
    site = network("services: {net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}}}\n")
    assert site.signal("net", "down").arrivals == ()


def test_the_walk_is_linear_in_the_size_of_the_site() -> None:
    def site(outlets: int) -> int:
        lines = ["services: {net: {kind: cable broadband, from: T-0, down: {band: 54 to 1002 MHz}}}", "devices:"]
        lines += ["  T-0: {kind: coax drop}"]
        lines += [f"  T-{n}: {{kind: tap, outputs: 2, value: 12 dB}}" for n in range(1, outlets + 1)]
        lines += ["cables:"]
        for n in range(1, outlets + 1):
            near = "T-0" if n == 1 else f"T-{n - 1}.out"
            lines.append(f"  C-{n}: {{from: {near}, to: T-{n}.in, type: series 11, length: 3 ft}}")
        return len(network("\n".join(lines) + "\n").signal("net", "down").arrivals)

    assert site(40) == 4 * (site(10) - 1) + 1
