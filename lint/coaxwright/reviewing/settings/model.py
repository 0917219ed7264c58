"""What settings say, each value with its place: those of one file, and those that hold for a folder."""

from __future__ import annotations

from typing import Generic, TypeVar

from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.review_request import AskedRuleset, LeftOut, Origin
from coaxwright.reviewing.settings.patterns import Pattern
from coaxwright.rules import Severity
from coaxwright.source import Problem

T = TypeVar("T")


@frozen_value
class Said(Generic[T]):
    """A value and where it is written."""

    value: T
    origin: Origin


@frozen_value
class LeftOutFiles:
    """Files or folders that a search does not review, and why."""

    pattern: Pattern
    reason: str
    origin: Origin


@frozen_value
class Settings:
    """Each field as the nearest file says it; None where none does."""

    returns_at: Said[Severity] | None = None
    """The severity from which a finding returns a design."""
    also_judged_by: Said[tuple[AskedRuleset, ...]] | None = None
    """Rulesets that are asked besides those that a design names."""
    rules_left_out: Said[tuple[LeftOut, ...]] | None = None
    files_left_out: Said[tuple[LeftOutFiles, ...]] | None = None
    punch_list: Said[str] | None = None
    """The file of the punch list, as findings would name it; it need not be there yet."""
    files: tuple[str, ...] = ()
    """The files that have a say, the outermost first."""
    mistakes: tuple[Problem, ...] = ()
    """What is wrong with any of the files; no field of a file with mistakes is taken."""

    def within(self, outer: Settings) -> Settings:
        """These settings inside a folder for which ``outer`` hold: the nearer win, field by field."""
        return Settings(
            returns_at=self.returns_at or outer.returns_at,
            also_judged_by=self.also_judged_by or outer.also_judged_by,
            rules_left_out=self.rules_left_out or outer.rules_left_out,
            files_left_out=self.files_left_out or outer.files_left_out,
            punch_list=self.punch_list or outer.punch_list,
            files=(*outer.files, *self.files),
            mistakes=(*outer.mistakes, *self.mistakes),
        )


NONE_SAID = Settings()
