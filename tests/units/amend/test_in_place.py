"""A changed file takes the place of the old one, whole or not at all, and only if nobody else has changed it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from coaxwright.amend import ChangedMeanwhile, put_in_place


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "quay.coax.yaml"
    path.write_bytes("\ufeffa: é\r\n".encode())
    path.chmod(0o640)
    return path


def test_the_bytes_are_those_given_and_the_rights_stay(file: Path) -> None:
    put_in_place(file, "quay", "\ufeffa: é\r\n", "\ufeffb: ü\r\n")
    assert file.read_bytes() == b"\xef\xbb\xbfb: \xc3\xbc\r\n"
    assert file.stat().st_mode & 0o7777 == 0o640
    assert list(file.parent.iterdir()) == [file]


def test_what_another_hand_has_changed_is_left_alone(file: Path) -> None:
    file.write_text("theirs", encoding="utf-8")
    with pytest.raises(ChangedMeanwhile, match="quay was changed by another hand meanwhile; nothing was written to it"):
        put_in_place(file, "quay", "\ufeffa: é\r\n", "ours")
    assert file.read_text(encoding="utf-8") == "theirs"
    assert list(file.parent.iterdir()) == [file]


def test_a_link_leads_to_the_new_file(file: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.coax.yaml"
    link.symlink_to(file.name)
    put_in_place(link, "link", "\ufeffa: é\r\n", "new")
    assert link.is_symlink()
    assert file.read_text(encoding="utf-8") == "new"


@pytest.mark.parametrize("broken", ["replace", "fsync"])
def test_the_old_file_stays_where_writing_fails(file: Path, monkeypatch: pytest.MonkeyPatch, broken: str) -> None:
    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(*(Path, "replace", fail) if broken == "replace" else (os, "fsync", fail))
    with pytest.raises(OSError, match="No space left"):
        put_in_place(file, "quay", "\ufeffa: é\r\n", "new")
    assert file.read_bytes() == "\ufeffa: é\r\n".encode()
    assert list(file.parent.iterdir()) == [file]


def test_a_file_that_may_not_be_written_is_not_replaced(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file.chmod(0o440)
    asked: list[int] = []

    def may_not(_: object, mode: int) -> bool:
        asked.append(mode)  # whoever runs the tests may be allowed everything
        return False

    monkeypatch.setattr(os, "access", may_not)
    with pytest.raises(PermissionError):
        put_in_place(file, "quay", "\ufeffa: é\r\n", "new")
    assert asked == [os.W_OK]
    assert file.read_bytes() == "\ufeffa: é\r\n".encode()
