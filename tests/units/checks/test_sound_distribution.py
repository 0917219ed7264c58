"""Plain, sound distribution brings no finding of the rules that follow from where signals go.

Whatever is told of it is advice at most. Source: common practice, no source.
"""

from __future__ import annotations

import pytest

from coaxwright.findings import Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1], occupancy: one-family dwelling}\n"
RULES = {
    "service.band-overlap",
    "service.no-backfeed",
    "return.path-open",
    "return.split-matches",
    "level.device-bandwidth",
    "level.unused-terminated",
    "level.isolation",
    "level.dwelling-isolation",
    "indata.entry-filter",
    "indata.path-loss",
    "satellite.user-band",
}
SOUND = {
    "data behind an entry filter": """\
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 MHz to 1002 MHz}, up: {band: 5 MHz to 42 MHz}}
  data: {kind: in-home data, from: GW}
devices:
  DROP: {kind: coax drop}
  GB: {kind: ground block}
  POE: {kind: filter, variant: point-of-entry}
  SP: {kind: splitter, ways: 2, variant: in-home data}
  SP2: {kind: splitter, ways: 2, variant: in-home data}
  GW: {kind: cable modem, serves: [net, data]}
  BOX1: {kind: outlet, serves: [net, data]}
  BOX2: {kind: outlet, serves: [net, data]}
cables:
  C1: {from: DROP, to: GB, type: series 6, length: 3 m}
  C2: {from: GB, to: POE, type: series 6, length: 3 m}
  C3: {from: POE, to: SP, type: series 6, length: 1 m}
  C4: {from: SP, to: GW, type: series 6, length: 3 m}
  C5: {from: SP, to: SP2, type: series 6, length: 10 m}
  C6: {from: SP2, to: BOX1, type: series 6, length: 13 m}
  C7: {from: SP2, to: BOX2, type: series 6, length: 13 m}
""",
    "an aerial with data behind it": """\
services:
  tv: {kind: terrestrial TV, from: ANT, down: {band: 470 MHz to 694 MHz}}
  data: {kind: in-home data, from: A1}
devices:
  ANT: {kind: antenna, variant: UHF, gain: 12 dBi}
  PRE: {kind: preamplifier, variant: UHF}
  PI: {kind: power inserter}
  POE: {kind: filter, variant: point-of-entry}
  SP: {kind: splitter, ways: 2, variant: in-home data}
  A1: {kind: outlet, serves: [tv, data]}
  A2: {kind: outlet, serves: [tv, data]}
cables:
  C1: {from: ANT, to: PRE, type: series 6, length: 3 m}
  C2: {from: PRE, to: PI, type: series 6 copper, length: 10 m}
  C2b: {from: PI, to: POE, type: series 6, length: 3 m}
  C3: {from: POE, to: SP, type: series 6, length: 1 m}
  C4: {from: SP, to: A1, type: series 6, length: 3 m}
  C5: {from: SP, to: A2, type: series 6, length: 10 m}
""",
    "a mid-split home to 1218 MHz": """\
services:
  net: {kind: cable broadband, from: DROP, down: {band: 108 MHz to 1218 MHz}, up: {band: 5 MHz to 85 MHz}}
devices:
  DROP: {kind: coax drop}
  GB: {kind: ground block}
  AMP: {kind: drop amplifier, outputs: 1, variant: return path, split: 85/102 MHz}
  TAP: {kind: tap, outputs: 4, value: 16 dB}
  SP: {kind: splitter, ways: 3}
  M: {kind: cable modem, serves: [net]}
  T1: {kind: outlet, serves: [net]}
  T2: {kind: outlet, serves: [net]}
  T3: {kind: outlet, serves: [net]}
  T4: {kind: outlet, serves: [net]}
cables:
  C1: {from: DROP, to: GB, type: series 6, length: 3 m}
  C2: {from: GB, to: SP, type: series 6, length: 3 m}
  C3: {from: SP, to: M, type: series 6, length: 1 m}
  C4: {from: SP, to: T1, type: series 6, length: 1 m}
  C5: {from: SP, to: AMP, type: series 6, length: 10 m}
  C9: {from: AMP, to: TAP.in, type: series 6, length: 1 m}
  C6: {from: TAP, to: T2, type: series 6, length: 1 m}
  C7: {from: TAP, to: T3, type: series 6, length: 1 m}
  C8: {from: TAP.out, to: T4, type: series 6, length: 1 m}
""",
    "a multiswitch with television and radio": """\
services:
  tv: {kind: terrestrial TV, from: UHF, down: {band: 474 MHz to 690 MHz}}
  fm: {kind: FM radio, from: FM}
  vlo: {kind: satellite IF, from: LNB, down: {band: 950 MHz to 2150 MHz}}
devices:
  UHF: {kind: antenna, variant: UHF, gain: 12 dBi}
  FM: {kind: antenna, variant: FM, gain: 1 dBi}
  DISH: {kind: dish}
  LNB: {kind: LNB, variant: quattro, outputs: 4, on: DISH}
  MIX: {kind: combiner, variant: UHF/VHF}
  MS: {kind: multiswitch, outputs: 8}
  L1: {kind: outlet, serves: [tv, fm, vlo]}
  L2: {kind: outlet, serves: [tv, fm, vlo]}
cables:
  C1: {from: UHF, to: MIX.UHF, type: series 6, length: 3 m}
  C2: {from: FM, to: MIX.VHF, type: series 6, length: 3 m}
  C3: {from: MIX, to: MS.terrestrial, type: series 6, length: 3 m}
  S1: {from: LNB.vertical-low, to: MS.vertical-low, type: series 6, length: 9 m}
  S2: {from: LNB.vertical-high, to: MS.vertical-high, type: series 6, length: 9 m}
  S3: {from: LNB.horizontal-low, to: MS.horizontal-low, type: series 6, length: 9 m}
  S4: {from: LNB.horizontal-high, to: MS.horizontal-high, type: series 6, length: 9 m}
  D1: {from: MS, to: L1, type: series 6, length: 9 m}
  D2: {from: MS, to: L2, type: series 6, length: 9 m}
""",
    "two converters on one switch": """\
services:
  a: {kind: satellite IF, from: L1, down: {band: 950 MHz to 2150 MHz}}
  b: {kind: satellite IF, from: L2, down: {band: 950 MHz to 2150 MHz}}
devices:
  L1: {kind: LNB, outputs: 2}
  L2: {kind: LNB, outputs: 2}
  MS: {kind: multiswitch, outputs: 4}
  R: {kind: satellite receiver, serves: [a, b]}
cables:
  S1: {from: L1.out-1, to: MS.vertical-low, type: series 6, length: 9 m}
  S2: {from: L1.out-2, to: MS.vertical-high, type: series 6, length: 9 m}
  S3: {from: L2.out-1, to: MS.horizontal-low, type: series 6, length: 9 m}
  S4: {from: L2.out-2, to: MS.horizontal-high, type: series 6, length: 9 m}
  D1: {from: MS, to: R, type: series 6, length: 9 m}
""",
    "a loop of outlets": """\
services:
  tv: {kind: terrestrial TV, from: ANT, down: {band: 174 MHz to 694 MHz}}
devices:
  ANT: {kind: antenna, variant: VHF/UHF, gain: 8 dBi}
  AMP: {kind: drop amplifier, outputs: 1}
  O1: {kind: outlet, variant: loop-through, value: 14 dB, serves: [tv]}
  O2: {kind: outlet, variant: loop-through, value: 10 dB, serves: [tv]}
  O3: {kind: outlet, serves: [tv]}
cables:
  C1: {from: ANT, to: AMP, type: series 6, length: 3 m}
  C2: {from: AMP, to: O1, type: series 6, length: 3 m}
  C3: {from: O1.out, to: O2, type: series 6, length: 1 m}
  C4: {from: O2.out, to: O3, type: series 6, length: 1 m}
""",
    "a booster and two cameras": """\
services:
  cell: {kind: cellular, from: DON, down: {band: 728 MHz to 757 MHz}, up: {band: 698 MHz to 716 MHz}}
  c1: {kind: camera video, from: K1, down: {band: 50 Hz to 6 MHz}}
  c2: {kind: camera video, from: K2, down: {band: 50 Hz to 6 MHz}}
devices:
  DON: {kind: antenna, variant: cellular donor, gain: 9 dBi}
  B: {kind: cellular booster}
  S: {kind: splitter, ways: 2, variant: 50 ohm}
  SV1: {kind: antenna, variant: cellular server, serves: [cell]}
  SV2: {kind: antenna, variant: cellular server, serves: [cell]}
  K1: {kind: camera, variant: analog}
  K2: {kind: camera, variant: analog}
  P: {kind: protector}
  REC: {kind: video recorder, inputs: 4, serves: [c1, c2]}
cables:
  C1: {from: DON, to: B.donor, type: 10 mm 50 ohm low-loss, length: 3 m}
  C2: {from: B.server, to: S, type: 10 mm 50 ohm low-loss, length: 3 m}
  C3: {from: S, to: SV1, type: 10 mm 50 ohm low-loss, length: 3 m}
  C4: {from: S, to: SV2, type: 10 mm 50 ohm low-loss, length: 3 m}
  V1: {from: K1, to: P, type: 59-type, length: 30 m}
  V2: {from: P, to: REC, type: 59-type, length: 30 m}
  V3: {from: K2, to: REC, type: 59-type, length: 30 m}
""",
    "a picture of the door beside off-air": """\
services:
  tv: {kind: terrestrial TV, from: ANT, channels: [{name: "24", frequency: 533 MHz}]}
  door: {kind: terrestrial TV, from: MOD, channels: [{name: "50", frequency: 600 MHz, width: 6 MHz}]}
devices:
  ANT: {kind: antenna, gain: 12 dBi}
  MOD: {kind: modulator}
  SP: {kind: splitter, ways: 2}
  DIV: {kind: splitter, ways: 2}
  A: {kind: outlet, serves: [tv, door]}
  B: {kind: outlet, serves: [tv, door]}
cables:
  C1: {from: ANT.out, to: SP.out-1, type: series 6, length: 9 m}
  C2: {from: MOD.out, to: SP.out-2, type: series 6, length: 2 m}
  C3: {from: SP.in, to: DIV.in, type: series 6, length: 2 m}
  C4: {from: DIV.out-1, to: A, type: series 6, length: 12 m}
  C5: {from: DIV.out-2, to: B, type: series 6, length: 12 m}
""",
}


@pytest.mark.parametrize("name", SOUND)
def test_sound_distribution_is_clear(name: str) -> None:
    review = judge(read_text(HEAD + SOUND[name], "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    found = [finding for finding in review.unfolded if finding.rule in RULES]
    assert [finding.found for finding in found if finding.severity is not Severity.ADVICE] == []
    wrong = {finding.rule for finding in found if finding.outcome is Outcome.NOT_MET}
    assert wrong <= {"level.unused-terminated"}


def test_the_rules_are_asked_of_it() -> None:
    """A sound design that no rule has anything to say of would show nothing."""
    met: set[str] = set()
    for text in SOUND.values():
        review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
        met |= {tally.rule for tally in review.tallies if tally.met}
    assert met >= RULES - {"level.dwelling-isolation", "satellite.user-band"}
