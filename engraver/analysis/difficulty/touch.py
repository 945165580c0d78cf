"""How quickly a hand has to change between ghost note and accent. An Assignment in, loads out."""

from __future__ import annotations

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
    gaps = [
        gap
        for ghost in _struck(assignment, hand, Touch.GHOST)
        for accent in _struck(assignment, hand, Touch.ACCENT)
        if (gap := min((accent - ghost) % assignment.length, (ghost - accent) % assignment.length))
    ]
    return assignment.second / min(gaps) if gaps else Fraction(0)


def _struck(assignment: Assignment, hand: Limb, touch: Touch) -> list[Fraction]:
    """Onsets of what the hand itself strikes so; grace strokes that it lends are neither."""
    return [each.onset for each in assignment.strokes if each.limb is hand and each.stroke.touch is touch]
