"""Scattering matrices of what divides, passes or amplifies a signal, from the sizes on its data sheet.

Data sheets give sizes and no phases: the way through is put in quadrature to the reflections, which keeps a part
passive that would not be with all phases alike (a two-way splitter of 3.5 dB, 18 dB return loss and 22 dB isolation
would give out 1.11 times its input). A figure is a number for all frequencies, or a sequence with one for each.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from math import inf

from coaxwright.physics.figures import Figure, each, share_of_loss
from coaxwright.physics.matrices import Matrix, frozen
from coaxwright.physics.scattering import is_passive


def divider(
    freqs_hz: Sequence[float],
    losses_db: Sequence[Figure],
    return_loss_in_db: Figure = inf,
    return_loss_out_db: Figure = inf,
    isolation_db: Figure = inf,
    within_loss: bool = False,
) -> list[Matrix]:
    """A splitter, tap or coupler from its data sheet: port 0 is the input, then the outputs in order.

    losses_db: input to each output [dB]; of a tap the way through and then the taps; return losses of the input and of
    every output, isolation of any output from any other [dB]; math.inf for none. Backwards as forwards.
    Return loss and isolation are least figures. ``within_loss`` takes them as large as the losses leave room for, where
    all of them together would give out more power than comes in; otherwise that is a ValueError, as are losses that are
    below those of the ideal divider. Source: conservation of power; signs are the first of a fixed list that do.
    """
    grids = [each(loss, freqs_hz) for loss in losses_db]
    if not grids:
        raise ValueError("a divider has at least one output")
    sizes = [
        tuple(map(share_of_loss, figures))
        for figures in zip(
            each(return_loss_in_db, freqs_hz),
            each(return_loss_out_db, freqs_hz),
            each(isolation_db, freqs_hz),
            *grids,
            strict=True,
        )
    ]
    if any(sum(size**2 for size in through) > 1 + 1e-9 for _, _, _, *through in sizes):
        raise ValueError("the outputs would get more power than comes in: no divider is made so")
    arrangements = _arrangements(len(grids))
    for arranged in arrangements:
        made = {figures: arranged(*figures) for figures in sizes}
        if all(map(is_passive, made.values())):
            return [made[figures] for figures in sizes]
    if not within_loss:
        raise ValueError("losses, return loss and isolation together would give out more power than comes in")
    reduced = {figures: _reduced(arrangements[0], figures) for figures in dict.fromkeys(sizes)}
    return [reduced[figures] for figures in sizes]


def through(
    freqs_hz: Sequence[float],
    loss_db: Figure,
    return_loss_db: Figure = inf,
    within_loss: bool = False,
) -> list[Matrix]:
    """A part with two alike ends: protector, ground block, barrel, matched pad, filter, wall plate.

    loss_db: either way [dB]; return_loss_db: of both ends [dB]. Otherwise as ``divider``.
    """
    return divider(freqs_hz, [loss_db], return_loss_db, return_loss_db, within_loss=within_loss)


def amplifier(
    freqs_hz: Sequence[float],
    gain_db: Figure,
    return_loss_in_db: Figure = inf,
    return_loss_out_db: Figure = inf,
    backward_db: Figure = inf,
) -> list[Matrix]:
    """An amplifier: port 0 in, port 1 out; the one part that is not passive.

    gain_db: forward [dB]; return losses [dB]; backward_db: loss from output to input [dB], math.inf for one way only.
    Raises ValueError where a return loss or the loss backward is negative. Source: definition.
    """
    made: list[Matrix] = []
    for gain, rl_in, rl_out, backward in zip(
        *(each(figure, freqs_hz) for figure in (gain_db, return_loss_in_db, return_loss_out_db, backward_db)),
        strict=True,
    ):
        if not abs(gain) < 1000:
            raise ValueError("the gain of an amplifier is a number")
        made.append(
            (
                (complex(share_of_loss(rl_in)), -1j * share_of_loss(backward)),
                (-1j * 10 ** (gain / 20), complex(share_of_loss(rl_out))),
            )
        )
    return made


def _arrangements(outputs: int) -> list[Callable[..., Matrix]]:
    """Ways to choose the signs of reflections and isolation; the way through is always in quadrature.

    Where isolation turns over between outputs, many of them do not send back in step what they get.
    """
    patterns = (_by_distance, _by_shared_bits, _alike) if outputs > 2 else (_alike,)
    signs = ((1, 1), (1, -1), (-1, 1), (-1, -1))
    return [
        partial(_arranged, pattern, out_sign, isolation_sign)
        for pattern in patterns
        for out_sign, isolation_sign in signs
    ]


def _by_distance(one: int, other: int, outputs: int) -> int:
    apart = min(abs(one - other), outputs - abs(one - other))
    return -1 if apart % 2 == 0 else 1


def _by_shared_bits(one: int, other: int, outputs: int) -> int:
    """Of Sylvester's matrix: no pattern of waves adds up at all outputs; for 16 outputs and more."""
    del outputs
    return -1 if (one & other).bit_count() % 2 else 1


def _alike(one: int, other: int, outputs: int) -> int:
    del one, other, outputs
    return 1


def _arranged(
    pattern: Callable[[int, int, int], int],
    out_sign: int,
    isolation_sign: int,
    back_in: float,
    back_out: float,
    across: float,
    *ways: float,
) -> Matrix:
    outputs = len(ways)
    rows = [[complex(back_in), *(-1j * way for way in ways)]]
    for one, way in enumerate(ways):
        row = [-1j * way]
        for other in range(outputs):
            turned = isolation_sign * pattern(one, other, outputs)
            row.append(complex(out_sign * back_out if one == other else turned * across))
        rows.append(row)
    return frozen(rows)


def _reduced(arranged: Callable[..., Matrix], figures: Sequence[float]) -> Matrix:
    """The matrix with reflections and isolation as large as leaves it passive, by halving the range 30 times."""
    back_in, back_out, across, *ways = figures
    if is_passive(arranged(*figures)):
        return arranged(*figures)
    low, high = 0.0, 1.0
    for _ in range(30):
        share = (low + high) / 2
        if is_passive(arranged(share * back_in, share * back_out, share * across, *ways)):
            low = share
        else:
            high = share
    return arranged(low * back_in, low * back_out, low * across, *ways)
