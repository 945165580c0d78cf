"""Swing as it is played: written time goes in, sounding time comes out.

Of two swung notes the first lasts two thirds of the pair, as if they were the first and last of a triplet. Faster
players swing less, which is not followed here. Both are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from engraver.notation.beats import is_power_of_two
from engraver.notation.swung import into_pair
from engraver.rhythm import ZERO, Groove, Stroke, Tuplet

LONG = Fraction(2, 3)  # of a pair


@dataclass(frozen=True, slots=True)
class Feel:
    """How a passage is felt that begins at ``offset`` of ``whole``, its times multiplied by ``scale``.

    Pairs are counted from the beats of the author's bars, whatever bar lines the passage has; after the last bar comes
    the first. Straight stay: a beat's odd note at the end, a tuplet longer than the swung note, a grid of tuplets.
    """

    whole: Groove
    offset: Fraction = ZERO
    scale: Fraction = Fraction(1)

    def sounds(self, onset: Fraction) -> Fraction:
        """When that sounds which is written at ``onset`` of the passage."""
        if self.whole.swing is None:
            return onset
        written = self._written(onset)
        if any(tuplet.span.length > self.whole.swing for tuplet in self._tuplets(written)):
            return onset
        return onset + self._later(written) * self.scale

    def struck(self, stroke: Stroke) -> Stroke:
        """The stroke when it sounds, lasting until its next step does."""
        plain_step = is_power_of_two((stroke.step / self.scale).denominator)
        if self.whole.swing is None or not (plain_step or any(self._tuplets(self._written(stroke.onset)))):
            return stroke
        onset = self.sounds(stroke.onset)
        return replace(stroke, onset=onset, step=self.sounds(stroke.onset + stroke.step) - onset)

    def _written(self, onset: Fraction) -> Fraction:
        """Where that is in the author's groove."""
        written = self.offset + onset / self.scale
        while written >= self.whole.length:
            written -= self.whole.length - self.whole.pickup
        return written

    def _tuplets(self, written: Fraction) -> Iterator[Tuplet]:
        """Those that the author bracketed here."""
        return (tuplet for tuplet in self.whole.tuplets if written in tuplet.span)

    def _later(self, written: Fraction) -> Fraction:
        """How much later than written: nothing on a beat, a third of the unit in the middle of a pair."""
        unit, place = self.whole.swing, into_pair(self.whole, written)
        assert unit is not None
        if place is None:
            return ZERO
        return min(place, 2 * unit - place) * (2 * LONG - 1)
