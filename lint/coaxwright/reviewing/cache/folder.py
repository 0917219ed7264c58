"""Where results are kept: a folder of the user's own, never one that a repository under review could bring along."""

from __future__ import annotations

import os
from collections.abc import Mapping

VARIABLE = "COAXWRIGHT_CACHE"
OFF = "off"
OWN_NAME = "coaxwright"


class NoCache(Exception):
    """Results are not kept in this run; the text says why, and is empty where that is the user's own wish."""


def cache_folder(environment: Mapping[str, str], here: str) -> str:
    """The folder, which may not be there yet; ``here`` is the working folder.

    ``COAXWRIGHT_CACHE`` names it, or says ``off``; else it lies in the user's folder for such things (XDG Base
    Directory Specification 0.8: a relative path there is ignored). Raises NoCache.
    """
    named = environment.get(VARIABLE, "")
    if named == OFF:
        raise NoCache("")
    if named:
        if not os.path.isabs(named):
            raise NoCache(f"{VARIABLE} takes the full path of a folder, or '{OFF}', not {named!r}")
        folder = named
    else:
        folder = os.path.join(_of_the_user(environment), OWN_NAME)
    if _is_under_review(folder, here):
        raise NoCache(f"nothing is kept in {folder!r}: it lies in the folder under review, which could bring it along")
    return folder


def _of_the_user(environment: Mapping[str, str]) -> str:
    for variable in ("XDG_CACHE_HOME", "LOCALAPPDATA"):
        folder = environment.get(variable, "")
        if os.path.isabs(folder):
            return folder
    home = os.path.expanduser("~")
    if not os.path.isabs(home):
        raise NoCache("")
    return os.path.join(home, ".cache")


def _is_under_review(folder: str, here: str) -> bool:
    """Whether the folder lies below the working folder, unless that holds the user's whole home."""
    here = os.path.realpath(here)
    return _is_below(os.path.realpath(folder), here) and not _is_below(os.path.realpath(os.path.expanduser("~")), here)


def _is_below(path: str, folder: str) -> bool:
    return path == folder or path.startswith(folder.rstrip(os.sep) + os.sep)


def made_safe(folder: str) -> None:
    """Make the folder, for its user alone. Raises NoCache where others could write into it, OSError where it fails."""
    os.makedirs(folder, mode=0o700, exist_ok=True)
    status = os.stat(folder)
    if hasattr(os, "getuid") and (status.st_uid != os.getuid() or status.st_mode & 0o022):
        raise NoCache(f"nothing is kept in {folder!r}: others can write into it")
