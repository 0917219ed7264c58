"""Rulesets: loading, combining, and binding rules to checks."""

from coaxwright.rules.combine import EffectiveRules, combine
from coaxwright.rules.errors import RulesetError, together
from coaxwright.rules.load import read_ruleset
from coaxwright.rules.model import Caution, Deferral, ExistingPolicy, Operation, Rule, Ruleset, Severity, Words
from coaxwright.rules.names import nearest_rule, topic_of
from coaxwright.rules.ruleset_registry import RulesetRegistry, shipped_registry

__all__ = [
    "Caution",
    "Deferral",
    "EffectiveRules",
    "ExistingPolicy",
    "Operation",
    "Rule",
    "Ruleset",
    "RulesetError",
    "RulesetRegistry",
    "Severity",
    "Words",
    "combine",
    "nearest_rule",
    "read_ruleset",
    "shipped_registry",
    "together",
    "topic_of",
]
