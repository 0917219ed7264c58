"""A device of the design to its catalogue entry and ports; what the catalogue does not have is noted, and bridged."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from coaxwright.catalogue import Catalogue, DeviceEntry, Options, Port
from coaxwright.design import Device, PortSaid
from coaxwright.network.diplex import with_split
from coaxwright.network.faults import UnknownReference
from coaxwright.network.tags import nearest_tag

_WORDS: Mapping[str, str] = {
    "variant": "variant",
    "ways": "number of ways",
    "inputs": "number of inputs",
    "outputs": "number of outputs",
    "value_db": "value",
}
"""What each option is called, the one that decides most first."""
OPTIONS: Mapping[str, str] = {"value" if option == "value_db" else option: option for option in _WORDS}
"""The options by their keys in the file."""


def options_of(device: Device) -> Options:
    """What sets a device apart from others of its kind."""
    value_db = device.value.loss_db if device.value is not None else None
    return Options(device.ways, device.inputs, device.outputs, value_db, device.variant)


def entry_of(device: Device, catalogue: Catalogue) -> DeviceEntry | None:
    """The catalogue's entry for a device; None where it has no such one."""
    if device.model is not None:
        own = catalogue.models.get(device.model)
        return with_split(own, device) if own is not None and _is_of(device, own) else None
    return with_split(catalogue.made(device.kind).get(options_of(device)), device)


def _is_of(device: Device, model: DeviceEntry) -> bool:
    """Whether a device is of the kind of its model, and says no other size than the model has."""
    said = options_of(device)
    same = all(getattr(said, option) == getattr(model.options, option) for option in said.named)
    return device.kind == model.kind and same


def not_made(tag: str, device: Device, catalogue: Catalogue) -> UnknownReference:
    """What the catalogue does not have: the first option that no device of the kind has together with those before it.

    Where every option is had by some device, but an option is left out, that one.
    """
    if device.model is not None:
        return _no_model(tag, device, device.model, catalogue)
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
    key = next(key for key, option in OPTIONS.items() if option == missed)
    words = f"{_WORDS[missed]} of {'an' if device.kind[0] in 'aeiou' else 'a'} {device.kind}"
    if device.variant is not None and missed != "variant":
        words += f", {device.variant}"
    return UnknownReference(("devices", tag, key), _written(getattr(wanted, missed)), words, known, None, None)


def _no_model(tag: str, device: Device, model: str, catalogue: Catalogue) -> UnknownReference:
    """A model that no catalogue adds, or that is another kind or size of device than it is said to be."""
    path = ("devices", tag, "model")
    if model in catalogue.models:
        return UnknownReference(path, model, "model", (), None, None)
    alike = tuple(name for name, entry in catalogue.models.items() if entry.kind == device.kind)
    near = nearest_tag(model, list(alike or catalogue.models))
    return UnknownReference(path, model, "model", alike, near, near)


def kind_of(device: Device | DeviceEntry) -> str:
    """The kind with its variant in front: ``unbalanced splitter``."""
    return f"{device.variant} {device.kind}" if device.variant is not None else device.kind


def not_made_with(device: Device, key: str) -> str:
    """What the catalogue does not have, up to the option that no device has: ``tap of 4 outputs with a value of 7 dB``.

    ``key`` is the option's key in the file.
    """
    options = options_of(device)
    if key != "value":
        number = getattr(options, OPTIONS[key])
        return f"{kind_of(device)} with {number} {key if number != 1 else key.removesuffix('s')}"
    size = f" of {options.outputs} output{'' if options.outputs == 1 else 's'}" if options.outputs is not None else ""
    return f"{kind_of(device)}{size} with a value of {_written(options.value_db)}"


def ports_of(device: Device, entry: DeviceEntry | None, catalogue: Catalogue) -> tuple[Port, ...]:
    """The ports of a device, with its own impedance where it states one.

    A size that the catalogue does not have gets as many alike ports as it says, so that all else can be judged.
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
    alike = [entry for options, entry in made.items() if options.variant == device.variant] or list(made.values())
    wanted = device.ways or device.outputs or device.inputs
    for entry in alike:
        if _size(entry.options) == wanted:
            return entry.ports
    largest = max(alike, key=lambda entry: _size(entry.options) or 0)
    return _with_as_many(largest.ports, wanted) if wanted is not None else largest.ports


def _size(options: Options) -> int | None:
    return options.ways or options.outputs or options.inputs


def _with_as_many(ports: tuple[Port, ...], number: int) -> tuple[Port, ...]:
    """The ports with so many of those that there are most of: of a tap its taps, of a splitter its outputs."""
    counts = Counter(port.group for port in ports)
    group = max(counts, key=counts.__getitem__)
    model = next(port for port in ports if port.group == group)
    name = model.name.rstrip("0123456789").rstrip("-")
    numbered = [replace(model, name=f"{name}-{one}" if number > 1 else name) for one in range(1, number + 1)]
    first = ports.index(model)
    others = [port for port in ports[first:] if port.group != group]
    return (*ports[:first], *numbered, *others)


def _written(value: object) -> str:
    if value is None:
        return "none"
    return f"{value:g} dB" if isinstance(value, float) else str(value)
