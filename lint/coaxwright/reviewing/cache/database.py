"""The file that results are kept in: a table of blobs by key, each with proof that it is whole.

Nothing is ever lost with it but time. Whatever goes wrong here, be it a file that is damaged, locked or cannot be
written or a disk that is full, is a ``NoCache``, and the review goes on without.
"""

from __future__ import annotations

import os
import sqlite3
import time
import zlib
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from hashlib import blake2b

from coaxwright.reviewing.cache.folder import NoCache, made_safe

FILE = "results-1.sqlite3"
"""The number rises with the form of what is kept."""
MOST_BYTES = 256_000_000
"""When the file has grown beyond this, the third of it goes that was not used for longest."""
_WAITS_S = 0.5
"""For another run that writes."""
_DAY_S = 86_400
_PROOF = 16
_TABLE = (
    "CREATE TABLE IF NOT EXISTS kept (key BLOB NOT NULL, variant TEXT NOT NULL, used INTEGER NOT NULL,"
    " value BLOB NOT NULL, PRIMARY KEY (key, variant)) WITHOUT ROWID"
)

Row = tuple[bytes, str, bytes]
"""Key, variant and value. Of one key there are several variants where a result holds for one day or one folder only."""


class Database:
    """Kept values. Every question and every change may raise NoCache; after that the run asks no more."""

    def __init__(self, folder: str, most_bytes: int = MOST_BYTES) -> None:
        """Opens the file in ``folder``, made where it is missing."""
        self._most_bytes = most_bytes
        self._touched: list[tuple[bytes, str]] = []
        self._today = int(time.time() // _DAY_S)
        path = os.path.join(folder, FILE)
        with _to_problem(path):
            made_safe(folder)
            self._connection = _opened(path)

    def get(self, key: bytes, variants: Sequence[str]) -> tuple[str, bytes] | None:
        """The value of a key in one of several variants, if there is one, with its variant."""
        marks = ", ".join("?" * len(variants))
        question = f"SELECT variant, used, value FROM kept WHERE key = ? AND variant IN ({marks})"
        with _to_problem():
            for variant, used, value in self._connection.execute(question, (key, *variants)):
                whole = _proven(key, variant, value)
                if whole is not None:
                    if used != self._today:
                        self._touched.append((key, variant))
                    return variant, whole
        return None

    def put(self, rows: Iterable[Row]) -> None:
        """Keep values, in the place of what was kept under the same key and variant."""
        packed = [(key, variant, self._today, _packed(key, variant, value)) for key, variant, value in rows]
        with _to_problem(), self._connection as connection:
            connection.executemany("INSERT OR REPLACE INTO kept VALUES (?, ?, ?, ?)", packed)

    def close(self) -> None:
        """Note what was used, let the oldest go where there is too much, and close."""
        with _to_problem():
            try:
                with self._connection as connection:
                    noted = [(self._today, *key) for key in self._touched]
                    if noted:
                        connection.executemany("UPDATE kept SET used = ? WHERE key = ? AND variant = ?", noted)
                if self._size() > self._most_bytes:
                    self._let_go()
            finally:
                self._connection.close()

    def _size(self) -> int:
        (pages,) = self._connection.execute("PRAGMA page_count").fetchone()
        (free,) = self._connection.execute("PRAGMA freelist_count").fetchone()
        (page,) = self._connection.execute("PRAGMA page_size").fetchone()
        return int((pages - free) * page)

    def _let_go(self) -> None:
        spare = self._size() - self._most_bytes * 2 // 3
        going: list[tuple[bytes, str]] = []
        oldest = "SELECT key, variant, length(value) FROM kept ORDER BY used, key"
        for key, variant, length in self._connection.execute(oldest):
            if spare <= 0:
                break
            going.append((key, variant))
            spare -= length
        with self._connection as connection:
            connection.executemany("DELETE FROM kept WHERE key = ? AND variant = ?", going)
        self._connection.executescript("PRAGMA incremental_vacuum")  # ``execute`` would give back one page only


def _opened(path: str) -> sqlite3.Connection:
    """The file, ready for use; one that is damaged is begun anew, once."""
    try:
        return _ready(path)
    except sqlite3.OperationalError:  # locked, not to be written, or no room: not the file's fault
        raise
    except sqlite3.DatabaseError:
        os.remove(path)
        return _ready(path)


def _ready(path: str) -> sqlite3.Connection:
    connection = sqlite3.connect(path, timeout=_WAITS_S)
    try:
        connection.execute("PRAGMA auto_vacuum = INCREMENTAL")
        connection.execute("PRAGMA synchronous = OFF")  # what a power failure spoils is found by its proof
        connection.execute(_TABLE)
    except BaseException:
        connection.close()
        raise
    return connection


def _packed(key: bytes, variant: str, value: bytes) -> bytes:
    packed = zlib.compress(value, 1)
    return _proof(key, variant, packed) + packed


def _proven(key: bytes, variant: str, value: object) -> bytes | None:
    """The value, or None where it is not what was once kept under this key."""
    if not isinstance(value, bytes) or value[:_PROOF] != _proof(key, variant, value[_PROOF:]):
        return None
    return zlib.decompress(value[_PROOF:])


def _proof(key: bytes, variant: str, packed: bytes) -> bytes:
    return blake2b(packed, key=blake2b(key + variant.encode(), digest_size=32).digest(), digest_size=_PROOF).digest()


@contextmanager
def _to_problem(path: str = "") -> Iterator[None]:
    try:
        yield
    except (sqlite3.Error, OSError, zlib.error) as error:
        where = f" in {os.path.dirname(path)!r}" if path else ""
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        raise NoCache(f"results are not kept{where} in this run ({reason})") from None
