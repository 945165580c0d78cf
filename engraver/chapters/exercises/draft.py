"""What an exercise kind makes: a window of the groove, with a title and a sentence."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from engraver.chapters.plan import Passage, Ribbon
from engraver.rhythm import ZERO, Groove


@dataclass(frozen=True, slots=True)
class Draft:
    """``groove`` is a window of chosen layers; it begins at ``offset`` of the whole, times multiplied by ``scale``.

    ``twin``: the same strokes under other bar lines, printed below. ``counted``: with counting syllables.
    ``said``: what is said on each onset, where the limbs are learnt as one pattern.
    """

    title: str
    task: str
    groove: Groove
    offset: Fraction = ZERO
    ribbons: tuple[Ribbon, ...] = ()
    scale: Fraction = Fraction(1)
    twin: Passage | None = None
    counted: bool = False
    said: tuple[tuple[Fraction, str], ...] = ()

    @property
    def counted_out(self) -> Draft:
        """What stands under two bar lines as it is counted; any other as it is."""
        if self.twin is None:
            return self
        below = self.twin
        return replace(self, groove=below.groove, offset=below.offset, scale=Fraction(1), ribbons=(), twin=None)
