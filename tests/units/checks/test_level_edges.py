"""A level that is sure to be out, one that may be, and one that is in, at each edge of a window and of a modem's range.

The part between loses 3 to 6 dB, 4 dB as usual, and 2 dB more in its upper band; the leads are a foot long. So every
figure is the sum of the demarcation point and of these.
"""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from coaxwright.checks import CannotJudge, NotMet, Verdict
from coaxwright.design.quantities import Level
from coaxwright.findings import Finding, Outcome
from coaxwright.network import Unknown
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import combine, shipped_registry
from coaxwright.rules.phrase_book import cause_text
from coaxwright.source import read_text

VerdictsOf = Callable[..., dict[str, list[Verdict]]]
DESIGN = """\
coaxwright: 1
title: Dotterel Bench 4 (invented)
basis: {{rulesets: [trade 1]}}
catalogue:
  devices:
    wide splitter:
      like: 2-way splitter
      paths:
        - {{from: in, to: out, band: 5 MHz to 20 MHz, low: 3 dB, nominal: 4 dB, high: 6 dB}}
        - {{from: in, to: out, band: 21 MHz to 700 MHz, low: 5 dB, nominal: 6 dB, high: 8 dB}}
        - {{from: in, to: out, band: 701 MHz to 1002 MHz, low: 3 dB, nominal: 4 dB, high: 6 dB}}
services:
  net:
    kind: cable broadband
    from: DROP
    down: {{band: 600 MHz to 800 MHz, level: ["{down} dBmV at 600 MHz", "{down} dBmV at 800 MHz"]}}
    up: {{band: 10 MHz to 30 MHz, wanted: {up} dBmV}}
    at outlets: {{level: 0 to 10 dBmV}}
devices:
  DROP: {{kind: coax drop}}
  SP: {{kind: splitter, ways: 2, model: wide splitter}}
  MODEM: {{kind: cable modem, serves: [net], output level: 20 to 50 dBmV}}
  T: {{kind: terminator, on: SP.out-2}}
cables:
  C-1: {{from: DROP, to: SP, type: series 6, length: 1 ft}}
  C-2: {{from: SP.out-1, to: MODEM, type: series 6, length: 1 ft}}
"""
TEXTS = {
    "window": "at outlets: {level: 0 to 10 dBmV}",
    "modem": "MODEM: {kind: cable modem, serves: [net], output level: 20 to 50 dBmV}",
    "lowest_band": "band: 5 MHz to 20 MHz, low: 3 dB, nominal: 4 dB, high: 6 dB",
    "lead": "C-1: {from: DROP, to: SP, type: series 6, length: 1 ft}",
    "drop": "C-2: {from: SP.out-1, to: MODEM, type: series 6, length: 1 ft}",
    "terminator": "T: {kind: terminator, on: SP.out-2}",
    "places": "devices:\n  DROP: {kind: coax drop}",
}
NO_LEADS = {
    "lead": "C-1: {from: DROP, to: SP, type: series 6, length: 0 ft}",
    "drop": "C-2: {from: SP.out-1, to: MODEM, type: series 6, length: 0 ft}",
}


def reviewed(down: float = 11, up: float = 40, **exchanged: str) -> DesignReview:
    """The bench with other figures, and with other texts for those named in ``TEXTS``."""
    text = DESIGN.format(down=down, up=up)
    for name, put in exchanged.items():
        assert text.count(TEXTS[name]) == 1, name
        text = text.replace(TEXTS[name], put)
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert review.problems == ()
    assert review.crashes == ()
    return review


def found(rule: str, down: float = 11, up: float = 40, **exchanged: str) -> Finding | None:
    of_it = [one for one in reviewed(down, up, **exchanged).unfolded if one.rule == rule]
    assert len(of_it) <= 1
    return of_it[0] if of_it else None


def not_met(rule: str, down: float = 11, up: float = 40, **exchanged: str) -> Finding:
    finding = found(rule, down, up, **exchanged)
    assert finding is not None
    assert finding.outcome is Outcome.NOT_MET
    return finding


def clauses(finding: Finding) -> str:
    return "; ".join(str(source) for source in finding.sources)


@pytest.mark.parametrize(
    ("down", "outcome", "told"),
    [
        (18, Outcome.NOT_MET, "at 800 MHz"),  # 12 to 15 there: above 10 whatever holds
        (15, Outcome.CANNOT_BE_JUDGED, "8.9 dBmV to 11.9 dBmV at 800 MHz"),
        (12.5, None, ""),  # 9.5 at the most
        (9, None, ""),  # 1 at the least, where most is lost
        (7, Outcome.CANNOT_BE_JUDGED, "-1.1 dBmV to 1.9 dBmV at 600 MHz"),
        (4, Outcome.NOT_MET, "at 600 MHz"),  # -4 to -1 there: below 0 whatever holds
    ],
)
def test_a_window_at_an_outlet(down: float, outcome: Outcome | None, told: str) -> None:
    finding = found("level.outlet-window", down=down)
    assert (finding.outcome if finding is not None else None) is outcome
    assert finding is None or told in finding.found


@pytest.mark.parametrize(
    ("up", "outcome", "told"),
    [
        (46, Outcome.NOT_MET, "at 30 MHz"),  # 51 to 54 there: beyond 50 whatever holds
        (43.5, Outcome.CANNOT_BE_JUDGED, "48.5 dBmV to 51.5 dBmV at 30 MHz"),
        (41, None, ""),  # 49 at the most
    ],
)
def test_what_a_modem_can_send(up: float, outcome: Outcome | None, told: str) -> None:
    finding = found("return.upstream-level", up=up)
    assert (finding.outcome if finding is not None else None) is outcome
    assert finding is None or told in finding.found


def test_the_worst_frequency_is_told_with_what_is_missing_by_usual_figures() -> None:
    too_much = found("level.outlet-window", down=18)
    assert too_much is not None
    assert too_much.excess == pytest.approx(18 - 4 - 10, abs=0.2)
    too_little = found("level.outlet-window", down=2)  # at both frequencies, more so at 600 MHz
    assert too_little is not None
    assert too_little.excess == pytest.approx(0 - (2 - 6), abs=0.2)
    unreached = found("return.upstream-level", up=49)  # beyond 50 at both frequencies, more so at 30 MHz
    assert unreached is not None
    assert unreached.excess == pytest.approx(49 + 6 - 50, abs=0.2)
    assert "at 30 MHz" in unreached.found
    assert "SP 6" in unreached.found + unreached.remedy + unreached.required


def test_a_whole_range_of_levels_is_told_once_at_the_frequency_furthest_out() -> None:
    straddling = found("return.upstream-level", up=44.9)  # 47.9 to 50.9 at 10 MHz, 49.9 to 52.9 at 30 MHz
    assert straddling is not None
    assert straddling.outcome is Outcome.CANNOT_BE_JUDGED
    assert "at 30 MHz" in straddling.found


@pytest.mark.parametrize(
    ("down", "told"),
    [
        (16, "10 dBmV to 13 dBmV at 800 MHz, which straddles 10 dBmV"),  # the least is just in; so is 600 MHz, by less
        (5, "-3 dBmV to 0 dBmV at 600 MHz, which straddles 0 dBmV"),  # the most is just in
    ],
)
def test_what_may_just_be_in_is_not_sure_to_be_out(down: float, told: str) -> None:
    finding = found("level.outlet-window", down=down, **NO_LEADS)
    assert finding is not None
    assert finding.outcome is Outcome.CANNOT_BE_JUDGED
    assert told in finding.found


def test_the_whole_spread_is_told_and_what_loses_most() -> None:
    too_much = not_met("level.outlet-window", down=18, **NO_LEADS)
    assert "14 dBmV at 800 MHz (12 dBmV to 15 dBmV)" in too_much.found
    too_little = not_met("level.outlet-window", down=2, **NO_LEADS)
    assert "-4 dBmV at 600 MHz (-6 dBmV to -3 dBmV)" in too_little.found
    assert "most is lost in SP 6 dB" in too_little.remedy
    assert "usual" not in too_little.found


def test_a_level_is_told_on_the_day_on_which_it_is_worst() -> None:
    outdoors = {
        "places": "places: {yard: {exposure: outdoors, temperature: -40 to 60 °C}}\n" + TEXTS["places"],
        "lead": "C-1: {from: DROP, to: SP, type: series 6, route: [yard: 100 m]}",
    }
    for down, edge_dbmv, sign in ((48, 10, 1), (-6, 0, -1)):
        finding = not_met("level.outlet-window", down=down, **outdoors)
        told = re.search(r"with (\S+) dBmV at", finding.found)
        off = re.search(r"(\S+) dB (?:too strong|are missing)", finding.remedy)
        assert told is not None
        assert off is not None
        assert float(told[1]) - sign * float(off[1]) == pytest.approx(edge_dbmv, abs=0.11)  # both to a tenth


def test_a_window_or_a_range_of_the_design_is_not_told_as_published() -> None:
    assert "DOCSIS" not in clauses(not_met("level.outlet-window", down=-20))
    assert "DOCSIS" in clauses(not_met("level.outlet-window", down=-20, window="at outlets: {tilt: 1 dB}"))
    assert "DOCSIS" not in clauses(not_met("level.tilt", window="at outlets: {tilt: 1 dB}"))
    assert "four bonded channels" not in clauses(not_met("return.upstream-level", up=49))
    usual = not_met("return.upstream-level", up=49, modem="MODEM: {kind: cable modem, serves: [net]}")
    assert "four bonded channels" in clauses(usual)


def test_a_slope_is_told_with_what_it_is_beyond_its_limit() -> None:
    steep = not_met("level.tilt", window="at outlets: {tilt: 1.5 dB}", **NO_LEADS)  # 6 dB at 600 MHz, 4 at 800 MHz
    assert steep.excess == pytest.approx(2 - 1.5)


def test_a_slope_is_judged_down_to_the_level_at_which_nothing_is_received() -> None:
    """-15 dBmV, the least that a modem takes. Source: DOCSIS PHY 3.0, RF level table, modem input per channel."""
    assert found("level.tilt", down=-9, window="at outlets: {tilt: 1 dB}", **NO_LEADS) is not None  # -15 at 600 MHz
    assert found("level.tilt", down=-9.1, window="at outlets: {tilt: 1 dB}", **NO_LEADS) is None


@pytest.mark.parametrize(("nearest_dbmv", "further_dbmv", "is_met"), [(4, -3, True), (-3, 4, False)], ids=["in", "out"])
def test_of_two_readings_near_a_frequency_the_nearest_counts(
    nearest_dbmv: float, further_dbmv: float, is_met: bool
) -> None:
    readings = f"[{{level: {further_dbmv} dBmV at 595 MHz}}, {{level: {nearest_dbmv} dBmV at 601 MHz}}]"
    finding = found("level.outlet-window", modem=f"MODEM: {{kind: cable modem, serves: [net], readings: {readings}}}")
    assert (finding is None) is is_met


def test_the_cable_whose_loss_is_least_sure_is_the_one_to_measure() -> None:
    """One that was measured is sure, however much it loses."""
    finding = found(
        "level.outlet-window",
        down=16,
        lead="C-1: {from: DROP, to: SP, type: series 6, length: 10 ft}",
        drop="C-2: {from: SP.out-1, to: MODEM, type: series 6, length: 50 ft, "
        "measured loss: [2 dB at 600 MHz, 2.3 dB at 800 MHz]}",
        window="at outlets: {level: 0 to 9 dBmV}",
    )
    assert finding is not None
    assert finding.outcome is Outcome.CANNOT_BE_JUDGED
    assert finding.place.line_text.startswith("  C-1:")


def test_what_is_told_of_a_return_band_is_told_where_it_loses_most() -> None:
    most_below = not_met(
        "return.upstream-level", up=49, lowest_band=TEXTS["lowest_band"].replace("4 dB", "7 dB").replace("6 dB", "8 dB")
    )
    assert "at 10 MHz" in most_below.found
    alike = not_met(
        "return.upstream-level",
        up=49,
        lowest_band="band: 5 MHz to 20 MHz, low: 5 dB, nominal: 6 dB, high: 8 dB",
        **NO_LEADS,
    )
    assert "at 10 MHz" in alike.found  # of two alike the lower


def test_a_level_that_does_not_come_at_all_cannot_be_judged() -> None:
    tallies = {
        one.rule: one for one in reviewed(lead=TEXTS["lead"].replace("series 6", "series 6, state: abandoned")).tallies
    }
    assert (tallies["level.outlet-window"].met, tallies["level.outlet-window"].cannot_be_judged) == (0, 1)


def test_a_service_without_frequencies_is_asked_for_them_where_it_comes(verdicts_of: VerdictsOf) -> None:
    said = verdicts_of(
        "level.outlet-window",
        "services: {net: {kind: cable broadband, from: DROP}}\n"
        "devices:\n  DROP: {kind: coax drop}\n  TV: {kind: outlet, serves: [net]}\n"
        "  FAR: {kind: outlet, serves: [net]}\n"
        "cables: {C-1: {from: DROP, to: TV, type: series 6, length: 9 m}}\n",
    )
    unknown = Unknown("no frequencies", ("services", "net", "down"), {"service": "net"})
    assert said["TV"] == [CannotJudge(unknown)]
    bound = combine(["trade 1"], shipped_registry()).rules["level.outlet-window"]
    assert cause_text(unknown, bound.check) == "net states neither a band nor channels"
    missing = Unknown("does not come", ("devices", "FAR", "serves"), {"service": "net", "outlet": "FAR"})
    assert said["FAR"] == [CannotJudge(missing)]


@pytest.mark.parametrize(("read", "usual"), [("22 dBmV at 54 MHz", None), ("3 dBmV at 54 MHz", "5 dBmV")])
def test_what_usually_comes_in_is_named_where_the_level_is_computed_from_it(
    not_met_of: Callable[..., dict[str, list[NotMet]]], read: str, usual: str | None
) -> None:
    """Series 6 loses 6.55 dB/100 ft at 1000 MHz by ANSI/SCTE 74: 500 ft bring 5 dBmV far below -15 dBmV."""
    ((verdict,),) = not_met_of(
        "level.outlet-window",
        "services: {net: {kind: cable broadband, from: DROP, down: {band: 54 MHz to 1000 MHz}}}\n"
        f"devices:\n  DROP: {{kind: coax drop}}\n  TV: {{kind: outlet, serves: [net], readings: [{{level: {read}}}]}}\n"
        f"cables: {{C-1: {{from: DROP, to: TV, type: series 6, length: {'30 ft' if usual is None else '500 ft'}}}}}\n",
    ).values()
    assert verdict.values["usual"] == (None if usual is None else Level.parse(usual))


AIR = """\
coaxwright: 1
title: Dotterel Bench 5 (invented)
basis: {{rulesets: [trade 1]}}
services:
  air:
    kind: {kind}
    from: ANT
    down: {{band: 470 MHz to 694 MHz, level: ["{dbuv} dBµV at 470 MHz"]}}
    channels:
      - {{name: "24", frequency: 533 MHz, standard: {standard}}}
      - {{name: "30", frequency: 586 MHz{other}}}
    at outlets: {{{wanted}}}
devices:
  ANT: {{kind: antenna, gain: 10 dBi}}
  DEN: {{kind: outlet, serves: [air]}}
cables:
  C-1: {{from: ANT, to: DEN, type: series 6, length: 1 m}}
"""


def of_channels(
    kind: str = "terrestrial TV",
    dbuv: float = 60,
    standard: str = "DVB-T",
    other: str = ", standard: DVB-T",
    wanted: str = "tilt: 9 dB",
) -> dict[str, Outcome]:
    text = AIR.format(kind=kind, dbuv=dbuv, standard=standard, other=other, wanted=wanted)
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert review.problems == ()
    rules = ("level.outlet-window", "satellite.if-level")
    return {one.rule: one.outcome for one in review.unfolded if one.rule in rules}


def test_the_edges_of_a_band_need_no_window_where_its_channels_have_theirs() -> None:
    assert of_channels() == {}
    assert of_channels(dbuv=40) == {"level.outlet-window": Outcome.NOT_MET}


def test_one_channel_without_a_standard_leaves_the_window_open() -> None:
    assert of_channels(other="") == {"level.outlet-window": Outcome.CANNOT_BE_JUDGED}


def test_a_camera_on_a_channel_is_held_against_the_window_stated_for_it() -> None:
    wanted = "level: 60 to 77 dBµV"
    assert of_channels("camera video", 65, "analog", wanted=wanted) == {}
    assert of_channels("camera video", 50, "analog", wanted=wanted) == {"level.outlet-window": Outcome.NOT_MET}


def test_the_window_stated_for_television_is_judged_by_one_rule_whatever_its_channels_are_said_to_be() -> None:
    found = of_channels(dbuv=30, standard="DVB-S", wanted="level: 60 to 77 dBµV")
    assert found == {"level.outlet-window": Outcome.NOT_MET}
