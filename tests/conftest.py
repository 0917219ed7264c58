"""What all tests share. Generated inputs are new in every run at a desk, and the same in every run of CI."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import settings
from xdist.scheduler import LoadScopeScheduling

os.environ["COAXWRIGHT_CACHE"] = "off"  # no test writes to the user's own cache

settings.register_profile("desk", deadline=None)  # a busy machine is no fault of the program
settings.register_profile("ci", settings.get_profile("desk"), derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")


class _Scheduling(LoadScopeScheduling):
    """Gives out the tests one by one, but those of ``conformance`` together: the last of them tells what all noted."""

    def _split_scope(self, nodeid: str) -> str:
        folder = "/".join(nodeid.split("/")[:2])
        return folder if folder == "tests/conformance" else nodeid


def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> _Scheduling:
    return _Scheduling(config, log)


COUNTS = re.compile(r"\s\d+\s+rules?\s+checked\s+on\s+\d+\s+items?\b")


@pytest.fixture(scope="session")
def without_counts() -> Callable[[str], str]:
    """A review in which the closing line does not say how many rules were checked, and on how much: both will grow."""
    return lambda text: COUNTS.sub(" N rules checked on M items", text)
