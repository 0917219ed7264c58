"""How full a raceway is, at the share that is good practice and a little beyond; and what is wide enough.

Ten cables of the diameter d fill 40 % of a raceway 5 d wide: 10 d² / 25 d². That is the share for more than two cables.
Source: NFPA 70, chapter 9, Table 1.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from asking import findings

from coaxwright.checks import NotMet
from coaxwright.design.value_types import Phrase

FILL = "route.raceway-fill"
NotMetOf = Callable[..., dict[str, list[NotMet]]]
SITE = """\
catalogue:
  classes:
    thick line: {{like: series 6, shields: {{tri: {{outer diameter: {diameter}}}}}}}
places: {{cellar: {{}}, den: {{}}}}
raceways:
  R: {{kind: electrical metallic tubing, {size}}}
devices:
{devices}cables:
{cables}
"""


def site(diameter: str, size: str) -> str:
    """Ten cables of a diameter in a raceway of a size."""
    devices = "".join(f"  {tag}-{n}: {{kind: outlet, place: den}}\n" for n in range(10) for tag in "AB")
    cables = "\n".join(
        f"  C-{n}: {{from: A-{n}, to: B-{n}, type: thick line tri, route: [cellar: {{length: 2 m, in: R}}]}}"
        for n in range(10)
    )
    return SITE.format(diameter=diameter, size=size, devices=devices, cables=cables)


@pytest.mark.parametrize(
    ("inner", "share"),
    [
        ("35 mm", None),
        ("34.99 mm", "40.02 %"),
        ("34.9825 mm", "40.04 %"),  # which rounds to 40 % twice
        ("34.8 mm", "40.5 %"),
        ("34 mm", "42 %"),
        ("34.99999995 mm", "40 %"),  # a ten-millionth beyond: nobody reads more than six places
    ],
)
def test_a_share_is_told_so_that_it_differs_from_its_limit(inner: str, share: str | None) -> None:
    told = findings(FILL, site("7 mm", f"inner diameter: {inner}"))
    assert [f" fill {share} of R " in finding.found for finding in told] == ([True] if share is not None else [])
    assert all(finding.remedy.endswith("at least 35 mm") for finding in told)


def test_a_trade_size_that_is_just_wide_enough_is_offered(not_met_of: NotMetOf) -> None:
    """Thin-wall tubing of 1 in is 1.049 in wide, of 1-1/4 in 1.38 in. Source: NFPA 70, chapter 9, Table 4, from memory.

    A fifth of 1.049 in is 0.2098 in.
    """
    (told,) = not_met_of(FILL, site("0.2098 in", "trade size: 3/4"))["R"]
    assert told.values["instead"] == Phrase("trade size", {"size": "1"})
    (finding,) = findings(FILL, site("0.2098 in", "trade size: 3/4"))
    assert finding.remedy == "take trade size 1: an inner diameter of at least 1.049 in"
    (told,) = not_met_of(FILL, site("0.2099 in", "trade size: 3/4"))["R"]
    assert told.values["instead"] == Phrase("trade size", {"size": "1-1/4"})
