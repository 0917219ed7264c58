"""Rulesets: loading, combining, and binding rules to checks."""

from coaxwright.rules.combine import Basis, combine
from coaxwright.rules.errors import RulesetError, together
from coaxwright.rules.load import read_ruleset
from coaxwright.rules.model import Caution, ExistingPolicy, Operation, Rule, Ruleset, Severity, Words
from coaxwright.rules.names import nearest_rule, topic_of
from coaxwright.rules.shelf import Shelf, shipped_shelf

__all__ = [
    "Basis",
    "Caution",
    "ExistingPolicy",
    "Operation",
    "Rule",
    "Ruleset",
    "RulesetError",
    "Severity",
    "Shelf",
    "Words",
    "combine",
    "nearest_rule",
    "read_ruleset",
    "shipped_shelf",
    "together",
    "topic_of",
]
