"""What of a service does not come to a device: where it stops on the way, or what waits for a cable."""

from __future__ import annotations

from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"
SERVICES = """\
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}}
  air: {kind: terrestrial TV, from: ANT, down: {band: 470 to 602 MHz}}
"""


def network(text: str) -> Network:
    return build_network(understand(read_text(HEAD + SERVICES + text, "x")))


ISLAND = """\
devices:
  DROP: {kind: coax drop}
  ANT:  {kind: antenna}
  SP:   {kind: splitter, ways: 3}
  A:    {kind: outlet, serves: [net]}
  B:    {kind: outlet, serves: [air, net]}
  C:    {kind: outlet}
  D:    {kind: outlet, serves: [net], state: reserve}
cables:
  K-1: {from: SP, to: A, type: series 6, length: 2 m}
  K-2: {from: SP, to: B, type: series 6, length: 2 m}
  K-3: {from: SP, to: D, type: series 6, length: 2 m}
"""


def test_outlets_that_wait_for_one_cable_are_found_once_for_all_of_them() -> None:
    feeding = network(ISLAND).survey.feeding
    waiting = feeding.waiting("A")
    assert waiting is not None
    assert waiting is feeding.waiting("B")
    assert [outlet.tag for outlet in waiting.outlets] == ["A", "B"]
    assert (waiting.services, waiting.head.tag, waiting.faults) == (("air", "net"), "SP", ())


def test_an_outlet_that_names_no_service_waits_where_no_cable_comes_to_it() -> None:
    alone = network(ISLAND).survey.feeding.waiting("C")
    assert alone is not None
    assert (alone.services, alone.head.tag) == ((), "C")


def test_what_is_kept_in_reserve_waits_for_nothing() -> None:
    assert network(ISLAND).survey.feeding.waiting("D") is None


LINE = """\
devices:
  DROP: {kind: coax drop}
  ANT:  {kind: antenna}
  SP:   {kind: splitter, ways: 2}
  LP:   {kind: filter, variant: low-pass}
  GB:   {kind: ground block}
  TV:   {kind: outlet, serves: [net]}
cables:
  K-1: {from: DROP, to: SP, type: series 6, length: 2 m}
  K-2: {from: SP, to: LP, type: series 6, length: 2 m}
  K-3: {from: LP, to: GB, type: series 6, length: 2 m}
  K-4: {from: GB, to: TV, type: series 6, length: 2 m}
"""


def test_a_service_stops_at_the_last_device_that_it_comes_to() -> None:
    feeding = network(LINE).survey.feeding
    (stop,) = feeding.stops("TV")
    assert (stop.services, stop.reached.tag) == (("net",), "LP")
    assert [path[1] for path in stop.way] == ["LP", "K-3", "GB", "K-4", "TV"]
    assert (feeding.stopped_at("LP").outlets, feeding.stopped_at("LP").services) == (("TV",), ("net",))


def test_what_comes_stops_nowhere() -> None:
    feeding = network(LINE.replace("filter, variant: low-pass", "ground block")).survey.feeding
    assert (feeding.stops("TV"), feeding.waiting("TV")) == ((), None)
