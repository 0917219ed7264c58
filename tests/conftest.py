"""Generated inputs are new ones in every run at a desk, and the same ones in every run of CI."""

from __future__ import annotations

import os

from hypothesis import settings

os.environ["COAXWRIGHT_CACHE"] = "off"  # no test writes to the user's own cache

settings.register_profile("ci", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("ci")
