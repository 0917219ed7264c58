"""Whole reports: given again while everything they were made of is as it was, by status or by content."""

from __future__ import annotations

import os
import time
from dataclasses import replace
from pathlib import Path

import pytest

from coaxwright.reviewing.cache import input_digests as module
from coaxwright.reviewing.cache.answers import CachedAnswer, Question, find, keep
from coaxwright.reviewing.cache.database import Database
from coaxwright.reviewing.cache.input_digests import Ingredients, Looked, content_digest, digest_of, lead_on, status_of

ANSWER = CachedAnswer("caf\u00e9 returned\n".encode(), 1)


@pytest.fixture
def base(cache: Path) -> Database:
    return Database(str(cache))


def question() -> Question:
    return Question("p", ("--as", "brief"), (100, False), str(Path.cwd()), ("a.coax.yaml",), "2026-11-28")


def write(name: str, text: str) -> None:
    Path(name).parent.mkdir(parents=True, exist_ok=True)
    Path(name).write_text(text, encoding="utf-8")


def made_of(*paths: str) -> Ingredients:
    return Ingredients(tuple((path, content_digest(path) or "") for path in paths), (), str(Path.cwd()))


def settled(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let a minute pass, so that the status of files is trusted."""
    now = time.time_ns() + 60_000_000_000
    monkeypatch.setattr(module.time, "time_ns", lambda: now)


@pytest.fixture(params=["by content", "by status"])
def kept(request: pytest.FixtureRequest, base: Database, monkeypatch: pytest.MonkeyPatch) -> Database:
    """A database in which a report on two files is kept."""
    write("a.coax.yaml", "one")
    write("p.coax-part.yaml", "two")
    if request.param == "by status":
        settled(monkeypatch)
    keep(question(), ANSWER, [made_of("a.coax.yaml", "p.coax-part.yaml")], False, Looked(), base)
    return base


def test_the_report_is_given_again(kept: Database) -> None:
    assert find(question(), ["a.coax.yaml"], kept) == ANSWER


@pytest.mark.parametrize("name", ["a.coax.yaml", "p.coax-part.yaml"])
@pytest.mark.parametrize("change", ["other", "gone", "folder"])
def test_not_when_a_file_is_another(kept: Database, name: str, change: str) -> None:
    if change == "other":
        write(name, "six")
    else:
        Path(name).unlink()
    if change == "folder":
        Path(name).mkdir()
    assert find(question(), ["a.coax.yaml"], kept) is None


def test_not_for_another_question(kept: Database) -> None:
    mine = question()
    for other in (
        replace(mine, program="q"),
        replace(mine, words=("--as", "text")),
        replace(mine, paper=(80, False)),
        replace(mine, paper=(100, True)),
        replace(mine, here="/"),
        replace(mine, names=("a.coax.yaml", "b.coax.yaml")),
    ):
        assert find(other, ["a.coax.yaml"], kept) is None
    assert find(replace(mine, today="2026-11-29"), ["a.coax.yaml"], kept) == ANSWER


def test_a_report_that_depends_on_the_day(base: Database) -> None:
    write("a.coax.yaml", "one")
    keep(question(), ANSWER, [made_of("a.coax.yaml")], True, Looked(), base)
    assert find(question(), ["a.coax.yaml"], base) == ANSWER
    assert find(replace(question(), today="2026-11-29"), ["a.coax.yaml"], base) is None


@pytest.mark.parametrize("folder", [".", "sub", "sub/deep"])
def test_not_where_settings_have_a_say(base: Database, folder: str) -> None:
    write("sub/deep/a.coax.yaml", "one")
    keep(question(), ANSWER, [made_of("sub/deep/a.coax.yaml")], False, Looked(), base)
    assert find(question(), ["sub/deep/a.coax.yaml"], base) == ANSWER
    write(f"{folder}/coax-settings.yaml", "coaxwright settings: 1\n")
    assert find(question(), ["sub/deep/a.coax.yaml"], base) is None
    other = replace(question(), words=())
    keep(other, ANSWER, [made_of("sub/deep/a.coax.yaml")], False, Looked(), base)
    Path(folder, "coax-settings.yaml").unlink()
    assert find(other, ["sub/deep/a.coax.yaml"], base) is None


def test_not_where_a_link_leads_elsewhere(base: Database) -> None:
    write("one/p", "same")
    write("two/p", "same")
    os.symlink("one", "sheets")
    end = str(Path("one/p").resolve())
    ways = Ingredients((("a.coax.yaml", ""), (end, digest_of(b"same"))), ((str(Path("sheets/p").absolute()), end),), "")
    write("a.coax.yaml", "")
    ways = replace(ways, files=(("a.coax.yaml", digest_of(b"")), *ways.files[1:]))
    keep(question(), ANSWER, [ways], False, Looked(), base)
    assert find(question(), ["a.coax.yaml"], base) == ANSWER
    os.remove("sheets")
    os.symlink("two", "sheets")
    assert not lead_on(ways.links)
    assert find(question(), ["a.coax.yaml"], base) is None


def test_a_file_that_two_designs_read_differently_keeps_nothing(base: Database) -> None:
    write("a.coax.yaml", "one")
    other = Ingredients((("a.coax.yaml", digest_of(b"before")),))
    keep(question(), ANSWER, [made_of("a.coax.yaml"), other], False, Looked(), base)
    assert find(question(), ["a.coax.yaml"], base) is None


def test_a_file_that_changed_after_it_was_read_keeps_no_status(base: Database, monkeypatch: pytest.MonkeyPatch) -> None:
    write("a.coax.yaml", "one")
    read = made_of("a.coax.yaml")
    write("a.coax.yaml", "six")
    settled(monkeypatch)
    keep(question(), ANSWER, [read], False, Looked(), base)
    assert find(question(), ["a.coax.yaml"], base) is None


def test_unread_files_are_told_by_their_status(kept: Database, monkeypatch: pytest.MonkeyPatch) -> None:
    settled(monkeypatch)
    assert find(question(), ["a.coax.yaml"], kept) == ANSWER  # from here on the statuses are known
    read: list[str] = []
    monkeypatch.setattr(module, "content_digest", lambda path: read.append(path) or content_digest(path))
    assert find(question(), ["a.coax.yaml"], kept) == ANSWER
    assert read == []
    os.utime("a.coax.yaml", ns=(1, 1))
    assert find(question(), ["a.coax.yaml"], kept) == ANSWER
    assert read == ["a.coax.yaml"]


def test_a_status_is_not_trusted_while_its_file_may_change_unseen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two writings within one tick of the clock leave one and the same status."""
    write("a", "one")
    status = Path("a").stat()
    newest = max(status.st_mtime_ns, status.st_ctime_ns)
    assert status_of("a", newest) is None
    assert status_of("a", newest + 1_999_999_999) is None
    assert status_of("a", newest + 2_000_000_000) is not None
    os.utime("a", ns=(1, 1))  # its time of writing can be set, that of its last change cannot
    assert status_of("a", newest) is None
    assert status_of("missing", newest) is None
    assert status_of("a\0", newest) is None


def test_what_is_no_regular_file_is_never_opened(tmp_path: Path) -> None:
    os.mkfifo("pipe")
    assert content_digest("pipe") is None
    assert content_digest(str(tmp_path)) is None
    assert content_digest("a\0b") is None
    write("large", "x")
    os.truncate("large", 16_000_001)
    assert content_digest("large") is None
