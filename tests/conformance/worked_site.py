"""A whole house with a barn that no clause is broken in, and one change after another, each with its one finding.

The site stands in ``data/worked_site.txt``. The outcomes are those of the clauses named beside each change, as the
data file of NFPA 70 has them; of 2020 and 2023 the clauses stand in article 800 in place of 820.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from coaxwright.findings import Outcome

SITE = (Path(__file__).parent / "data" / "worked_site.txt").read_text(encoding="utf-8")
EDITIONS = ("2017", "2020", "2023")
TOPICS = ("plan.", "jacket.", "route.", "protection.", "bonding.", "antenna.")
FAR_IN = (
    ("protection.entry-distance", Outcome.NEEDS_A_PERSON),
    ("protection.antenna-end", Outcome.NOT_MET),
)
"""What a block far inside is told for besides: somebody has to see why, and practice advises one near the antenna."""


@dataclass(frozen=True)
class Change:
    """What is written otherwise, and all that is told of it."""

    old: str
    new: str
    told: tuple[tuple[str, Outcome], ...] = ()


def broken(rule: str) -> tuple[tuple[str, Outcome], ...]:
    return ((rule, Outcome.NOT_MET),)


B_1 = "B-1: {from: GB1, to: IBT, conductor: 10 AWG copper, length: 6 ft}"
B_5 = "  B-5: {from: ANT.mast, to: IBT, conductor: 10 AWG copper, length: 40 ft}\n"
ROD = (
    "GES: {{kind: grounding electrode system, place: north wall}}\n"
    "  ROD: {{kind: ground rod, place: north wall, length: {length}}}\n"
    "  B-1: {{from: GB1, to: ROD, conductor: 10 AWG copper, length: 4 ft}}\n"
)
JOINED = "  B-6: {from: ROD, to: IBT, conductor: 6 AWG copper, length: 70 ft}"
LEAD = "cellar: {length: 9 ft, in: RW}"
KNOB = "{what: lighting circuit, by: knob and tube, at: 14 in}"
EARTH = "{what: power cable, by: service-entrance cable, at: 14 in}"
PORCH = "porch roof: {length: 10 ft, over: roof, height: 9 ft}"
MAST = "mast: {height: 10 ft, from power line: 40 ft, on: roof}"

CHANGES = {
    # 820.100(A)(4): 20 ft (6.0 m) in one- and two-family dwellings
    "a bond of 20 ft": Change(B_1, B_1.replace("6 ft", "20 ft")),
    "a bond of 6.0 m": Change(B_1, B_1.replace("6 ft", "6.0 m")),
    "a bond of 20.1 ft": Change(B_1, B_1.replace("6 ft", "20.1 ft"), broken("bonding.conductor-length")),
    "a bond of 6.01 m": Change(B_1, B_1.replace("6 ft", "6.01 m"), broken("bonding.conductor-length")),
    # its exception and 820.100(D): a rod of 8 ft, joined with 6 AWG copper
    "a rod of its own": Change(B_1, ROD.format(length="8 ft") + JOINED),
    "a rod of its own, not joined": Change(B_1, ROD.format(length="8 ft"), broken("bonding.electrode-shared")),
    "a rod of its own, joined with 8 AWG": Change(
        B_1, ROD.format(length="8 ft") + JOINED.replace("6 AWG", "8 AWG"), broken("bonding.electrode-shared")
    ),
    "a rod of its own, 4 ft long": Change(B_1, ROD.format(length="4 ft") + JOINED, broken("bonding.electrode-rod")),
    # 820.93 and 820.100(A)(3): bonded, with 14 AWG copper or larger, of a metal that does not rust
    "no bond": Change(f"  {B_1}\n", "", broken("bonding.conductor-present")),
    "a bond of 14 AWG": Change(B_1, B_1.replace("10 AWG", "14 AWG")),
    "a bond of 15 AWG": Change(B_1, B_1.replace("10 AWG", "15 AWG"), broken("bonding.conductor-size")),
    "a bond of steel": Change(B_1, B_1.replace("copper", "steel"), broken("bonding.conductor-size")),
    # 820.100(A)(5)
    "a coiled bond": Change(B_1, B_1.replace("6 ft}", "6 ft, coiled: true}"), broken("bonding.conductor-route")),
    # 820.100(B)(1): to the termination where there is one
    "a bond past the termination": Change(B_1, B_1.replace("IBT", "PANEL"), broken("bonding.termination-used")),
    # 250.52(B), from memory
    "a bond to the gas pipe": Change(
        B_1,
        B_1.replace("IBT", "GAS") + "\n  GAS: {kind: gas pipe, place: north wall}",
        broken("bonding.electrode-accepted"),
    ),
    # 810.15 and 810.21(H): the mast with 10 AWG copper, 8 AWG aluminum, 17 AWG copper-clad steel or bronze
    "a mast with no bond": Change(B_5, "", broken("bonding.conductor-present")),
    "a mast with 11 AWG copper": Change(B_5, B_5.replace("10 AWG", "11 AWG"), broken("bonding.conductor-size")),
    "a mast with 8 AWG aluminum": Change(B_5, B_5.replace("10 AWG copper", "8 AWG aluminum")),
    "a mast with 9 AWG aluminum": Change(
        B_5, B_5.replace("10 AWG copper", "9 AWG aluminum"), broken("bonding.conductor-size")
    ),
    "a mast with 17 AWG bronze": Change(B_5, B_5.replace("10 AWG copper", "17 AWG bronze")),
    "a mast's bond of 400 ft": Change(B_5, B_5.replace("40 ft", "400 ft")),
    # 230.28 and 810.12; 810.13 and 810.16(B); CPSC advice: half as much again as it is high
    "an antenna on the service mast": Change(
        MAST, MAST.replace("on: roof", "on: service mast"), broken("antenna.service-mast")
    ),
    "a mast that falls into the line": Change(MAST, MAST.replace("40 ft", "9.9 ft"), broken("antenna.power-line-fall")),
    "a mast near to the line": Change(MAST, MAST.replace("40 ft", "14.9 ft"), broken("antenna.power-line-distance")),
    "a mast far enough from the line": Change(MAST, MAST.replace("40 ft", "15 ft")),
    # 820.44(B): 8 ft (2.5 m) over roofs, 3 ft (900 mm) over steep ones, 18 in (450 mm) over 4 ft of overhang
    "8 ft over a flat roof": Change(PORCH, PORCH.replace("9 ft", "8 ft")),
    "7.9 ft over a flat roof": Change(PORCH, PORCH.replace("9 ft", "7.9 ft"), broken("route.aerial-clearance")),
    "2.49 m over a flat roof": Change(PORCH, PORCH.replace("9 ft", "2.49 m"), broken("route.aerial-clearance")),
    "3 ft over a steep roof": Change(PORCH, "roof: {length: 10 ft, over: roof, height: 3 ft}"),
    "2.9 ft over a steep roof": Change(
        PORCH, "roof: {length: 10 ft, over: roof, height: 2.9 ft}", broken("route.aerial-clearance")
    ),
    # 820.44(A): 12 in (300 mm) from a power drop
    "12 in from the power drop": Change("power drop at 16 in", "power drop at 12 in"),
    "11.9 in from the power drop": Change(
        "power drop at 16 in", "power drop at 11.9 in", broken("route.aerial-clearance")
    ),
    # 820.93; 810.20(A): a ground block or discharge unit at the entry
    "no block at the entry": Change(
        "GB2: {kind: ground block,", "GB2: {kind: splitter, ways: 2,", broken("protection.entry-protector")
    ),
    # 820.48 and article 100: 50 ft (15 m) of unlisted cable, from the inner end of rigid conduit and not of tubing
    "unlisted, 50 ft from the end of rigid conduit": Change(LEAD, f"{LEAD}, cellar: 50 ft", FAR_IN),
    "unlisted, 50.1 ft from the end of rigid conduit": Change(
        LEAD, f"{LEAD}, cellar: 50.1 ft", (*broken("jacket.listed-indoors"), *FAR_IN)
    ),
    "unlisted, 50.1 ft without conduit": Change(LEAD, "cellar: 50.1 ft", (*broken("jacket.listed-indoors"), *FAR_IN)),
    "unlisted, 50 ft without conduit": Change(LEAD, "cellar: 50 ft", FAR_IN),
    # 820.154(a) and 300.22: plenum cable where a ceiling carries return air
    "riser cable in return air": Change("type: series 6 plenum", "type: series 6 riser", broken("jacket.plenum")),
    "riser cable where the air does not return": Change(
        "type: series 6 plenum, route: [\n      cellar: {length: 4 ft, in: BOX}, ceiling: 30 ft",
        "type: series 6 riser, route: [\n      cellar: {length: 4 ft, in: BOX}, den: 30 ft",
    ),
    # 820.133(A)(2): 2 in (50 mm) from open wiring; practice asks for more along mains
    "2 in from open wiring": Change(KNOB, KNOB.replace("lighting circuit", "Class 1 circuit").replace("14 in", "2 in")),
    "1.9 in from open wiring": Change(
        KNOB,
        KNOB.replace("lighting circuit", "Class 1 circuit").replace("14 in", "1.9 in"),
        broken("route.power-separation"),
    ),
    "beside sheathed wiring": Change(KNOB, "{what: Class 1 circuit, by: nonmetallic-sheathed cable, at: 0 in}"),
    # 820.133(A)(1): no power in one box without a barrier, but for the equipment's own supply with its gap of 1/4 in
    "power in the box": Change(
        "holds: [{what: power cable, at: 1 in, barrier: true}]", "holds: [power cable]", broken("route.power-raceway")
    ),
    "a supply in the box with its gap": Change(
        "holds: [{what: power cable, at: 1 in, barrier: true}]",
        "holds: [{what: power cable, at: 1/4 in}]",
        (("route.power-raceway", Outcome.NEEDS_A_PERSON),),
    ),
    "telephone in the box": Change("holds: [{what: power cable, at: 1 in, barrier: true}]", "holds: [telephone cable]"),
    # 820.47(B): 12 in (300 mm) from buried power, but for raceway, UF and USE cable; no depth
    "buried 12 in from power": Change(EARTH, EARTH.replace("14 in", "12 in")),
    "buried 11.9 in from power": Change(EARTH, EARTH.replace("14 in", "11.9 in"), broken("route.buried-separation")),
    "buried beside UF cable": Change(EARTH, "{what: power cable, by: UF cable, at: 1 in}"),
    # 820.26 and 300.21
    "an open hole": Change(
        "cellar: 20 ft]}\n  C-3", "cellar: {length: 20 ft, firestopped: false}]}\n  C-3", broken("route.firestop")
    ),
    # 820.25: abandoned cable is removed, or tagged
    "an abandoned cable": Change(
        "bonding:\n",
        "  C-9: {from: SP1, to: DEN, type: series 6, length: 9 m, state: abandoned}\nbonding:\n",
        broken("plan.dead-end"),
    ),
    # 820.180 and 810.6, from memory
    "a block that is not listed": Change(
        "GB1: {kind: ground block,", "GB1: {kind: ground block, listed: false,", broken("protection.listed")
    ),
    # 820.93 and 820.100(B): each building's own electrodes
    "the barn's block bonded at the house": Change(
        "GB4, to: GES-2", "GB4, to: IBT", broken("protection.both-buildings")
    ),
    "buildings that are not said to be tied": Change(
        ", tied to: [barn]", "", (("bonding.equipotential", Outcome.NEEDS_A_PERSON),)
    ),
    # common practice, no source
    "indoor cable on the wall": Change(
        "GB3, type: series 6 outdoor riser", "GB3, type: series 6 riser", broken("jacket.outdoor-rated")
    ),
    "cable in the earth that is not flooded": Change(
        "series 6 flooded outdoor", "series 6 outdoor", broken("jacket.burial-rated")
    ),
    "a block behind a wall": Change(
        "GB1: {kind: ground block,", "GB1: {kind: ground block, accessible: false,", broken("protection.accessible")
    ),
}
