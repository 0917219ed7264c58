"""What is found by index is what looking at everything would find."""

from __future__ import annotations

from difflib import SequenceMatcher
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.network import Network, tag_order
from coaxwright.network.bonds import BONDING_POINTS, TERMINATION
from coaxwright.network.tags import nearest_tag
from coaxwright.reviewing.site import read_site

SITES = sorted((Path(__file__).parents[3] / "examples").glob("*/*.coax.yaml"))
LETTERS = st.text("CSsp-01", min_size=1, max_size=5)


@pytest.fixture(params=SITES, ids=lambda path: f"{path.parent.name}/{path.name}", scope="module")
def network(request: pytest.FixtureRequest) -> Network:
    return read_site(request.param).network()


def test_services_that_come_to_a_device(network: Network) -> None:
    for node in network.devices.values():
        one_by_one = tuple(tag for tag in network.services if network.survey.comes_to(tag, node))
        assert network.survey.coming_to(node) == one_by_one


def test_services_that_begin_or_end_at_a_device(network: Network) -> None:
    for tag, node in network.devices.items():
        expected = [
            service
            for service, one in network.services.items()
            if one.service.from_ == tag or node in network.outlets_of(service)
        ]
        assert list(network.survey.begins_or_ends(tag)) == expected


def test_where_a_service_may_be_had_does_not_depend_on_where_is_looked(network: Network) -> None:
    for service in network.services:
        found = network.survey.openings((service,))
        usable = [node for node in network.devices.values() if node.in_use and node.device.state != "reserve"]
        splitters = [node for node in usable if node.device.kind == "splitter"]
        assert list(found.splitters) == [node for node in splitters if network.survey.comes_to(service, node)]


def test_terminations_and_bonding_points_of_a_building(network: Network) -> None:
    buildings = {node.place.building for node in network.bonds.values() if node.place is not None} | {None, "nowhere"}
    for building in buildings:
        there = [node for node in network.bonds.values() if node.place and node.place.building == building]
        there = [node for node in there if node.in_use]
        expected = [node for node in there if node.item.kind == TERMINATION]
        assert list(network.survey.terminations(building)) == expected
        ranked = sorted(
            (BONDING_POINTS.index(node.item.kind), tag_order(node.tag))
            for node in there
            if node.item.kind in BONDING_POINTS
        )
        point = network.bonding_point(building)
        assert (tag_order(point.tag) if point else None) == (ranked[0][1] if ranked else None)


@given(LETTERS, st.lists(LETTERS, max_size=8, unique=True))
def test_the_nearest_tag_has_most_in_common(tag: str, known: list[str]) -> None:
    near = nearest_tag(tag, known)
    shares = {one: SequenceMatcher(a=one, b=tag).ratio() for one in known}
    same = [one for one in known if one.casefold() == tag.casefold()]
    close = same or [one for one in known if shares[one] >= 0.65 and shares[one] == max(shares.values())]
    assert near == (min(close, key=tag_order) if close else None)
