"""A device of the design to its catalogue entry and ports; what the catalogue does not have is noted, and bridged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from coaxwright.catalogue import Catalogue, DeviceEntry, Direction, Options, Port
from coaxwright.design import Device, PortSaid
from coaxwright.plant.faults import UnknownReference

_WORDS: Mapping[str, str] = {
    "variant": "variant",
    "ways": "number of ways",
    "inputs": "number of inputs",
    "outputs": "number of outputs",
    "value_db": "value",
}
"""What each option is called, the one that decides most first; its key in the file is its name, but for ``value``."""


def options_of(device: Device) -> Options:
    """What sets a device apart from others of its kind."""
    value_db = device.value.ratio_db if device.value is not None else None
    return Options(device.ways, device.inputs, device.outputs, value_db, device.variant)


def entry_of(device: Device, catalogue: Catalogue) -> DeviceEntry | None:
    """The catalogue's entry for a device; None where it has no such one."""
    return catalogue.made(device.kind).get(options_of(device))


def not_made(tag: str, device: Device, catalogue: Catalogue) -> UnknownReference:
    """What the catalogue does not have: the first option that no device of the kind has together with those before it.

    Where every option is had by some device, but an option is left out, that one.
    """
    wanted = options_of(device)
    made = list(catalogue.made(device.kind))
    missed = ""
    for option in _WORDS:
        missed = option
        had = [options for options in made if getattr(options, option) == getattr(wanted, option)]
        if not had:
            break
        made = had
    known = tuple(dict.fromkeys(_written(getattr(options, missed)) for options in made))
    key = "value" if missed == "value_db" else missed
    words = f"{_WORDS[missed]} of {'an' if device.kind[0] in 'aeiou' else 'a'} {device.kind}"
    if device.variant is not None and missed != "variant":
        words += f", {device.variant}"
    return UnknownReference(("devices", tag, key), _written(getattr(wanted, missed)), words, known, None, None)


def ports_of(device: Device, entry: DeviceEntry | None, catalogue: Catalogue) -> tuple[Port, ...]:
    """The ports of a device, with its own impedance where it states one.

    A size that the catalogue does not have gets as many alike outputs as it says, so that all else can be judged.
    """
    ports = entry.ports if entry is not None else _bridged(device, catalogue)
    if device.impedance is not None:
        ports = tuple(replace(port, impedance_ohm=device.impedance.impedance_ohm) for port in ports)
    return ports if device.ports is None else tuple(_as_said(port, device.ports.get(port.name)) for port in ports)


def _as_said(port: Port, said: PortSaid | None) -> Port:
    """A port with what the design says of it in place of the catalogue's figures."""
    if said is None:
        return port
    return replace(
        port,
        impedance_ohm=port.impedance_ohm if said.impedance is None else said.impedance.impedance_ohm,
        connector=said.connector or port.connector,
    )


def _bridged(device: Device, catalogue: Catalogue) -> tuple[Port, ...]:
    made = catalogue.made(device.kind)
    wanted = options_of(device)
    alike = [
        entry for options, entry in made.items() if replace(options, value_db=None) == replace(wanted, value_db=None)
    ]
    like = alike[0] if alike else next(iter(made.values()))
    if device.ways is None:
        return like.ports
    outputs = [port for port in like.ports if port.direction is Direction.OUT]
    inputs = [port for port in like.ports if port.direction is not Direction.OUT]
    return (*inputs, *(replace(outputs[0], name=f"out-{way}") for way in range(1, device.ways + 1)))


def _written(value: object) -> str:
    if value is None:
        return "none"
    return f"{value:g} dB" if isinstance(value, float) else str(value)
