"""How quickly a hand has to change between ghost note and accent. An Assignment in, loads out."""

from __future__ import annotations

from bisect import bisect_left
from fractions import Fraction

from engraver.analysis.limbs.assignment import Assignment
from engraver.analysis.limbs.bands import limit
from engraver.rhythm import Limb, Touch

HANDS = (Limb.RIGHT_HAND, Limb.LEFT_HAND)


def touch_changes(assignment: Assignment) -> Fraction:
    """The sum over the hands of the quickest change, in changes a second, as a share of the hand's fastest rate.

    The nearest ghost note and accent of one hand count, round and round, whether or not strokes lie between: so added
    strokes only bring them nearer.
    """
    return sum((_quickest(assignment, hand) / limit(hand) for hand in HANDS), Fraction(0))


def _quickest(assignment: Assignment, hand: Limb) -> Fraction:
    ticks = assignment.in_ticks
    ghosts, accents = (ticks.touched.get((hand, touch), ()) for touch in (Touch.GHOST, Touch.ACCENT))
    if not ghosts or not accents:
        return Fraction(0)
    round_again = [*accents, accents[0] + ticks.length]
    after = (round_again[bisect_left(round_again, ghost)] - ghost for ghost in ghosts)
    before = (ghost - ([accents[-1] - ticks.length, *accents])[bisect_left(accents, ghost)] for ghost in ghosts)
    return assignment.second * ticks.whole / min(*after, *before)
