"""On whose terms a design was reviewed, which of the rules that bind it were not asked, and what was left out."""

from __future__ import annotations

from enum import StrEnum

from coaxwright.frozen_value import frozen_value


class KeptBy(StrEnum):
    """Who kept a rule from being asked."""

    COMMAND = "command line"
    SETTINGS = "settings"
    RULESET = "ruleset"


@frozen_value
class SkippedRule:
    """A rule that was not asked, by whom and why."""

    rule: str
    by: KeptBy
    reason: str = ""
    """Empty for the command line, which gives none."""
    origin: str = ""
    """The line of the settings, ``plans/coax-settings.yaml:4``, or the ruleset that switches it off."""


@frozen_value
class AlsoAsked:
    """A ruleset that settings ask besides those that the design names."""

    label: str
    origin: str
    """The line of the settings."""


@frozen_value
class LeftOutDesign:
    """A design that a search found and settings leave out."""

    name: str
    reason: str
    origin: str
    """The line of the settings."""


@frozen_value
class Scope:
    """What a design was held to, apart from what it names itself."""

    reviewers_terms: tuple[str, ...] = ()
    """The reviewer's rulesets, which alone bind it; empty for a review on the design's own terms."""
    set_aside: tuple[str, ...] = ()
    """Settings and punch lists in its folder tree that do not count on the reviewer's terms."""
    settings: tuple[str, ...] = ()
    """The settings files that hold for it, the outermost first."""
    also_asked: tuple[AlsoAsked, ...] = ()
    returns_at_from: str = ""
    """The line of the settings that sets the severity that returns it; empty where none does."""
    only: tuple[str, ...] = ()
    """The rules and topics that alone were asked for, as the command names them."""
    leave_out: tuple[str, ...] = ()
    """The rules and topics that the command leaves out."""
    skipped_rules: tuple[SkippedRule, ...] = ()
    """By name, every rule that was not asked: of those that bind it, and those that a ruleset switches off."""

    @property
    def is_part(self) -> bool:
        """Whether the command asks for a part of the rules only: no plain answer may come of that."""
        return bool(self.only or self.leave_out)

    def kept_by(self, who: KeptBy) -> tuple[SkippedRule, ...]:
        """What one of them kept from being asked."""
        return tuple(skipped_rule for skipped_rule in self.skipped_rules if skipped_rule.by is who)


OWN_TERMS = Scope()
"""All rules of the rulesets that the design names."""
