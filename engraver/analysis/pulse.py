"""Periods and pulses of one lane. In go marks, out come whole numbers of steps.

A pulse is even within each restart: its last interval may be cut off, which does not unmake it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Pulse:
    """A stroke every ``spacing`` steps, the first ``phase`` after each restart, over again every ``restart``."""

    spacing: int
    phase: int
    restart: int


def period(items: Sequence[object]) -> int:
    """The smallest p with ``items[i] == items[i - p]``; it need not divide the length.

    Source: the border array of Knuth, Morris and Pratt; Cormen et al., Introduction to Algorithms, section 32.4.
    """
    borders = border_array(items)
    return len(items) - borders[-1] if borders else 0


def border_array(items: Sequence[object]) -> list[int]:
    """For every beginning of ``items``, how long its longest border is (a start that is also its end)."""
    borders = [0] * len(items)
    for end in range(1, len(items)):
        length = borders[end - 1]
        while length and items[end] != items[length]:
            length = borders[length - 1]
        borders[end] = length + (items[end] == items[length])
    return borders


def pulse(onsets: Sequence[int], steps: int, restarts: Sequence[int]) -> Pulse | None:
    """The pulse these onsets make within the longest restart for which they make one.

    ``restarts`` are to be tried in order; three strokes at least, since two are no evenness.
    """
    for restart in restarts:
        found = _even(onsets, steps, restart)
        if found:
            return found
    return None


def _even(onsets: Sequence[int], steps: int, restart: int) -> Pulse | None:
    if len(onsets) < 3 or onsets[2] >= restart:
        return None
    phase, spacing = onsets[0], onsets[1] - onsets[0]
    if phase >= spacing:
        return None
    starts = range(0, steps, restart)
    expected = [place for start in starts for place in range(start + phase, min(start + restart, steps), spacing)]
    return Pulse(spacing, phase, restart) if expected == list(onsets) else None


def restarts(phrase: int, bars: Sequence[int]) -> tuple[int, ...]:
    """Lengths after which a cycle may start over, longest first: runs of whole bars that divide the phrase.

    ``bars`` are the starts of the phrase's bars, counted from its own start.
    """
    lines = {*bars, phrase}
    return tuple(
        length
        for length in range(phrase, 0, -1)
        if phrase % length == 0 and all(place in lines for place in range(length, phrase + 1, length))
    )
