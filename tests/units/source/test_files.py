"""A file is refused before it is read where it cannot be a design."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from coaxwright.source import Limits, ReadError, read_file


def told(path: Path, limits: Limits = Limits()) -> str:  # noqa: B008  frozen
    with pytest.raises(ReadError) as refused:
        read_file(path, "d.coax.yaml", limits)
    return str(refused.value)


def test_a_file_is_read(tmp_path: Path) -> None:
    path = tmp_path / "d"
    path.write_bytes("\ufeffa: é\r\n".encode())
    document = read_file(path, "d.coax.yaml")
    assert document.data == {"a": "é"}
    assert document.name == "d.coax.yaml"
    assert document.text == "a: é\r\n"
    assert document.has_byte_order_mark


def test_a_folder(tmp_path: Path) -> None:
    assert told(tmp_path) == "d.coax.yaml:1:1: this is a folder; a design file"


def test_a_missing_file(tmp_path: Path) -> None:
    expected = "d.coax.yaml:1:1: the file cannot be opened (no such file or directory)"
    assert told(tmp_path / "absent") == expected


def test_a_name_that_cannot_be() -> None:
    assert told(Path("a\0b")) == "d.coax.yaml:1:1: the file cannot be opened (no such name is possible)"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert told(tmp_path / "pipe").startswith("d.coax.yaml:1:1: this is no regular file")


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="this system has no such device")
def test_a_device_is_not_read() -> None:
    assert told(Path("/dev/zero")).startswith("d.coax.yaml:1:1: this is no regular file")


def test_a_file_over_the_limit(tmp_path: Path) -> None:
    path = tmp_path / "d"
    path.write_bytes(b"a: " + b"x" * 1_000_000)
    expected = "d.coax.yaml:1:1: the file is larger than 1 MB; divide the site into several files"
    assert told(path, Limits(size_bytes=1_000_000)) == expected
    assert read_file(path, "d", Limits(size_bytes=1_000_003)).data == {"a": "x" * 1_000_000}


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (b"a: 1\nb: \xe9\n", "2:4: byte 0xE9 is not UTF-8; save the file as UTF-8"),
        (b"\xef\xbb\xbfa: \xff", "1:4: byte 0xFF is not UTF-8; save the file as UTF-8"),
        ("é: ".encode() + b"\xc3", "1:4: byte 0xC3 is not UTF-8; save the file as UTF-8"),
        ("a: 1".encode("utf-16"), "1:1: the file is saved as UTF-16; save it as UTF-8"),
        (b"\xfe\xff" + "a: 1".encode("utf-16-be"), "1:1: the file is saved as UTF-16; save it as UTF-8"),
        ("a: 1".encode("utf-16-le"), "1:2: the character U+0000 cannot stand in a design; remove or replace it"),
    ],
)
def test_other_encodings(tmp_path: Path, content: bytes, expected: str) -> None:
    path = tmp_path / "d"
    path.write_bytes(content)
    assert told(path) == f"d.coax.yaml:{expected}"
