"""``coaxwright start``: a small commented design in a new file."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Collection
from pathlib import Path
from shlex import quote

from coaxwright.cli.output import complain, say
from coaxwright.errors import CoaxwrightError
from coaxwright.shipped import shipped
from coaxwright.starters import Dwelling, Incoming, Units, starter

_SUFFIX = ".coax.yaml"
SCHEMA = "design-1.draft-07.schema.json"
_MODELINE = "# yaml-language-server: $schema="
"""The comment by which a schema-aware editor finds the schema of a YAML file: common practice of such editors."""
_NEAR = (".coax.yaml", ".coax.yml", ".coax", ".yaml", ".yml", ".txt")
"""Ends of names that are taken for a slip of the right one."""


def run_start(
    file: Path,
    dwelling: Dwelling = Dwelling.ONE_FAMILY,
    ruleset: str | None = None,
    incoming: Collection[Incoming] = tuple(Incoming),
    title: str | None = None,
    units: Units = Units.US,
    editor: bool = False,
) -> int:
    """Write the design and give the exit status: 0, or 2 where nothing was written.

    ``editor``: put the schema beside it, and name it in the first line for editors that read it there.
    """
    from coaxwright.design import understand
    from coaxwright.rules import combine, shipped_registry
    from coaxwright.source import ReadError, read_text

    shelf = shipped_registry()
    if not file.name.endswith(_SUFFIX) or file.name == _SUFFIX:
        complain(f"a design is named *{_SUFFIX}, not '{file.name}'; did you mean '{_right_name(file)}'?")
        return 2
    if title is not None and not title.strip():
        complain("--title takes the words that stand on the drawing, not nothing")
        return 2
    label = shelf.newest("us") if ruleset is None else ruleset
    try:
        combine((label,), shelf)
        text = starter(dwelling, label, incoming, title, units)
        if editor:
            text = f"{_MODELINE}{SCHEMA}\n{text}"
        understand(read_text(text, file.name))
        _put_new(text, file)
        if editor and not file.with_name(SCHEMA).exists():
            _put_new((shipped("schemas") / SCHEMA).read_text(encoding="utf-8"), file.with_name(SCHEMA))
    except ReadError as error:  # nothing but the title can be at fault
        complain(f"--title: {error.problem.what}")
        return 2
    except CoaxwrightError as error:
        complain(str(error))
        return 2
    except FileExistsError:
        complain(f"{file} is there already; nothing was written")
        return 2
    except OSError as error:
        complain(f"cannot write {file}: {(error.strerror or str(error)).lower()}")
        return 2
    name = quote(str(file))
    say(f"{file} is written. Replace its places, tags and figures by yours, then:\n")
    say(f"  coaxwright show {name}\n  coaxwright review {name}\n")
    return 0


def _right_name(file: Path) -> Path:
    """The name that was probably meant."""
    stem = file.name
    for ending in _NEAR:
        if stem.casefold().endswith(ending):
            stem = stem[: -len(ending)]
            break
    return file.with_name(f"{stem or 'site'}{_SUFFIX}")


def _put_new(text: str, into: Path) -> None:
    """Write a file that was not there before, whole or not at all.

    Raises FileExistsError where the name is taken, whoever takes it in between; OSError where it cannot be written.
    """
    if os.path.lexists(into):
        raise FileExistsError(into)
    handle, name = tempfile.mkstemp(dir=into.parent, prefix=f".{into.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text.encode("utf-8"))
        Path(name).chmod(0o644)
        _give_name(Path(name), into)
    finally:
        Path(name).unlink(missing_ok=True)


def _give_name(written: Path, into: Path) -> None:
    try:
        into.hardlink_to(written)  # unlike a change of name, this never takes the place of another file
    except FileExistsError:
        raise
    except OSError:  # a file system without links: take the name first, then put the whole file in its place
        into.open("xb").close()
        try:
            written.replace(into)
        except BaseException:
            into.unlink()
            raise
