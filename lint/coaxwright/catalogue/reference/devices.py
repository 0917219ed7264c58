"""The part of the page about devices: what each kind is made as, its ports, its losses, what feeds it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from coaxwright.catalogue.collection import Catalogue
from coaxwright.catalogue.devices import DeviceEntry, PathLoss, Port
from coaxwright.catalogue.entries import Source
from coaxwright.catalogue.losses import SpreadDb
from coaxwright.catalogue.options import Options
from coaxwright.catalogue.reference.tables import code, source_line, table, wrapped
from coaxwright.design.kinds import DEVICE_KINDS
from coaxwright.design.quantities import shown
from coaxwright.design.quantities.telling import frequency
from coaxwright.design.series import in_series


def device_part(catalogue: Catalogue) -> Iterator[str]:
    """Every kind in the order of the design file's words."""
    yield "## Devices"
    yield ""
    yield from wrapped(
        "A design writes the kind and the options that it is made in: `{kind: splitter, ways: 4}`. A cable "
        "names a port where ports differ: `from: SP1.low-loss`. Losses are low, nominal and high; a gain "
        "counts against them. What a design says itself (`gain`, `loss`, `ports`) counts before the "
        "catalogue. The column `like` has the names that an entry of your own may be like."
    )
    yield ""
    yield ", ".join(f"[{kind}](#{kind.casefold().replace(' ', '-')})" for kind in DEVICE_KINDS)
    yield ""
    for kind, fields in DEVICE_KINDS.items():
        yield f"### {kind}"
        yield ""
        yield f"{fields.describes[0].upper()}{fields.describes[1:]}."
        yield ""
        yield from _kind(kind, list(catalogue.made(kind).values()))


def _kind(kind: str, made: list[DeviceEntry]) -> Iterator[str]:
    notes = _Notes()
    heads = ("made as", "a design writes", "ports", "direct current", "`like`", "sources")
    yield from table(heads, _sizes(kind, made, notes))
    gains = [(entry, name, figure) for entry in made for name, figure in _gains(entry)]
    if gains:
        yield from table(
            ("of", "figure", "low", "nominal", "high"),
            ((_name(entry, made), name, *map(_decibels, figure)) for entry, name, figure in gains),
        )
    losses = list(_rows(made, notes))
    if losses:
        yield from table(("of", "from – to", "band", "low, dB", "nominal, dB", "high, dB", "sources"), losses)
    yield from notes.told()


class _Notes:
    """The sources of one kind, numbered as they are met."""

    def __init__(self) -> None:
        self.numbers: dict[str, int] = {}

    def of(self, sources: Mapping[str, Source]) -> str:
        """The figures of an entry with the numbers of their sources."""
        figures: dict[int, list[str]] = {}
        for figure, source in sources.items():
            number = self.numbers.setdefault(source_line(source), len(self.numbers) + 1)
            figures.setdefault(number, []).append(figure)
        return "; ".join(f"{', '.join(named)} [{number}]" for number, named in figures.items())

    def told(self) -> Iterator[str]:
        """The list of the sources."""
        if self.numbers:
            yield "Sources:"
            yield ""
            yield from (f"- [{number}] {line}" for line, number in self.numbers.items())
            yield ""


def _sizes(kind: str, made: list[DeviceEntry], notes: _Notes) -> Iterator[tuple[str, ...]]:
    """What a kind is made as; sizes that differ in nothing but their value stand together."""
    alike: dict[tuple[str, ...], list[DeviceEntry]] = {}
    for entry in made:
        seldom = ", seldom" if entry.is_seldom else ""
        said = _options(replace(entry.options, value_db=None))
        written = f"kind: {kind}{f', {said}' if said else ''}"
        row = (f"{entry.description}{seldom}", written, _ports(entry.ports), _power(entry), notes.of(entry.sources))
        alike.setdefault(row, []).append(entry)
    for (what, written, ports, power, sources), entries in alike.items():
        values = [_decibels(entry.options.value_db) for entry in entries if entry.options.value_db is not None]
        said = f"`{written}, value: {values[0]}`" if values else f"`{written}`"
        more = f", or {', '.join(values[1:])}" if len(values) > 1 else ""
        yield what, f"{said}{more}", ports, power, ", ".join(entry.name for entry in entries), sources


def _options(options: Options) -> str:
    written = {
        "ways": options.ways,
        "inputs": options.inputs,
        "outputs": options.outputs,
        "value": None if options.value_db is None else _decibels(options.value_db),
        "variant": options.variant,
    }
    return ", ".join(f"{key}: {value}" for key, value in written.items() if value is not None)


def _decibels(value_db: float) -> str:
    return f"{shown(value_db, 2)} dB"


def _name(entry: DeviceEntry, made: list[DeviceEntry]) -> str:
    """What sets a device apart from the others of its kind."""
    return _options(entry.options) or ("no option said" if len(made) > 1 else "all")


def _ports(ports: Iterable[Port]) -> str:
    """The ports, those that are alike together, with their impedance and connector."""
    groups: dict[tuple[str, float, str], list[str]] = {}
    for port in ports:
        groups.setdefault((str(port.direction), port.impedance_ohm, port.connector), []).append(port.name)
    told = (
        f"{code(in_series(names))} ({direction.replace('either', 'either way')}, {shown(ohm, 1)} Ω, {connector})"
        for (direction, ohm, connector), names in groups.items()
    )
    return "; ".join(told) or "none"


def _power(entry: DeviceEntry) -> str:
    said = []
    if entry.passes_power is not None:
        said.append("passes" if entry.passes_power else "is stopped")
    for path in entry.power_paths:
        ends = f"{path.ends.from_end} – {path.ends.to_end}"
        said.append(f"{ends} {'passes' if path.passes else 'is stopped'}")
    if entry.fed_ports:
        said.append(f"is taken at {code(in_series([port.name for port in entry.fed_ports]))}")
    elif entry.needs_power:
        said.append("has a supply of its own")
    if entry.feeding_ports:
        said.append(f"is fed out at {code(in_series([port.name for port in entry.feeding_ports]))}")
    return "; ".join(said) or "not known"


def _gains(entry: DeviceEntry) -> Iterator[tuple[str, SpreadDb]]:
    if entry.gain is not None:
        yield "gain", entry.gain
    if entry.noise_figure is not None:
        yield "noise figure", entry.noise_figure


def _rows(made: list[DeviceEntry], notes: _Notes) -> Iterator[tuple[str, ...]]:
    """Each path and isolation once, with every size that it is alike for."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for entry in made:
        for paths, apart in ((entry.paths, ""), (entry.isolations, "kept apart: ")):
            for path in paths:
                alike.setdefault(_row(path, apart, notes), []).append(_name(entry, made))
    for row, sizes in alike.items():
        yield "; ".join(sizes), *row


def _row(path: PathLoss, apart: str, notes: _Notes) -> tuple[str, ...]:
    arrow = "→" if path.ends.one_way else "–"
    way = f"{apart}{path.ends.from_end} {arrow} {path.ends.to_end}"
    band = f"{frequency(path.low_hz)} to {frequency(path.high_hz)}"
    if path.amplified:
        return way, band, "gain", "gain", "gain", notes.of(path.sources)
    loss = path.loss
    return way, band, *(shown(figure, 2) for figure in loss), notes.of(path.sources)
