"""Settings of a plan repository: how the designs of a folder, and of those below it, are reviewed."""

from coaxwright.reviewing.search import SETTINGS_NAME
from coaxwright.reviewing.settings.apply import asked_in, left_out_by, parted
from coaxwright.reviewing.settings.model import LeftOutFiles, Said, Settings
from coaxwright.reviewing.settings.tree import SettingsTree

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
