"""How evenly strokes are spread over a ring of steps, and whether they are a Euclidean form. Onsets in."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from engraver.analysis.report import EuclideanForm
from engraver.analysis.syncopation import intervals


def euclid(k: int, n: int) -> str:
    """k strokes in n steps as evenly as can be, x and -. Source: Toussaint 2005, Bridges, pages 47-56 (Bjorklund).

    The first deal is always made, else k = n - 1 would begin with two strokes.
    """
    if k in (0, n):
        return "x" * k + "-" * (n - k)
    heads, tails = ["x"] * k, ["-"] * (n - k)
    while True:
        dealt = min(len(heads), len(tails))
        left = heads[dealt:] or tails[dealt:]
        heads = [head + tail for head, tail in zip(heads, tails, strict=False)]
        tails = left
        if len(tails) <= 1:
            return "".join(heads + tails)


def euclidean_form(onsets: Sequence[int], steps: int) -> EuclideanForm | None:
    """The form these onsets are, turned the fewest steps; None if they are none, or every step or no step is struck."""
    if not 0 < len(onsets) < steps:
        return None
    pattern = "".join("x" if step in set(onsets) else "-" for step in range(steps))
    place = (euclid(len(onsets), steps) * 2).find(pattern)
    return EuclideanForm(len(onsets), steps, place) if place >= 0 else None


def variability(onsets: Sequence[int], steps: int) -> Fraction | None:
    """The normalised pairwise variability index of the intervals. Source: Grabe and Low 2002 (from memory).

    In per cent, 0 for a pulse; None for fewer than two strokes. The last interval goes round the ring, but is not
    compared with the first.
    """
    lengths = intervals(onsets, steps)
    if len(lengths) < 2:
        return None
    pairs = list(pairwise(lengths))
    return sum((Fraction(200 * abs(a - b), a + b) for a, b in pairs), Fraction(0)) / len(pairs)
