"""The difficulty of an exercise: limbs, their tempo and the groove's cross-rhythms in, a sum of named parts out.

It is an ordering and claims no more: nobody has measured its weights. It orders by containment: of two exercises over
the same time and tempo, with the same limbs for the same strokes, the one that holds all strokes of the other is never
the easier. Every part has this property by itself (its function says why), and the weights are not negative.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields
from fractions import Fraction

from engraver.analysis.difficulty.coordination import bits, leading_and_feet, other_pairs, together, uncertainty
from engraver.analysis.difficulty.grade import grade
from engraver.analysis.difficulty.rhythm import cross_rhythm, syncopation
from engraver.analysis.difficulty.touch import touch_changes
from engraver.analysis.limbs.assignment import Assignment
from engraver.analysis.limbs.rates import burst, sustained
from engraver.analysis.report import CrossRhythm
from engraver.rhythm import Limb

# Points for one of each part: ours, uncalibrated. A limb at the end of its bands weighs as much as three pairs of limbs
# that meet in all ways of a beat of sixteenths.
RATE, SETS, BITS, INDEPENDENCE, CROSS_RHYTHM, SYNCOPATION, TOUCH = 10, Fraction(1, 2), 1, Fraction(3, 2), 2, 2, 4


@dataclass(frozen=True, slots=True)
class Difficulty:
    """Points of each part.

    - ``rate``: each limb's rate against its band, squared;
    - ``combinations``: limbs that strike together, and how uncertain the pairs leave one another;
    - ``independence``: how uncertain the leading hand and each foot leave one another;
    - ``cross_rhythm``: the depth of the deepest;
    - ``syncopation``: how deep below the beat strokes stand;
    - ``touch``: ghost notes near accents in one hand;
    - ``new_strokes``: the different strokes to learn, told by instrument, touch and ornament, in bits;
    - ``length``: strokes, in bits.

    Strokes are new within their own exercise, not after those before it: that would depend on the way that was taken,
    and of two exercises the one that holds the other could count for less.
    """

    rate: Fraction
    combinations: Fraction
    independence: Fraction
    cross_rhythm: Fraction
    syncopation: Fraction
    touch: Fraction
    new_strokes: Fraction
    length: Fraction

    @property
    def parts(self) -> tuple[tuple[str, Fraction], ...]:
        return tuple((each.name, getattr(self, each.name)) for each in fields(self))

    @property
    def total(self) -> Fraction:
        return sum((points for _, points in self.parts if points), Fraction(0))

    @property
    def grade(self) -> int:
        """1, the easiest, to 5."""
        return grade(self.total)


def difficulty(
    assignment: Assignment, crossings: Iterable[CrossRhythm] = (), step: Fraction = Fraction(1, 16)
) -> Difficulty:
    """``crossings``: the cross-rhythms of the whole groove, in steps of ``step`` (as long as it is in the exercise)."""
    return Difficulty(
        rate=RATE * sum((load**2 for limb in Limb if (load := _load(assignment, limb))), Fraction(0)),
        combinations=SETS * together(assignment) + BITS * uncertainty(assignment, other_pairs(assignment)),
        independence=INDEPENDENCE * uncertainty(assignment, leading_and_feet(assignment)),
        cross_rhythm=Fraction(CROSS_RHYTHM * cross_rhythm(assignment, crossings, step)),
        syncopation=SYNCOPATION * syncopation(assignment),
        touch=TOUCH * touch_changes(assignment),
        new_strokes=bits(1 + len({each.stroke.kind for each in assignment.strokes})),
        length=bits(1 + sum(stroke.count for stroke in assignment.strokes)),
    )


def _load(assignment: Assignment, limb: Limb) -> Fraction:
    """The hardest rate as a share of the fastest there is; both rates rise as strokes are added."""
    found = (sustained(assignment, limb), burst(assignment, limb))
    return max((rate.load() for rate in found if rate), default=Fraction(0))
