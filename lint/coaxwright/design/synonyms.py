"""Words that people write for words of the design file, where likeness of letters finds nothing or the wrong one.

Imported only when a mistake is told. A word may stand for several of ours: the first that fits where it is written
counts. Words are folded: small letters, no hyphens. Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

_KINDS_OF_DEVICES: Mapping[str, str] = {
    # where signals come in
    "service drop": "drop, demarcation, demarc, demarcation point, point of entry, NID, network interface, network interface device, hand off, handoff",
    "optical node": "ONT, ONU, fibre node, fiber node, fibre receiver, fiber receiver, optical receiver, RFoG node",
    "antenna": "aerial, TV aerial, antennae, yagi, log periodic, donor antenna, server antenna, dipole",
    "dish": "satellite dish, satellite antenna, parabolic antenna, reflector",
    "LNB": "LNBF, LNC, low noise block, converter, down converter, feedhorn",
    "modulator": "RF modulator, headend",
    "camera": "CCTV, CCTV camera, security camera, surveillance camera, cam",
    # what protects and bonds
    "ground block": "earth block, earthing block, grounding block, bonding block, ground coupler, earthing bar, earth bar",
    "protector": "arrester, arrestor, surge arrester, surge arrestor, lightning arrester, lightning arrestor, SPD, "
    "surge suppressor, surge protection device, gas tube, gas discharge tube, GDT, antenna discharge unit, discharge unit",
    "galvanic isolator": "isolator, ground isolator, ground loop isolator, ground loop breaker, hum breaker",
    # what divides and joins
    "splitter": "divider, power divider, power splitter, distributor, split",
    "tap": "tap off, tapoff, drop tap, multitap",
    "directional coupler": "coupler, DC tap, single tap",
    "combiner": "joiner, mixer, band joiner",
    "diplexer": "duplexer, band splitter, band separator, triplexer, diplex filter",
    "multiswitch": "multi switch, satellite switch, switch, DiSEqC switch",
    # what shapes the signal
    "attenuator": "pad, attenuator pad, reducer",
    "equaliser": "equalizer, EQ, slope compensator, tilt compensator, cable simulator",
    "filter": "MoCA filter, PoE filter, point of entry filter, LTE filter, 4G filter, 5G filter, trap, notch filter, band pass filter",
    "matching transformer": "balun, transformer, impedance transformer",
    "matching pad": "minimum loss pad, impedance converter",
    "DC block": "DC blocker, power blocker, voltage blocker",
    # what amplifies and feeds
    "preamplifier": "preamp, pre amp, masthead amplifier, mast amplifier, mast head amplifier, LNA",
    "drop amplifier": "amplifier, amp, distribution amplifier, house amplifier, line amplifier, launch amplifier, indoor amplifier",
    "cellular booster": "booster, repeater, signal booster, bi directional amplifier, BDA",
    "power inserter": "injector, power injector, bias tee, bias T, power supply, PSU, inserter",
    # where signals go
    "outlet": "wall plate, wallplate, faceplate, face plate, wall outlet, wall jack, jack, socket, wall socket, TV socket, "
    "TV point, TV outlet, point, aerial socket, aerial point, antenna socket, plate, coax outlet",
    "cable modem": "gateway, router, broadband router, EMTA",
    "receiver": "TV, TV set, television, television set, telly, tuner, set top box, set top, STB, converter box, cable box",
    "satellite receiver": "satellite box, satellite tuner, IRD, satellite set top box",
    "in-home data adapter": "MoCA, MoCA adapter, MoCA adaptor, coax adapter, ethernet over coax, ethernet over coax adapter, network adapter, in home data adaptor",
    "video recorder": "DVR, NVR, recorder, video server, XVR",
    "terminator": "termination, terminating resistor, 75 ohm cap, end cap, dummy load, load",
}

_KINDS_OF_BONDS: Mapping[str, str] = {
    "bonding conductor": "bond, bond wire, bonding wire, bonding jumper, jumper, ground wire, grounding wire, "
    "grounding conductor, earth wire, earthing conductor, earth conductor, equipotential bonding conductor, wire",
    "intersystem termination": "IBT, ISBT, intersystem bonding termination, intersystem bonding bridge, bonding bar, "
    "bonding busbar, ground bar, grounding busbar, busbar, bus bar, bonding bridge, bonding terminal",
    "building electrode system": "MET, main earthing terminal, main earth terminal, main earthing bar, earth terminal, "
    "grounding electrode system, GES, earthing system, electrode system, foundation earth, equipotential bar, electrode, "
    "ground, earth",
    "service equipment": "panel, main panel, electrical panel, service panel, switchboard, consumer unit, meter base, meter socket, distribution board",
    "service raceway": "service mast, service conduit, riser conduit",
    "ground rod": "earth rod, earthing rod, grounding rod, rod, stake, earth stake, earth spike, earth electrode, driven rod",
    "ground plate": "earth plate, earthing plate, plate electrode",
    "ground ring": "earth ring, ring electrode, ring earth, ring conductor",
    "concrete-encased electrode": "ufer, ufer ground, foundation electrode, footing, rebar",
    "structural metal": "building steel, steel frame, structural steel, metal frame, steel",
    "water pipe": "water main, water line, water service, plumbing",
    "gas pipe": "gas main, gas line",
    "lightning electrode system": "lightning protection system, LPS, lightning earth, lightning ground",
}

_KINDS_OF_SERVICES: Mapping[str, str] = {
    "cable broadband": "broadband, internet, cable internet, cable TV, CATV, cable, DOCSIS, HFC, cable modem, data",
    "terrestrial TV": "off air TV, off air, OTA, OTA TV, over the air, broadcast TV, antenna TV, aerial TV, DTT, DVB T, ATSC, freeview, television",
    "FM radio": "radio, FM, DAB, broadcast radio",
    "satellite IF": "satellite, satellite TV, sat, DBS, DTH, sat IF, DVB S",
    "in-home data": "MoCA, home network, ethernet over coax, in home network, LAN, network",
    "cellular": "mobile, cell, cell phone, mobile phone, LTE, 4G, 5G, cellular booster",
    "camera video": "CCTV, video, camera, cameras, surveillance, security cameras, security video, HD over coax",
}

_WHERE: Mapping[str, str] = {
    # exposures
    "indoors": "inside, interior, room, conditioned, in wall, wall, basement, cellar",
    "attic": "loft, roof space, roofspace, roof void",
    "crawl space": "crawlspace, underfloor, under floor, floor void, sub floor",
    "plenum": "ceiling void, air handling space, return air",
    "riser": "shaft, vertical shaft, riser shaft",
    "outdoors": "outside, exterior, external, facade, outside wall",
    "rooftop": "roof, on roof, roof top",
    "wet": "damp, wet location, damp location",
    "buried": "underground, direct burial, below ground, below grade, in ground, trench, burial",
    # occupancies
    "one-family dwelling": "house, single family, single family dwelling, single family house, one family, detached house, "
    "dwelling, home, residential, residence, cottage, bungalow",
    "two-family dwelling": "duplex, two family, two family house, semi detached",
    "multifamily dwelling": "apartment, apartments, flats, flat, block of flats, apartment building, condominium, condo, "
    "multi family, multi dwelling unit, MDU, multiple dwelling",
    "commercial": "other, office, offices, shop, store, school, clinic, hospital, hotel, barn, farm, workshop, business, "
    "industrial, retail, church, non residential",
    # states, stages, owners
    "new": "proposed, planned, to be installed",
    "existing": "old, in place, retained, as found",
    "reserve": "spare, future, for future use",
    "abandoned": "disused, dead, disconnected, redundant, unused",
    "concept": "draft, sketch, preliminary, design",
    "permit": "for permit, submittal, construction, tender",
    "as-built": "asbuilt, built, record, final, installed, handover",
    "operator": "provider, service provider, cable company, carrier, utility, ISP",
    "landlord": "building owner, housing association, property manager",
    "tenant": "occupant, resident, renter, lessee",
}

_NAMES: Mapping[str, str] = {
    # sections
    "buildings": "structures, houses, house, sites",
    "places": "rooms, room, locations, location, areas, spaces, zones",
    "services": "signals, signal, feeds, sources, incoming, systems",
    "devices": "equipment, components, parts, hardware, fittings, gear, apparatus, outlets",
    "cables": "wires, wiring, runs, lines, coax, cabling, links, connections",
    "raceways": "conduits, conduit, ducts, duct, trunking, pipes, pathways",
    "bonding": "grounding, earthing, bonds, ground, earth, grounds, electrodes",
    "records": "measurements, tests, test records, as built",
    "variances": "exceptions, waivers, exemptions, deviations, dispensations",
    "typical": "templates, template, typicals",
    # fields
    "conductor": "size, gauge, wire, wire size, awg, cross section, csa, material",
    "ways": "outputs, ports, legs, way",
    "outputs": "ways, ports, outs",
    "inputs": "channels, ways, ports, ins",
    "value": "tap value, attenuation, dB",
    "variant": "type, sort, version, band, style, subtype",
    "kind": "type, category, device, class, what, sort",
    "serves": "wants, services, service, signals, for",
    "place": "room, location, position, where, mounted, site",
    "model": "part, part number, product, catalogue, catalog",
    "installed": "date, year, install date, installation date",
    "owner": "belongs to, owned by, whose",
    "note": "notes, comment, comments, remark, remarks, description, remarks",
    "state": "status, condition",
    "from": "start, source, a end, origin, begin",
    "to": "end, destination, target, b end, dest",
    "type": "cable, class, cable type, kind, spec, model, construction",
    "route": "path, routing, segments, via, through",
    "length": "distance, run, run length, len, footage, span",
    "colour": "color",
    "labels": "label, marking, markings",
    "exposure": "environment, location, kind, condition",
    "temperature": "temp, ambient, temperatures",
    "entry": "entrance, point of entry, entry point, entries",
    "occupancy": "use, usage, kind, type, class",
    "electrode": "to, joined to, bonded to, connected to, ground",
    "rulesets": "ruleset, rules, codes, code, standard, standards, edition, jurisdiction",
    "catalogues": "catalogs, catalog, catalogue, stock",
    "by": "who, tester, technician, installer, measured by",
    "on": "date, day, when, mounted on, attached to",
    "instrument": "meter, equipment, tool, device",
    "until": "expires, expiry, valid until, end, valid to, to",
    "granted by": "approved by, authority, by, granted",
    "reason": "why, because, justification, cause",
    "item": "tag, device, thing, cable, subject, for",
    "channels": "channel, frequencies, muxes, multiplexes",
    "down": "downstream, forward, downlink",
    "up": "upstream, return, reverse, uplink, return path",
    "band": "frequency, frequencies, range, frequency range",
    "supply": "voltage, supply voltage",
    "current": "draw, consumption, current draw",
    "gain": "amplification",
    "loss": "insertion loss, attenuation",
    # yes and no
    "true": "yes, y, on, x",
    "false": "no, n, off",
}

_TABLES = (_KINDS_OF_DEVICES, _KINDS_OF_BONDS, _KINDS_OF_SERVICES, _WHERE, _NAMES)


def folded(word: str) -> str:
    """A word whatever its case, hyphens, underscores and spaces at its ends."""
    return " ".join(word.casefold().replace("-", " ").replace("_", " ").split())


def _gathered() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, dict[str, None]] = {}
    for ours, word in pairs():
        found.setdefault(folded(word), {})[folded(ours)] = None
    return {word: tuple(meant) for word, meant in found.items()}


def pairs() -> Iterator[tuple[str, str]]:
    """Our word with each word that people write for it, as the tables have them."""
    for table in _TABLES:
        for ours, words in table.items():
            yield from ((ours, word.strip()) for word in words.split(","))


SYNONYMS: Mapping[str, tuple[str, ...]] = _gathered()
"""What each folded word may stand for, folded too, the likeliest first."""
