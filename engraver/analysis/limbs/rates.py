"""How fast each limb has to move. An Assignment in, strokes a second out; the groove is taken to go round."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from engraver.analysis.limbs.assignment import Assignment
from engraver.analysis.limbs.bands import REBOUND_STROKES, Band, limit
from engraver.rhythm import Limb


@dataclass(frozen=True, slots=True)
class Rate:
    """The most strokes a second that ``limb`` has to play, and the onset from which on it has to.

    ``strokes``: 2 where it is the time between two strokes, else the strokes over which it is the mean.
    """

    limb: Limb
    per_second: Fraction
    onset: Fraction
    strokes: int = 2

    def load(self, band: Band = Band.EXPERT) -> Fraction:
        """The rate as a share of the upper end of a band; a few strokes may come by rebound, and weigh the less."""
        return self.per_second / limit(self.limb, band, self.strokes)


def rates(assignment: Assignment) -> tuple[Rate, ...]:
    """The quickest succession of two strokes of each limb; none for a limb that strikes once or not at all."""
    found = (burst(assignment, limb) for limb in Limb if len(assignment.in_ticks.motions[limb]) > 1)
    return tuple(rate for rate in found if rate)


def sustained_rates(assignment: Assignment) -> tuple[Rate, ...]:
    """What each limb has to keep up; none for a limb that strikes once or not at all."""
    found = (sustained(assignment, limb) for limb in Limb if len(assignment.in_ticks.motions[limb]) > 1)
    return tuple(rate for rate in found if rate)


def sustained(assignment: Assignment, limb: Limb) -> Rate | None:
    """Over four strokes, the first and the last included: three intervals, which no rebound carries.

    Strokes that are laid between others only make it faster: four strokes of the old ones then hold more than four.
    """
    return assignment.once(_fastest).get((limb, REBOUND_STROKES))


def burst(assignment: Assignment, limb: Limb) -> Rate | None:
    """Between two strokes."""
    return assignment.once(_fastest).get((limb, 1))


def every_rate(assignment: Assignment) -> tuple[Rate, ...]:
    """Limb by limb, sustained and in a burst, of all that strike."""
    return tuple(assignment.once(_fastest).values())


def _fastest(assignment: Assignment) -> Mapping[tuple[Limb, int], Rate]:
    """By limb and number of intervals."""
    kinds = product(assignment.in_ticks.motions.items(), (REBOUND_STROKES, 1))
    found = {(limb, count): fastest_of(moved, assignment, limb, count) for (limb, moved), count in kinds}
    return {kind: rate for kind, rate in found.items() if rate}


def fastest_of(moved: Sequence[int], assignment: Assignment, limb: Limb, intervals: int) -> Rate | None:
    """The rate over so many intervals of motions given in ticks, in order."""
    if not moved:
        return None
    length, whole = assignment.in_ticks.length, assignment.in_ticks.whole
    turns, places = divmod(intervals, len(moved))
    ends = [*moved[places:], *(tick + length for tick in moved[:places])]
    shortest, start = min((end + turns * length - start, start) for start, end in zip(moved, ends, strict=True))
    per_second = assignment.second * Fraction(intervals * whole, shortest)
    return Rate(limb, per_second, Fraction(start, whole), intervals + 1)
