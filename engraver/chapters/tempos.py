"""The row of tempos to tick: from one that the limbs find easy up to the goal."""

from __future__ import annotations

from fractions import Fraction

from engraver.definition import TempoSteps

TEMPOS = 5  # in a row, where the author names none
SLOW = Fraction(3, 5)  # of the goal, where the limbs do not need it slower. Common practice, no source


def climb(goal: int, easy: int) -> tuple[int, ...]:
    """Equal steps in whole beats a minute, the last of them ``goal``, the first no faster than ``easy``.

    No source gives an increment: the number of tempos is ours, and that a step is an even number or ends with 5.
    """
    start = min(round(goal * SLOW), easy, goal)
    by = max(1, -(-(goal - start) // (TEMPOS - 1)))
    by += by > 1 and by % 2 and by % 5 > 0
    return tuple(goal - by * step for step in reversed(range(TEMPOS)) if goal - by * step >= 1)


def stated(tempo: TempoSteps) -> tuple[int, ...]:
    """The author's own, the goal always among them."""
    row = tuple(range(tempo.start, tempo.goal + 1, tempo.by))
    return row if row[-1] == tempo.goal else (*row, tempo.goal)
