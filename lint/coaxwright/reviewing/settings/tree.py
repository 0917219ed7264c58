"""The settings that hold in a tree of folders, each file read once in a run."""

from __future__ import annotations

from pathlib import Path

from coaxwright.reviewing.settings.model import NONE_SAID, Settings
from coaxwright.reviewing.settings.read import read_settings
from coaxwright.source import FilesRead


class SettingsTree:
    """Answers which settings hold for a design: those of its folder and of the folders above, up to the root.

    The root is the working folder, or, for a design outside of it, the design's own folder: nothing above is looked at.
    """

    def __init__(self, files: FilesRead | None = None, *, reads_rulesets: bool = True) -> None:
        """``files`` are those read before in the run; where settings do not count, their rulesets need not be read."""
        self._files: FilesRead = {} if files is None else files
        self._reads_rulesets = reads_rulesets
        self._known: dict[tuple[Path, Path], Settings] = {}
        self._of_parents: dict[Path, Settings] = {}
        self._here = Path.cwd()

    def of(self, design: Path) -> Settings:
        """The settings for the design at a path, which need not be there."""
        parent = design.parent
        if parent not in self._of_parents:
            try:
                folder = parent.resolve()
            except (OSError, RuntimeError, ValueError):  # no such path is possible, which its reading tells
                return NONE_SAID
            root = self._here if folder.is_relative_to(self._here) else folder
            self._of_parents[parent] = self.of_folder(folder, root)
        return self._of_parents[parent]

    def of_folder(self, folder: Path, root: Path) -> Settings:
        """The settings for what lies in a folder; both are paths with no links in them."""
        key = (folder, root)
        if key not in self._known:
            outer = self.of_folder(folder.parent, root) if folder != root else NONE_SAID
            own = read_settings(folder, root, self._files, reads_rulesets=self._reads_rulesets)
            self._known[key] = outer if own is None else own.within(outer)
        return self._known[key]
