"""The row of tempos to tick: from one that the limbs find easy up to the goal."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from engraver.definition import TempoSteps

TEMPOS = 5  # in a row, where the author names none
SLOW = Fraction(3, 5)  # of the goal; where a climb begins if no limb needs it slower. Common practice, no source
SLOWEST = 30  # beats a minute; slower is no beat any more: 1.8 s is the longest that people keep time by (Repp 2006)


def climb(goal: int, easy: int) -> tuple[int, ...]:
    """Even steps in whole beats a minute, the last of them ``goal``; the first no faster than ``easy``."""
    start = min(goal, max(min(goal, SLOWEST), min(round(goal * SLOW), easy)))
    by = max(1, -(-(goal - start) // (TEMPOS - 1)))
    return tuple(reversed(tuple(_down(goal, start, by))))


def _down(goal: int, start: int, by: int) -> Iterator[int]:
    yield from range(goal, start, -by)
    yield start


def stated(tempo: TempoSteps) -> tuple[int, ...]:
    """The author's own, the goal always among them."""
    row = tuple(range(tempo.start, tempo.goal + 1, tempo.by))
    return row if row[-1] == tempo.goal else (*row, tempo.goal)
