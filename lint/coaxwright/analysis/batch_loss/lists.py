"""The kernel on plain lists."""

from __future__ import annotations

from collections.abc import Sequence

from coaxwright.analysis.batch_loss.recipe import Curve, Recipe


def sums(recipe: Recipe) -> Sequence[Curve]:
    """The whole loss to every arrival at every frequency [dB]; 0 stands where a figure is not known."""
    found: list[Curve] = []
    for before, curve, scale in zip(recipe.before, recipe.curve, recipe.scale, strict=True):
        own = recipe.curves[curve]
        if before < 0:
            found.append(own)
        elif scale == 1.0:
            found.append(tuple([a + b for a, b in zip(found[before], own)]))  # noqa: B905  of one length by making
        else:
            found.append(tuple([a + scale * b for a, b in zip(found[before], own)]))  # noqa: B905
    return found
