"""One design read as far as its network, for commands and programs that question it without judging it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from coaxwright.catalogue import Catalogue
from coaxwright.design import Design
from coaxwright.frozen_value import frozen_value
from coaxwright.network import Network, build_network
from coaxwright.reviewing.effective_rules import RuleSources, understood
from coaxwright.reviewing.reading import read_design
from coaxwright.reviewing.search import name_of
from coaxwright.rules import EffectiveRules, shipped_registry
from coaxwright.source import Document


@frozen_value
class ReadSite:
    """A design with its document, the rules that bind it, and the catalogue that its words are read by."""

    document: Document
    """With its repeated units written out."""
    design: Design
    basis: EffectiveRules
    catalogue: Catalogue

    @property
    def data(self) -> dict[str, Any]:
        """The plain data that the design was made of."""
        assert isinstance(self.document.data, dict)  # it was understood
        return self.document.data

    def network(self) -> Network:
        """Its network."""
        return build_network(self.design, self.catalogue)


def read_site(path: str | Path) -> ReadSite:
    """A design by the path of its file.

    Raises ReadError where the file is not readable, NotUnderstood with everything that is wrong with it and with the
    catalogues and rulesets that it names.
    """
    file = Path(path)
    document = understood(read_design(file, name_of(file)))
    design = Design.model_validate(document.data)
    terms = RuleSources(shipped_registry()).of_design(document, design)
    return ReadSite(document, design, terms.basis, terms.catalogue)
