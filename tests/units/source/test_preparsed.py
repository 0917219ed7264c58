"""A twin stands for a file that the program ships while the file is the one that it was made from, and for no other."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree

import pytest

from coaxwright.catalogue import loader
from coaxwright.rules import ruleset_registry, shipped_registry
from coaxwright.rules.load import read_ruleset, with_page
from coaxwright.rules.model import Ruleset
from coaxwright.source import preparsed, read_file
from coaxwright.source.preparsed import preparsed_of

EDITIONS = list(shipped_registry().files.values())
CATALOGUE = list(loader.files())


@pytest.mark.parametrize("path", EDITIONS, ids=lambda path: f"{path.parent.name} {path.stem}")
def test_a_ruleset_is_the_same_from_its_twins_as_from_its_files(path: Path) -> None:
    (name, first), *others = ruleset_registry.pages(path)
    read = read_ruleset(read_file(first, name))
    for name, page in others:
        read = with_page(read, read_file(page, name))
    assert ruleset_registry._read(path) == read
    assert [operation.where for operation in ruleset_registry._read(path).operations] == [
        one.where for one in read.operations
    ]


@pytest.mark.parametrize(("name", "path"), CATALOGUE, ids=[name for name, _ in CATALOGUE])
def test_a_file_of_the_catalogue_is_the_same_from_its_twin(name: str, path: Path) -> None:
    twin = preparsed_of(loader.PREPARSED, name, path.read_bytes())
    assert twin is not None
    assert twin.data == read_file(path, name).data
    assert json.dumps(twin.data) == json.dumps(read_file(path, name).data)  # 1 is not 1.0, nor True


def test_every_shipped_file_has_its_twin() -> None:
    for edition in EDITIONS:
        for name, path in ruleset_registry.pages(edition):
            assert preparsed_of(ruleset_registry.PREPARSED, name, path.read_bytes()) is not None


def test_a_file_that_was_changed_is_read_itself(tmp_path: Path) -> None:
    copytree(EDITIONS[0].parent, tmp_path / "trade")
    path = tmp_path / "trade" / "1.yaml"
    assert ruleset_registry._read(path) == shipped_registry().get("trade 1")
    changed = tmp_path / "changed" / "trade"
    copytree(tmp_path / "trade", changed)
    text = (changed / "1.yaml").read_text(encoding="utf-8")
    (changed / "1.yaml").write_text(text.replace("ruleset: trade\n", "# more\nruleset: trade\n"), encoding="utf-8")
    before, after = (
        ruleset.operations[0].where
        for ruleset in (ruleset_registry._read(path), ruleset_registry._read(changed / "1.yaml"))
    )
    assert _line(after) == _line(before) + 1


def _line(where: str) -> int:
    return int(where.rpartition(":")[2])


@pytest.fixture
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Twins of a folder of the test's own."""
    monkeypatch.setattr(preparsed, "FOLDER", tmp_path)
    preparsed._files.cache_clear()
    yield tmp_path
    preparsed._files.cache_clear()


def test_one_byte_makes_another_file(elsewhere: Path) -> None:
    file = elsewhere / "a.yaml"
    file.write_bytes(b"add:\n  one: 1\n")
    (elsewhere / "own.json").write_text(preparsed.preparsed_text([("a.yaml", file)]), encoding="utf-8")
    twin = preparsed_of("own", "a.yaml", b"add:\n  one: 1\n")
    assert twin is not None
    assert (twin.data, twin.lines) == ({"add": {"one": 1}}, {"add/one": 2})
    assert preparsed_of("own", "a.yaml", b"add:\n  one: 2\n") is None
    assert preparsed_of("own", "a.yaml", b"add:\r\n  one: 1\r\n") is None
    assert preparsed_of("own", "b.yaml", b"add:\n  one: 1\n") is None


@pytest.mark.parametrize("text", [None, "", "{", "\udcff"])
def test_without_twins_the_files_are_read(elsewhere: Path, text: str | None) -> None:
    if text is not None:
        (elsewhere / "rulesets.json").write_bytes(text.encode("utf-8", "surrogateescape"))
    assert preparsed_of("rulesets", "us/2023.yaml", b"") is None
    assert isinstance(ruleset_registry._read.__wrapped__(EDITIONS[0]), Ruleset)
