"""Settings of a plan repository: how the designs of a folder, and of those below it, are reviewed."""

from coaxwright.review.search import SETTINGS_NAME
from coaxwright.review.settings.apply import asked_in, left_out_by, parted
from coaxwright.review.settings.model import LeftOutFiles, Said, Settings
from coaxwright.review.settings.tree import SettingsTree

__all__ = [
    "SETTINGS_NAME",
    "LeftOutFiles",
    "Said",
    "Settings",
    "SettingsTree",
    "asked_in",
    "left_out_by",
    "parted",
]
