"""The kernel on arrays; needs the extra ``arrays``, and is imported only where a site is large enough for it to pay."""

from __future__ import annotations

import itertools
from typing import Any

import numpy as np

from coaxwright.analysis.batch_loss.recipe import Recipe


def sums(recipe: Recipe) -> Any:
    """The whole loss to every arrival (rows) at every frequency (columns) [dB]; 0 where a figure is not known.

    All arrivals of one depth at once: as many steps as the longest way has ports.
    """
    before = np.asarray(recipe.before)
    curves = np.asarray(recipe.curves, dtype=float).reshape(len(recipe.curves), -1)
    own = curves[np.asarray(recipe.curve)]
    own *= np.asarray(recipe.scale)[:, None]
    depths = _depths(recipe.before)
    order = np.argsort(depths, kind="stable")
    ends = np.cumsum(np.bincount(depths))
    for first, last in itertools.pairwise(ends):
        rows = order[first:last]
        own[rows] += own[before[rows]]
    return own


def _depths(before: tuple[int, ...]) -> Any:
    depths = [0] * len(before)
    for index, parent in enumerate(before):
        if parent >= 0:
            depths[index] = depths[parent] + 1
    return np.asarray(depths)
