"""The file of the cache: what is kept is whole or not there, and no trouble with it is more than that."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

import pytest

from coaxwright.reviewing.cache import database
from coaxwright.reviewing.cache.database import FILE, Database
from coaxwright.reviewing.cache.folder import NoCache


def opened(cache: Path, most_bytes: int = database.MOST_BYTES) -> Database:
    return Database(str(cache), most_bytes)


def test_what_is_put_is_there_in_the_next_run(cache: Path) -> None:
    first = opened(cache)
    first.put([(b"k", "", b"value"), (b"k", "day", b"of a day")])
    first.close()
    second = opened(cache)
    assert second.get(b"k", [""]) == ("", b"value")
    assert second.get(b"k", ["day"]) == ("day", b"of a day")
    assert second.get(b"k", ["another"]) is None
    assert second.get(b"other", [""]) is None
    second.put([(b"k", "", b"a new one")])
    assert second.get(b"k", [""]) == ("", b"a new one")


def test_the_folder_is_its_user_s_alone(cache: Path) -> None:
    opened(cache).close()
    assert cache.stat().st_mode & 0o777 == 0o700
    cache.chmod(0o777)
    with pytest.raises(NoCache, match="others can write into it"):
        opened(cache)


@pytest.mark.parametrize("change", ["value", "key", "variant"])
def test_a_value_that_is_not_what_was_put_is_not_given(cache: Path, change: str) -> None:
    one = opened(cache)
    one.put([(b"k", "v", b"value")])
    one.close()
    with sqlite3.connect(cache / FILE) as connection:
        if change == "value":
            (value,) = connection.execute("SELECT value FROM kept").fetchone()
            connection.execute("UPDATE kept SET value = ?", (value[:-1] + bytes([value[-1] ^ 1]),))
        else:
            connection.execute(f"UPDATE kept SET {change} = ?", (b"m" if change == "key" else "w",))
    connection.close()
    again = opened(cache)
    assert again.get(b"k", ["v", "w"]) is None
    assert again.get(b"m", ["v", "w"]) is None


@pytest.mark.parametrize("content", [b"no database at all, and long enough to be taken for one" * 40, b"x"])
def test_a_file_that_is_damaged_is_begun_anew(cache: Path, content: bytes) -> None:
    cache.mkdir(mode=0o700)
    (cache / FILE).write_bytes(content)
    one = opened(cache)
    one.put([(b"k", "", b"value")])
    one.close()
    assert opened(cache).get(b"k", [""]) == ("", b"value")


def test_damage_that_is_found_later_is_told(cache: Path) -> None:
    one = opened(cache)
    one.put([(bytes([number]), "", os.urandom(3000)) for number in range(200)])
    one.close()
    content = bytearray((cache / FILE).read_bytes())
    content[4096:] = b"\xa5" * (len(content) - 4096)
    (cache / FILE).write_bytes(content)
    again = opened(cache)
    with pytest.raises(NoCache, match="not kept"):
        _ = [again.get(bytes([number]), [""]) for number in range(200)]


def test_a_file_that_another_run_has_locked(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(database, "_WAITS_S", 0.05)
    opened(cache).close()
    other = sqlite3.connect(cache / FILE)
    other.execute("BEGIN EXCLUSIVE")
    with pytest.raises(NoCache, match=r"database is locked"):
        opened(cache).get(b"k", [""])
    other.close()
    assert opened(cache).get(b"k", [""]) is None


def test_a_folder_that_cannot_be_made(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(NoCache, match=r"results are not kept in .*file.*in this run"):
        Database(str(tmp_path / "file" / "cache"))


def test_what_was_not_used_for_longest_goes_when_there_is_too_much(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    days = iter([1000, 1001, 1002, 1003])
    monkeypatch.setattr(database.time, "time", lambda: day * 86_400)
    day = next(days)
    first = opened(cache)
    first.put([(b"a", "", os.urandom(40_000)), (b"b", "", os.urandom(40_000))])
    first.close()
    day = next(days)
    second = opened(cache)
    assert second.get(b"a", [""]) is not None
    second.close()  # now b was not used for longest
    day = next(days)
    third = opened(cache, most_bytes=150_000)
    third.put([(b"c", "", os.urandom(40_000)), (b"d", "", os.urandom(40_000))])
    third.close()
    assert (cache / FILE).stat().st_size <= 150_000
    day = next(days)
    last = opened(cache)
    assert last.get(b"b", [""]) is None
    assert last.get(b"d", [""]) is not None
