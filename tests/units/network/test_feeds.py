"""How what needs power gets it over the coax."""

from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.network.feeds import Feed
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: x (invented)\nbasis: {rulesets: [trade 1]}\n"


def network(between: str = "ground block", more: str = "") -> Network:
    return build_network(
        understand(
            read_text(
                HEAD
                + f"""\
devices:
  ANT: {{kind: antenna}}
  PRE: {{kind: preamplifier}}
  MID: {{kind: {between}}}
  PI:  {{kind: power inserter, supply: 15 V}}
  TV:  {{kind: outlet}}
{more}
cables:
  C-1: {{from: ANT, to: PRE, type: series 6, length: 3 ft}}
  C-2: {{from: PRE, to: MID, type: series 6, length: 30 ft}}
  C-3: {{from: MID, to: PI, type: series 6, length: 30 ft}}
  C-4: {{from: PI, to: TV, type: series 6, length: 30 ft}}
""",
                "x",
            )
        )
    )


def feed(site: Network) -> Feed:
    found = site.feed("PRE")
    assert found is not None
    return found


def test_a_preamplifier_is_fed_by_the_inserter_through_a_ground_block() -> None:
    found = feed(network())
    assert found.feeder is not None
    assert found.feeder.tag == "PI"
    assert [leg.cable.tag if leg.cable else leg.device.tag for leg in found.legs] == ["C-2", "MID", "C-3"]
    assert found.blocked == ()


def test_a_dc_block_on_the_way_stops_the_feed_and_is_named() -> None:
    found = feed(network("DC block"))
    assert found.feeder is None
    assert [leg.device.tag for leg in found.blocked] == ["MID"]


def test_what_the_design_says_of_a_port_counts_before_the_catalogue() -> None:
    said = "ground block, ports: {a: {passes power: false}}"
    site = network(said)
    names = [port.name for port in site.devices["MID"].ports]
    site = network(said.replace("a:", f"{names[0]}:"))
    assert site.unknown_references == ()
    assert [leg.device.tag for leg in feed(site).blocked] == ["MID"]


def test_nothing_feeds_it_where_no_inserter_is_there() -> None:
    site = network()
    alone = build_network(understand(read_text(HEAD + "devices: {PRE: {kind: preamplifier}}\n", "x")))
    assert site.feed("TV") is None
    found = feed(alone)
    assert (found.legs, found.feeder, found.blocked) == ((), None, ())
