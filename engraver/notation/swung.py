"""Which notes are swung together: pairs, counted from the beats of the author's bars.

In: a groove and a time of it. Out: how far that is into its pair. Sound and the sign at the tempo mark both ask here.
"""

from __future__ import annotations

from fractions import Fraction

from engraver.notation.beats import Beat, beats
from engraver.rhythm import Groove


def into_pair(groove: Groove, written: Fraction) -> Fraction | None:
    """How much after the beginning of its pair ``written`` is; None for a beat's odd note at the end.

    After the last bar comes the first; the groove's swing is not None.
    """
    assert groove.swing is not None
    while written >= groove.length:
        written -= groove.length - groove.pickup
    beat, pair = _beat(groove, written), 2 * groove.swing
    place = (written - beat.origin) % pair
    return None if written - place + pair > beat.origin + beat.length else place


def _beat(groove: Groove, written: Fraction) -> Beat:
    index = groove.bar_at(written)
    inside = beats(groove.bars[index], bool(groove.pickup) and index == 0)
    return next(beat for beat in inside if written in beat.span)
