"""What all tests share. Generated inputs are new in every run at a desk, and the same in every run of CI."""

from __future__ import annotations

import gc
import os
import re
from collections.abc import Callable
from importlib import import_module
from typing import Any

import pytest
from hypothesis import settings
from xdist.scheduler import LoadFileScheduling

from coaxwright.rules import shipped_registry

os.environ["COAXWRIGHT_CACHE"] = "off"  # no test writes to the user's own cache

settings.register_profile("desk", deadline=None)  # a busy machine is no fault of the program
settings.register_profile("ci", settings.get_profile("desk"), derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


class _Scheduling(LoadFileScheduling):
    """Gives out whole files, since tests of one share what they look at; and the folder ``conformance`` as one.

    The last test of that folder compares a page with what all others have noted.
    """

    def _split_scope(self, nodeid: str) -> str:
        folder = "/".join(nodeid.split("/")[:2])
        return folder if folder == "tests/conformance" else str(super()._split_scope(nodeid))


def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> _Scheduling:
    return _Scheduling(config, log)


@pytest.hookimpl(trylast=True)
def pytest_collection_finish() -> None:
    """Thousands of tests that were collected stay to the end: they need not be looked through for garbage each time."""
    gc.collect()
    gc.freeze()


def pytest_sessionstart() -> None:
    """Let the shipped rulesets be combined once for all reviews of a process, as they are for all designs of a run.

    It takes half the time of the review of a small design. Tests of how rulesets are combined ask that directly.
    """
    module = import_module("coaxwright.reviewing.effective_rules")
    combining = import_module("coaxwright.rules.combine")
    combine, checks = module.combine, combining.all_checks
    known: dict[tuple[str, ...], Any] = {}

    def combined(labels: tuple[str, ...], shelf: Any) -> Any:
        if shelf is not shipped_registry() or combining.all_checks is not checks:
            return combine(labels, shelf)
        if labels not in known:
            known[labels] = combine(labels, shelf)
        return known[labels]

    module.combine = combined


COUNTS = re.compile(r"\s\d+\s+rules?\s+checked\s+on\s+\d+\s+items?\b")


@pytest.fixture(scope="session")
def without_counts() -> Callable[[str], str]:
    """A review in which the closing line does not say how many rules were checked, and on how much: both will grow."""
    return lambda text: COUNTS.sub(" N rules checked on M items", text)
