"""Reading one design from Python."""

from __future__ import annotations

from pathlib import Path

from coaxwright.design import Design, understand
from coaxwright.network import Network
from coaxwright.reviewing.reading import read_design
from coaxwright.reviewing.site import read_site


def load(path: str | Path) -> Design:
    """The typed design in a file, with the parts it includes.

    Raises ReadError where the file is not readable data, NotUnderstood where it breaks the schema; both say where.
    """
    return understand(read_design(Path(path), Path(path).name))


def load_network(path: str | Path) -> Network:
    """The network of the design in a file, with the catalogue entries of its own and of the files that it names.

    Raises ReadError and NotUnderstood as ``load`` does, and for what is wrong with those files.
    """
    return read_site(path).network()
