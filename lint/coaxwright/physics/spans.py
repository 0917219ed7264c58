"""Cable that hangs between two points: its sag and the pull on its ends, by the parabola."""

from __future__ import annotations

STEEPEST = 0.1
"""Sag as a share of the span [-] beyond which the parabola no longer stands for the catenary."""


def sag_m(weight_n_per_m: float, span_m: float, pull_n: float) -> float:
    """The sag in the middle of a level span [m].

    s = w L^2 / (8 H), with the weight per length w [N/m], the span L [m] and the pull H [N]. Within 0.3 % of the
    catenary where the sag is 5 % of the span. Raises ValueError for a pull that is not above zero, or a sag of more
    than a tenth of the span.

    Source: textbook parabola of a hanging cable.
    """
    if pull_n <= 0:
        raise ValueError(f"the pull has to be above zero, not {pull_n}")
    sag = weight_n_per_m * span_m**2 / (8 * pull_n)
    if sag > STEEPEST * span_m:
        raise ValueError("the sag is more than a tenth of the span")
    return sag


def pull_in_weights(sag_share: float) -> float:
    """The pull on the ends of a level span, in weights of the span [-]: H / (w L) = 1 / (8 s/L).

    ``sag_share``: sag over span s/L [-]. Raises ValueError where it is not above zero or more than a tenth.

    Source: textbook parabola of a hanging cable.
    """
    if not 0 < sag_share <= STEEPEST:
        raise ValueError(f"the sag has to be above zero and at most a tenth of the span, not {sag_share}")
    return 1 / (8 * sag_share)
