"""Usual losses of a whole site over many frequencies at once: one recipe, two kernels that give the same figures.

For a house the plain lists are quicker than importing the array library; for a large site and a fine grid arrays are.
"""

from coaxwright.analysis.batch_loss.recipe import Recipe, recipe_of
from coaxwright.analysis.batch_loss.sums import UsualLosses, usual_losses

__all__ = ["Recipe", "UsualLosses", "recipe_of", "usual_losses"]
