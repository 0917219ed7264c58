"""Figures of a data sheet that cannot be: an attenuation that falls, a part that gives more than it takes."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import get_args

from coaxwright.catalogue.author_values.entries import Entry, group
from coaxwright.catalogue.devices import DeviceEntry, PathLoss, Port
from coaxwright.catalogue.entries import CableClass
from coaxwright.design.nearest import nearest_word
from coaxwright.design.quantities import Frequency, LossPerLength
from coaxwright.design.words import ConnectorSeries, DeviceKind
from coaxwright.physics.comparison import at_least
from coaxwright.physics.dividing import ideal_split_db
from coaxwright.source import Path, Problem

_ROUNDED_DB = 0.02
"""Data sheets round the ideal figures: 3.0 dB for 3.01 dB."""
_LOOK = "look at the data sheet again"


def class_problems(entry: Entry, made: CableClass, screening: list[str]) -> Iterator[Problem]:
    """What cannot be in a class; whether its figures agree with one another is for rules to say."""
    for key, figure in (
        ("impedance", made.impedance_ohm),
        ("velocity", made.velocity_factor),
        ("center diameter", made.center_diameter_m),
        ("dielectric diameter", made.dielectric_diameter_m),
    ):
        if key in entry.written and figure <= 0:
            yield entry.says(f"the {key} of a cable is more than nothing", _LOOK, at=(key,))
    if "attenuation" in entry.written:
        table = made.attenuation.published
        spread: Path = ("attenuation", "spread")
        if not -1 < table.low_share <= 0:
            what = "the lowest figure lies below the table, and above nothing"
            yield entry.says(what, "write it such as '-5 %'", at=(*spread, "low"))
        if table.high_share < 0:
            yield entry.says("the highest figure lies above the table", "write it such as '5 %'", at=(*spread, "high"))
        yield from _table_problems(entry, made.attenuation.published.texts)
    for name, said in group(entry.written, "shields").items():
        word = group(said, "screening class") or said.get("screening class")
        if word is not None and word not in screening:
            near = nearest_word(str(word), screening)
            expected = "" if near else f"there are {', '.join(screening)}"
            at: Path = ("shields", name, "screening class")
            yield entry.says(f"there is no screening class {word!r}", expected, near, at=at)


def _table_problems(entry: Entry, texts: tuple[tuple[str, str], ...]) -> Iterator[Problem]:
    at: Path = ("attenuation", "table")
    points = [(Frequency.parse(freq).freq_hz, LossPerLength.parse(loss).loss_db_per_m) for freq, loss in texts]
    if len(points) < 2:
        yield entry.says("a table of one point says nothing between frequencies", "write two or more", at=at)
    for (freq, loss), (freq_hz, loss_db_per_m) in zip(texts, points, strict=True):
        if freq_hz <= 0 or loss_db_per_m <= 0:
            yield entry.says(f"no cable loses {loss} at {freq}", _LOOK, at=(*at, freq))
            return
    for index, ((before_hz, before_loss), (after_hz, after_loss)) in enumerate(pairwise(points), start=1):
        (before, _), (after, loss) = texts[index - 1], texts[index]
        if after_hz <= before_hz:
            yield entry.says(f"{after} stands after {before}", "put the points in rising order", at=(*at, after))
        elif not at_least(after_loss, before_loss):
            what = f"the attenuation falls from {before} to {after}, to {loss}"
            yield entry.says(what, _LOOK, at=(*at, after))


def device_word_problems(entry: Entry, data: dict[str, object]) -> Iterator[Problem]:
    """Words of a device that the program does not know: its kind, its connectors."""
    yield from _word(entry, "kind", data.get("kind"), get_args(DeviceKind), ("kind",))
    yield from _word(entry, "connector", entry.written.get("connector"), get_args(ConnectorSeries), ("connector",))
    for index, port in enumerate(entry.written.get("ports", ())):
        at: Path = ("ports", index, "connector")
        yield from _word(entry, "connector", port.get("connector"), get_args(ConnectorSeries), at)


def _word(entry: Entry, what: str, word: object, known: tuple[str, ...], at: Path) -> Iterator[Problem]:
    if word is not None and word not in known:
        near = nearest_word(str(word), known)
        expected = "" if near else f"write one of {', '.join(known)}"
        yield entry.says(f"{word!r} is not a known {what}", expected, near, at=at)


def device_problems(entry: Entry, made: DeviceEntry) -> Iterator[Problem]:
    """What cannot be in a device: too few outputs, or more signal out of a passive part than into it."""
    outputs = sum(port.direction == "out" for port in made.ports)
    if made.kind == "splitter" and made.ways is not None and made.ways != outputs:
        yield entry.says(f"it has {outputs} outputs, and its ways are {made.ways}", "make the two agree", at=("ways",))
        return
    if not made.is_passive:
        return
    told = False
    for index, path in enumerate(made.paths):
        ways = _alike(made, path)
        ideal_db = ideal_split_db(ways)
        at: Path = ("paths", index, "low" if _writes_low(entry, index) else "nominal")
        if path.loss.low_db < 0:
            yield entry.says(f"it gains {-path.loss.low_db:g} dB, and nothing feeds it", _LOOK, at=at)
        elif path.loss.low_db < ideal_db - _ROUNDED_DB:
            what = f"it loses {path.loss.low_db:g} dB, and dividing between {ways} alone takes {ideal_db:.2f} dB"
            yield entry.says(what, _LOOK, at=at)
        else:
            continue
        told = True
    if not told:
        yield from _balance(entry, made)


def _writes_low(entry: Entry, index: int) -> bool:
    paths = entry.written.get("paths", ())
    return index < len(paths) and "low" in paths[index]


def _alike(made: DeviceEntry, path: PathLoss) -> int:
    """How many ports get the signal of one port with this loss."""
    starts = [port for port in made.ports if path.ends.from_end in (port.name, port.group)]
    ends = [port for port in made.ports if path.ends.to_end in (port.name, port.group)]
    return max(1, max((sum(port is not start for port in ends) for start in starts), default=1))


def _balance(entry: Entry, made: DeviceEntry) -> Iterator[Problem]:
    """Of what goes in at one port, no more comes out at all others together, by the nominal figures.

    Source: conservation of energy.
    """
    for port in made.ports:
        for freq_hz in dict.fromkeys((path.low_hz + path.high_hz) / 2 for path in made.paths):
            shares = {other.name: _share(made, port, other, freq_hz) for other in made.ports if other is not port}
            whole = sum(shares.values())
            if whole > 10 ** (_ROUNDED_DB / 10):
                others = ", ".join(name for name, share in shares.items() if share)
                what = f"of what goes in at {port.name}, {whole:.0%} comes out at {others}".replace("%", " %")
                yield entry.says(what, _LOOK, at=("paths",), of_key=True)
                return


def _share(made: DeviceEntry, port: Port, other: Port, freq_hz: float) -> float:
    loss = made.loss(port.name, other.name, freq_hz)
    return 0.0 if loss is None else float(10 ** (-loss.nominal_db / 10))
