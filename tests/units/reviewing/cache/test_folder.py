"""Where the cache lies: in the user's own folder for it, and never where a repository under review could put one."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.reviewing.cache.folder import NoCache, cache_folder


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "home"
    folder.mkdir()
    monkeypatch.setenv("HOME", str(folder))
    return folder


@pytest.mark.parametrize(
    ("environment", "folder"),
    [
        ({}, "{home}/.cache/coaxwright"),
        ({"XDG_CACHE_HOME": "{home}/elsewhere"}, "{home}/elsewhere/coaxwright"),
        ({"XDG_CACHE_HOME": "relative"}, "{home}/.cache/coaxwright"),  # XDG Base Directory Specification 0.8
        ({"XDG_CACHE_HOME": ""}, "{home}/.cache/coaxwright"),
        ({"LOCALAPPDATA": "{home}/local"}, "{home}/local/coaxwright"),
        ({"COAXWRIGHT_CACHE": "{home}/mine", "XDG_CACHE_HOME": "/other"}, "{home}/mine"),
    ],
    ids=lambda value: "-".join(value) if isinstance(value, dict) else "",
)
def test_the_folder(home: Path, environment: dict[str, str], folder: str) -> None:
    filled = {name: value.format(home=home) for name, value in environment.items()}
    assert cache_folder(filled, str(home / "work")) == folder.format(home=home)


def test_off_is_no_trouble() -> None:
    with pytest.raises(NoCache) as refused:
        cache_folder({"COAXWRIGHT_CACHE": "off"}, "/work")
    assert str(refused.value) == ""


def test_a_relative_folder_is_refused() -> None:
    with pytest.raises(NoCache, match="takes the full path of a folder, or 'off', not 'here'"):
        cache_folder({"COAXWRIGHT_CACHE": "here"}, "/work")


def test_a_folder_in_the_working_folder_is_refused(home: Path) -> None:
    work = home / "work"
    (work / "kept").mkdir(parents=True)
    with pytest.raises(NoCache, match="which could bring it along"):
        cache_folder({"COAXWRIGHT_CACHE": str(work / "kept")}, str(work))
    (home / "link").symlink_to(work / "kept")
    with pytest.raises(NoCache, match="which could bring it along"):
        cache_folder({"COAXWRIGHT_CACHE": str(home / "link")}, str(work))


def test_a_user_who_works_at_home_has_a_cache(home: Path) -> None:
    assert cache_folder({}, str(home)) == f"{home}/.cache/coaxwright"


def test_a_user_without_a_home_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", "")
    monkeypatch.setattr("os.path.expanduser", lambda path: path)
    with pytest.raises(NoCache) as refused:
        cache_folder({}, "/work")
    assert str(refused.value) == ""
