"""Tags as they are written to the things they name; what names nothing is noted, with the nearest right word."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from coaxwright.catalogue import Port
from coaxwright.network.faults import UnknownReference
from coaxwright.network.nodes import DeviceNode
from coaxwright.network.tags import nearest_tag
from coaxwright.source import Path


class References:
    """Looks tags up and keeps a list of those that name nothing."""

    def __init__(self) -> None:
        self.unknown: list[UnknownReference] = []

    def find(self, tag: str | None, known: Mapping[str, object], wanted: str, path: Path) -> str | None:
        """The tag if it is known; None, and a note, if it is not."""
        if tag is None or tag in known:
            return tag
        self.miss(tag, known, wanted, path)
        return None

    def device_and_port(
        self, written: str, devices: Mapping[str, DeviceNode], path: Path
    ) -> tuple[str | None, Port | None]:
        """``SP1`` or ``SP1.out-2``; a whole tag that holds a dot wins over a tag with a port."""
        if written in devices:
            return written, None
        tag, dot, name = written.rpartition(".")
        if not dot or tag not in devices:
            self.miss(written, devices, "device", path)
            return None, None
        ports = {port.name: port for port in devices[tag].ports}
        if name not in ports:
            self.miss(name, ports, f"port of {tag}", path, before=f"{tag}.")
            return tag, None
        return tag, ports[name]

    def miss(self, written: str, known: Iterable[str], wanted: str, path: Path, before: str = "") -> None:
        """Note a word that names nothing; ``before`` stands in front of it in the text."""
        words = list(known)
        near = nearest_tag(written, words)
        meant = f"{before}{near}" if near is not None else None
        self.unknown.append(UnknownReference(path, f"{before}{written}", wanted, tuple(words), near, meant))
