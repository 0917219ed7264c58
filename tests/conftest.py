"""Generated inputs are new ones in every run at a desk, and the same ones in every run of CI."""

from __future__ import annotations

import os

from hypothesis import settings

os.environ["COAXWRIGHT_CACHE"] = "off"  # no test writes to the user's own cache

settings.register_profile("desk", deadline=None)  # a busy machine is no fault of the program
settings.register_profile("ci", settings.get_profile("desk"), derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")
