"""What limbs have to do with one another: an Assignment in, numbers out that never fall as strokes are added."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import combinations, groupby
from math import log2

from engraver.analysis.limbs.assignment import Assignment
from engraver.rhythm import Limb, Limbs


def bits(choices: int) -> Fraction:
    """log2, to a thousandth: the one place where a difficulty is rounded."""
    return Fraction(round(1000 * log2(choices)), 1000)


def together(assignment: Assignment) -> int:
    """How many different sets of two limbs or more strike together, or would if some of them were silent.

    A set counts with all that it holds: three limbs at once are three pairs and a trio. So a stroke that joins others
    adds sets and takes none away.
    """
    held: set[frozenset[Limb]] = set()
    for _, strokes in groupby(assignment.strokes, key=lambda stroke: stroke.onset):
        limbs = sorted({limb for stroke in strokes for limb in stroke.limbs}, key=lambda limb: limb.value)
        held |= {frozenset(part) for size in range(2, len(limbs) + 1) for part in combinations(limbs, size)}
    return len(held)


def offsets(assignment: Assignment, one: Limb, other: Limb) -> frozenset[Fraction]:
    """How long after a stroke of the one limb the other may strike, within a beat; round and round.

    Every pair of strokes counts, not neighbours only, so a stroke between two others takes no distance away.
    """
    length, beat = assignment.length, assignment.tempo.beat
    starts, ends = _onsets(assignment, one), _onsets(assignment, other)
    return frozenset(gap for start in starts for end in ends if (gap := (end - start) % length) < beat)


def uncertainty(assignment: Assignment, pairs: Iterable[tuple[Limb, Limb]]) -> Fraction:
    """Bits: for each ordered pair, how uncertain the one leaves where the other strikes.

    Hartley's measure of the conditional choice, log2 of the number of different distances: the entropy that it has if
    all are as likely, and so the most that the conditional entropy can be. The entropy itself falls when a pattern is
    filled up to a steady row, which an ordering by containment must not do.
    """
    numbers = (len(offsets(assignment, one, other)) for one, other in pairs)
    return sum((bits(number) for number in numbers if number), Fraction(0))


def leading_and_feet(assignment: Assignment) -> tuple[tuple[Limb, Limb], ...]:
    lead = Limb.of(Limbs.HANDS, assignment.leading)
    return tuple((lead, foot) for foot in (Limb.RIGHT_FOOT, Limb.LEFT_FOOT))


def other_pairs(assignment: Assignment) -> tuple[tuple[Limb, Limb], ...]:
    known = set(leading_and_feet(assignment))
    return tuple(pair for pair in combinations(Limb, 2) if pair not in known and pair[::-1] not in known)


def _onsets(assignment: Assignment, limb: Limb) -> list[Fraction]:
    return sorted({stroke.onset for stroke in assignment.of(limb)})
