"""The rulesets that can be named: those that come with the program, and a firm's own."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from functools import cache
from pathlib import Path

from coaxwright.frozen_value import frozen_value
from coaxwright.rules.errors import RulesetError
from coaxwright.rules.load import page_of, read_ruleset, ruleset_of, with_page, with_parsed_page
from coaxwright.rules.model import Ruleset
from coaxwright.shipped import shipped
from coaxwright.source import read_file
from coaxwright.source.preparsed import preparsed_of

PREPARSED = "rulesets"
"""The collection of preparsed rulesets."""
_EDITION_FILE = re.compile(r"[0-9]+\.yaml")


@frozen_value
class RulesetRegistry:
    """Files by ruleset and edition; a file is read when it is first asked for."""

    files: Mapping[tuple[str, str], Path]
    own: Mapping[str, Ruleset] = field(default_factory=dict)
    """Rulesets that were read already, a firm's, by their labels."""

    def with_own(self, rulesets: Sequence[Ruleset]) -> RulesetRegistry:
        """The shelf with a firm's rulesets on it.

        Raises RulesetError for one that has the name of a ruleset that is here.
        """
        own = dict(self.own)
        for ruleset in rulesets:
            parsed = own.get(ruleset.label)
            if ruleset.name in self.names:
                what = f"a ruleset {ruleset.name!r} comes with the program; give this one another name"
            elif parsed is not None:
                what = f"{parsed.file} is {ruleset.label} as well; give one of them another name or edition"
            else:
                own[ruleset.label] = ruleset
                continue
            raise RulesetError(ruleset.file, what, file=ruleset.file, path=("ruleset",))
        return RulesetRegistry(self.files, own)

    def get(self, label: str) -> Ruleset:
        """The ruleset ``us 2023``.

        Raises RulesetError, listing what there is, for a ruleset or an edition that is not here: an edition is
        refused, never mapped to another by guess.
        """
        if label in self.own:
            return self.own[label]
        name, _, edition = label.partition(" ")
        path = self.files.get((name, edition))
        if path is None:
            editions = self.editions(name)
            if editions:
                raise RulesetError(label, f"that edition is not here; of {name} there are {', '.join(editions)}")
            there = [*self.names, *sorted({ruleset.name for ruleset in self.own.values()} - set(self.names))]
            near = self._nearest(label)
            hint = f"; did you mean {near!r}?" if near else ""
            raise RulesetError(label, f"no ruleset of that name; there are {', '.join(there)}{hint}")
        return _read(path)

    def _nearest(self, label: str) -> str | None:
        """The label that was probably meant: a name as people write it, with its edition if that is here."""
        from coaxwright.design.nearest import nearest_word  # read only when a mistake is told

        written, _, edition = label.rpartition(" ") if label[-1:].isdigit() else (label, "", "")
        name = nearest_word(written, self.names)
        if name is None:
            return None
        return f"{name} {edition}" if edition in self.editions(name) else self.newest(name)

    @property
    def names(self) -> tuple[str, ...]:
        """Every ruleset once, sorted."""
        return tuple(sorted({name for name, _ in self.files}))

    def editions(self, name: str) -> tuple[str, ...]:
        """The editions of a ruleset, oldest first."""
        return tuple(sorted((edition for own, edition in self.files if own == name), key=int))

    def newest(self, name: str) -> str:
        """The label of the newest edition."""
        return f"{name} {self.editions(name)[-1]}"


@cache
def shipped_registry() -> RulesetRegistry:
    """The rulesets that come with the program."""
    files = {
        (folder.name, file.stem): file
        for folder in sorted(shipped("rulesets").iterdir())
        if folder.is_dir()
        for file in sorted(folder.iterdir())
        if _EDITION_FILE.fullmatch(file.name)
    }
    return RulesetRegistry(files)


@cache
def _read(path: Path) -> Ruleset:
    """An edition with its pages, the files in the folder of its own name."""
    ruleset: Ruleset | None = None
    for name, file in pages(path):
        parsed = preparsed_of(PREPARSED, name, file.read_bytes())
        if ruleset is None:
            ruleset = read_ruleset(read_file(file, name)) if parsed is None else ruleset_of(page_of(name, parsed))
        elif parsed is None:
            ruleset = with_page(ruleset, read_file(file, name))
        else:
            ruleset = with_parsed_page(ruleset, page_of(name, parsed))
    assert ruleset is not None  # its own file comes first
    return ruleset


def pages(path: Path) -> Iterator[tuple[str, Path]]:
    """The files of an edition, its own first, by the names that messages call them: ``us/2023/route.yaml``."""
    yield f"{path.parent.name}/{path.name}", path
    for page in sorted(path.with_suffix("").glob("*.yaml")):
        yield f"{path.parent.name}/{path.stem}/{page.name}", page
