"""How fast each limb has to move. An Assignment in, strokes a second out; the groove is taken to go round."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from engraver.analysis.limbs.assignment import Assignment, LimbStroke
from engraver.analysis.limbs.bands import REBOUND, REBOUND_STROKES, Band, limit
from engraver.rhythm import Limb, Ornament


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
        top = limit(self.limb, band)
        return self.per_second / (top if self.strokes > REBOUND_STROKES else top * REBOUND)


def rates(assignment: Assignment) -> tuple[Rate, ...]:
    """The quickest succession of two strokes of each limb; none for a limb that strikes once or not at all."""
    found = (burst(assignment, limb) for limb in Limb if len(onsets(assignment, limb)) > 1)
    return tuple(rate for rate in found if rate)


def sustained(assignment: Assignment, limb: Limb) -> Rate | None:
    """Over four strokes, the first and the last included: three intervals, which no rebound carries.

    Strokes that are laid between others only make it faster: four strokes of the old ones then hold more than four.
    """
    return _fastest(assignment, limb, REBOUND_STROKES)


def burst(assignment: Assignment, limb: Limb) -> Rate | None:
    """Between two strokes."""
    return _fastest(assignment, limb, 1)


def onsets(assignment: Assignment, limb: Limb) -> list[Fraction]:
    """When a limb strikes, in order. The graces of an ornament are one motion of the hand that helps, and fall on it;
    a double is two strokes; a buzz is one, as the stick bounces by itself."""
    return sorted({onset % assignment.length for stroke in assignment.of(limb) for onset in _onsets(stroke, limb)})


def _onsets(stroke: LimbStroke, limb: Limb) -> Iterator[Fraction]:
    yield stroke.onset
    if stroke.stroke.ornament is Ornament.DOUBLE and limb is stroke.limb:
        yield stroke.onset + stroke.stroke.step / 2


def _fastest(assignment: Assignment, limb: Limb, intervals: int) -> Rate | None:
    struck = onsets(assignment, limb)
    if not struck:
        return None
    spans = [(end - start, start) for start, end in _spans(struck, intervals, assignment.length)]
    shortest, onset = min(spans)
    return Rate(limb, intervals * assignment.second / shortest, onset, intervals + 1)


def _spans(struck: Sequence[Fraction], intervals: int, length: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    """From each stroke to the one that comes so many intervals after it, round and round."""
    for index, start in enumerate(struck):
        turns, place = divmod(index + intervals, len(struck))
        yield start, struck[place] + turns * length
