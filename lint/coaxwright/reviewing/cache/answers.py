"""Whole reports, kept to be given again as they were while nothing that bears on them has changed.

Nothing but the standard library is imported for this: neither rules nor models nor the reader of designs.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Sequence
from hashlib import blake2b

from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.cache.database import Database
from coaxwright.reviewing.cache.input_digests import Ingredients, Looked, Status, lead_on

MOST_BYTES = 32_000_000
"""A longer report is not kept."""
HAS_A_SAY = "coax-settings.yaml"
"""A file of this name in a folder of a design, or above it, bears on what is asked: with one, reports are not kept."""


@frozen_value
class Question:
    """What a report answers."""

    program: str
    words: tuple[str, ...]
    """The command's options as they are written."""
    paper: tuple[int, bool]
    """The width of the text, and whether it is painted."""
    here: str
    """The working folder."""
    names: tuple[str, ...]
    """What findings call the designs."""
    today: str

    @property
    def key(self) -> bytes:
        """Stands for the question, on whichever day it is asked."""
        said = json.dumps([self.program, self.words, self.paper, self.here, self.names])
        return blake2b(b"answer" + said.encode("ascii"), digest_size=20).digest()


@frozen_value
class CachedAnswer:
    """A report, and the exit status that it came with."""

    text: bytes
    status: int


def find(question: Question, paths: Sequence[str], database: Database) -> CachedAnswer | None:
    """The report as it was, where nothing has changed; ``paths`` are those of the designs. Raises NoCache."""
    hit = database.get(question.key, ["", question.today])
    if hit is None or any(map(os.path.lexists, _with_a_say(paths, question.here))):
        return None
    variant, value = hit
    length = int.from_bytes(value[:8])
    kept, text = json.loads(value[8 : 8 + length]), value[8 + length :]
    looked = Looked()
    if not lead_on(kept["links"]) or not all(looked.is_same(*file) for file in kept["files"]):
        return None
    answer = CachedAnswer(text, kept["status"])
    files = {path: digest for path, digest, _ in kept["files"]}
    if any(looked.status(path) != (status and tuple(status)) for path, _, status in kept["files"]):
        _put(question, variant, answer, files, {path: looked.status(path) for path in files}, kept["links"], database)
    return answer


def keep(
    question: Question,
    answer: CachedAnswer,
    made_of: Iterable[Ingredients],
    depends_on_day: bool,
    looked: Looked,
    database: Database,
) -> None:
    """Keep a report; it holds for one day alone where anything in it depends on the day.

    ``looked`` knows the files as they were before they were read. Raises NoCache.
    """
    ingredients = tuple(made_of)
    paths = [ingredient.files[0][0] for ingredient in ingredients]
    if len(answer.text) > MOST_BYTES or any(map(os.path.lexists, _with_a_say(paths, question.here))):
        return
    files: dict[str, str] = {}
    for ingredient in ingredients:
        for path, digest in ingredient.files:
            if files.setdefault(path, digest) != digest:  # it changed while the designs were read
                return
    links = sorted({link for ingredient in ingredients for link in ingredient.links})
    variant = question.today if depends_on_day else ""
    statuses = {path: looked.status(path) if looked.digest(path) == digest else None for path, digest in files.items()}
    _put(question, variant, answer, files, statuses, links, database)


def _put(
    question: Question,
    variant: str,
    answer: CachedAnswer,
    files: dict[str, str],
    statuses: dict[str, Status | None],
    links: Sequence[Sequence[str]],
    database: Database,
) -> None:
    listed = [[path, digest, statuses[path]] for path, digest in files.items()]
    said = json.dumps({"status": answer.status, "files": listed, "links": links}).encode("ascii")
    database.put([(question.key, variant, len(said).to_bytes(8) + said + answer.text)])


def _with_a_say(paths: Iterable[str], here: str) -> set[str]:
    """Where a file could lie that has a say in the review of a design.

    In the folders from its own up to the working folder; for one outside of that, in its own folder alone.
    """
    top = os.path.realpath(here)
    found: set[str] = set()
    folders: set[str] = set()
    for folder in {os.path.dirname(path) for path in paths}:
        folder = os.path.realpath(os.path.join(here, folder))
        while folder not in folders:
            folders.add(folder)
            found.add(os.path.join(folder, HAS_A_SAY))
            if folder == top or not folder.startswith(top.rstrip(os.sep) + os.sep):
                break
            folder = os.path.dirname(folder)
    return found
