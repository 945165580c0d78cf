"""What a rhythm asks against the beat and against others: numbers that never fall as strokes are added."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import gcd

from engraver.analysis.limbs.assignment import Assignment
from engraver.analysis.report import CrossRhythm
from engraver.rhythm import Limb

BEAT = "beat"  # as the analysis calls it
DEEPEST = 4  # levels below the beat that are told apart: a thirty-second of a quarter is the third


def syncopation(assignment: Assignment) -> Fraction:
    """For each limb, how deep below the beat the stroke before a beat stands, at most; the mean over the beats.

    A stroke off the beat is syncopated in the sense of Longuet-Higgins and Lee if the beat after it is silent. That
    measure falls where the beat is filled, so this is the most that it could be for any part of the strokes: as if
    every beat were silent. Levels: on the beat 0, on the half 1, on a quarter or an eighth of it 2 and 3, on a third 1.
    """
    if not assignment.beats:
        return Fraction(0)
    ticks = assignment.in_ticks
    deepest = sum(sum(_deepest(ticks.struck[limb], ticks.beats).values()) for limb in Limb)
    return Fraction(deepest, len(ticks.beats))


def _deepest(struck: Iterable[int], beats: Sequence[tuple[int, int]]) -> dict[int, int]:
    """The deepest level within each beat that has a stroke, by the number of the beat."""
    starts = [start for start, _ in beats]
    levels: dict[int, int] = {}
    for tick in struck:
        number = bisect_right(starts, tick) - 1
        if number >= 0:
            start, length = beats[number]
            levels[number] = max(levels.get(number, 0), _level(length // gcd(tick - start, length)))
    return levels


def _level(parts: int) -> int:
    """How often a beat is halved, after a third or a fifth was taken, to fall into so many parts."""
    twos = parts & -parts
    return min(DEEPEST, twos.bit_length() - 1 + (parts != twos))


def depth(ratio: tuple[int, int]) -> int:
    """The terms of the continued fraction of m : n added up, less one: 2:1 1, 3:2 2, 4:3 3, 5:3 3, 5:4 4.

    The sum is that of the steps by which Euclid's subtraction comes to the common part; the use as a depth is ours.
    """
    m, n = sorted(ratio, reverse=True)
    terms = 0
    while n:
        whole, rest = divmod(m, n)
        terms, m, n = terms + whole, n, rest
    return terms - 1


def cross_rhythm(assignment: Assignment, crossings: Iterable[CrossRhythm], step: Fraction) -> int:
    """The depth of the deepest of ``crossings`` that the strokes hold, both pulses for one whole cycle.

    ``crossings`` are those of the whole groove, ``step`` the length of its step in these times. Strokes beside a pulse
    do not hide it, as it is known from the groove to be meant. The beat is held where it is counted: not where the
    same strokes are barred by a cycle, whose own beats they then are.
    """
    held = (depth(each.ratio) for each in crossings if _holds(assignment, each, step))
    return max(held, default=0)


def _holds(assignment: Assignment, crossing: CrossRhythm, step: Fraction) -> bool:
    """Whether a cycle of one pulse overlaps with a cycle of the other."""
    named = list(zip((crossing.a, crossing.b), crossing.spacing, crossing.accents, strict=True))
    ticks = step * assignment.in_ticks.whole
    if not all(_counted(assignment, spacing * ticks) for name, spacing, _ in named if name == BEAT):
        return False
    runs = [
        _starts(_struck(assignment, name, accents), spacing * ticks, crossing, spacing)
        for name, spacing, accents in named
        if name != BEAT
    ]
    cycle = crossing.cycle_steps * ticks
    return all(runs) and any(abs(one - other) < cycle for one in runs[0] for other in runs[-1])


def _counted(assignment: Assignment, spacing: Fraction) -> bool:
    return all(length == spacing for length in {length for _, length in assignment.in_ticks.beats})


def _struck(assignment: Assignment, name: str, accents: bool) -> frozenset[int]:
    return frozenset(
        tick
        for (tick, instrument), each in assignment.by_tick.items()
        if instrument == name and (each.stroke.is_accent or not accents)
    )


def _starts(struck: frozenset[int], spacing: Fraction, crossing: CrossRhythm, steps: int) -> list[int]:
    """Where a cycle of strokes at this distance, in ticks, begins."""
    count = crossing.cycle_steps // steps
    if spacing.denominator != 1:
        return []
    return [tick for tick in struck if all(tick + k * spacing.numerator in struck for k in range(count))]
