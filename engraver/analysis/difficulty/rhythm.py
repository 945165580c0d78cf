"""What a rhythm asks against the beat and against others: numbers that never fall as strokes are added."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from fractions import Fraction

from engraver.analysis.limbs.assignment import Assignment
from engraver.analysis.report import CrossRhythm
from engraver.rhythm import Limb, Touch

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
    depths = [_deepest_by_beat(assignment, limb) for limb in Limb]
    return Fraction(sum(sum(each.values()) for each in depths), len(assignment.beats))


def _deepest_by_beat(assignment: Assignment, limb: Limb) -> dict[Fraction, int]:
    deepest: dict[Fraction, int] = {}
    for stroke in assignment.of(limb):
        beat = _beat_of(stroke.onset, assignment.beats)
        if beat is not None:
            level = _level((stroke.onset - beat) / assignment.tempo.beat)
            deepest[beat] = max(deepest.get(beat, 0), level)
    return deepest


def _beat_of(onset: Fraction, beats: Sequence[Fraction]) -> Fraction | None:
    index = bisect_left(beats, onset)
    if index < len(beats) and beats[index] == onset:
        return onset
    return beats[index - 1] if index else None


def _level(part: Fraction) -> int:
    """How often a beat is halved, after a third or a fifth was taken, to meet this part of it."""
    halvings = (part.denominator & -part.denominator).bit_length() - 1
    return min(DEEPEST, halvings + (part.denominator != part.denominator & -part.denominator))


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
    do not hide it, as it is known from the groove to be meant.
    """
    held = (each for each in crossings if _holds(assignment, each, step))
    return max((depth(each.ratio) for each in held), default=0)


def _holds(assignment: Assignment, crossing: CrossRhythm, step: Fraction) -> bool:
    """The beat is held by who counts it; a cycle of one pulse must overlap with a cycle of the other."""
    cycle = crossing.cycle_steps * step
    named = zip((crossing.a, crossing.b), crossing.spacing, crossing.accents, strict=True)
    first, *others = [
        _starts(_struck(assignment, name, accents), spacing * step, crossing.cycle_steps // spacing)
        for name, spacing, accents in named
        if name != BEAT
    ]
    if not others:
        return bool(first)
    return any(abs(one - other) < cycle for one in first for other in others[0])


def _struck(assignment: Assignment, name: str, accents: bool) -> frozenset[Fraction]:
    return frozenset(
        each.onset
        for each in assignment.strokes
        if each.stroke.instrument.name == name and (each.stroke.touch is Touch.ACCENT or not accents)
    )


def _starts(onsets: frozenset[Fraction], spacing: Fraction, count: int) -> list[Fraction]:
    """Where a run of so many strokes at this distance begins."""
    return sorted(o for o in onsets if all(o + k * spacing in onsets for k in range(count)))
