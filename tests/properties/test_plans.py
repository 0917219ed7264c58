"""Generated plans: a tree of splitters is sound; a cable more between two of its branches closes a loop, a cable less
leaves out what hangs behind it.
"""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, NotMet, find_check
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

HEAD = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1]}
services: {net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}, up: {band: 5 to 42 MHz}}}
"""
LIMITS = {name: rule.limits for name, rule in combine(["trade 1"], shipped_registry()).rules.items()}


@st.composite
def trees(draw: st.DrawFn) -> list[int]:
    """For each splitter after the first, the earlier one that feeds it; none feeds more than two."""
    parents: list[int] = []
    for number in range(1, draw(st.integers(1, 8))):
        open_ones = [one for one in range(number) if parents.count(one) < 2]
        parents.append(draw(st.sampled_from(open_ones)))
    return parents


def design(parents: list[int], more: str = "", without: int | None = None) -> str:
    """4-way splitters in a tree, an outlet on the first output of each; C-n feeds the n-th splitter, D-n its outlet.

    The second and third outputs lead on, and the fourth is free.
    """
    devices = ["DROP: {kind: coax drop}"]
    cables = ["C-0: {from: DROP, to: S0.in, type: series 6, length: 2 m}"]
    for number in range(len(parents) + 1):
        devices += [f"S{number}: {{kind: splitter, ways: 4}}", f"O{number}: {{kind: outlet, serves: [net]}}"]
        cables.append(f"D-{number}: {{from: S{number}.out-1, to: O{number}, type: series 6, length: 2 m}}")
    for number, parent in enumerate(parents, start=1):
        output = 2 + parents[: number - 1].count(parent)
        if number != without:
            cables.append(
                f"C-{number}: {{from: S{parent}.out-{output}, to: S{number}.in, type: series 6, length: 2 m}}"
            )
    lines = [*cables, more] if more else cables
    return HEAD + "devices:\n  " + "\n  ".join(devices) + "\ncables:\n  " + "\n  ".join(lines) + "\n"


def told(rule: str, text: str) -> list[NotMet]:
    network = build_network(understand(read_text(text, "x")))
    check = find_check(rule)
    site = CheckContext(network, Analysis(network))
    said = [one for thing in check.each.select(network) for one in check.judge(thing, site, LIMITS[f"plan.{rule}"])]
    return [one for one in said if isinstance(one, NotMet)]


@given(trees())
def test_a_tree_of_splitters_is_sound(parents: list[int]) -> None:
    text = design(parents)
    for rule in ("loop-free", "outlet-fed", "dead-end", "direction-kept", "tag-unique", "length-stated"):
        assert told(rule, text) == [], rule


@given(trees().filter(bool), st.data())
def test_a_cable_between_two_branches_closes_one_loop(parents: list[int], data: st.DataObject) -> None:
    one, other = data.draw(st.lists(st.integers(0, len(parents)), min_size=2, max_size=2, unique=True))
    more = f"X-1: {{from: S{one}.out-4, to: S{other}.out-4, type: series 6, length: 2 m}}"
    (found,) = told("loop-free", design(parents, more))
    assert "X-1" in found.values["around"]


@given(trees().filter(bool), st.data())
def test_a_missing_cable_is_one_finding_that_names_what_waits_behind_it(
    parents: list[int], data: st.DataObject
) -> None:
    missing = data.draw(st.integers(1, len(parents)))
    behind = {missing}
    for number, parent in enumerate(parents, start=1):
        if parent in behind:
            behind.add(number)
    found = told("outlet-fed", design(parents, without=missing))
    assert {verdict.group for verdict in found} == {("fed over", f"S{missing}") if len(found) > 1 else ()}
    assert {verdict.values["head"] for verdict in found} == {f"S{missing}"}
    assert {verdict.at for verdict in found} == {("devices", f"O{number}") for number in behind}
