"""Checks are found by name: ``bonding.conductor-length`` is ``checks/bonding/conductor_length.py``.

A module of a topic holds one check, ``CHECK``; what several of them share stands in ``_shared.py``. The folder of the
topic ``return`` is ``return_path``, since the word is Python's.
"""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pathlib import Path

from coaxwright.checks.contract import AnyCheck

_HERE = Path(__file__).parent
_FOLDERS = {"return": "return_path"}
_TOPICS = {folder: topic for topic, folder in _FOLDERS.items()}
_FORMER_NAMES = {
    "accessible-protector": "protection.accessible",
    "listed-protector": "protection.listed",
    "path-return-loss": "impedance.return-loss",
    "protector-order": "protection.order",
    "variance-current": "variance.current",
    "variance-named": "variance.named",
    "variance-single": "variance.single",
    "variance-used": "variance.used",
}
"""Checks whose requirement had another name in earlier versions; the others were called by their requirement alone."""


class NoSuchCheck(LookupError):
    """There is no check of a name."""


@cache
def check_names() -> tuple[str, ...]:
    """The names of all checks, by topic."""
    files = sorted(path for path in _HERE.glob("*/*.py") if not path.stem.startswith("_"))
    topics = (_TOPICS.get(path.parent.name, path.parent.name) for path in files)
    return tuple(".".join((topic, path.stem.replace("_", "-"))) for topic, path in zip(topics, files, strict=True))


def current_name(name: str) -> str:
    """The name of a check that is called by the one that it had in earlier versions; any other as it is."""
    if "." in name:
        return name
    if name in _FORMER_NAMES:
        return _FORMER_NAMES[name]
    return next((known for known in check_names() if known.partition(".")[2] == name), name)


@cache
def find_check(name: str) -> AnyCheck:
    """A check by name, that of an earlier version as well.

    Raises NoSuchCheck.
    """
    topic, _, requirement = current_name(name).partition(".")
    folder, module = _FOLDERS.get(topic, topic), requirement.replace("-", "_")
    if not requirement or not (_HERE / folder / module).with_suffix(".py").is_file():
        raise NoSuchCheck(name)
    check: AnyCheck = import_module(".".join(("coaxwright.checks", folder, module))).CHECK
    return check
