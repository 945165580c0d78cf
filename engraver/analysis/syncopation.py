"""Published measures of syncopation. Onsets on a ring of steps in, exact numbers out."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import gcd


def intervals(onsets: Sequence[int], steps: int) -> list[int]:
    """From each onset to the next, the last to the first."""
    return [(after - onset - 1) % steps + 1 for onset, after in zip(onsets, [*onsets[1:], *onsets[:1]], strict=True)]


def divided(divisions: Sequence[int]) -> tuple[int, ...]:
    """Weights of a bar that is divided again and again: 0 the bar, one less for each further division.

    Source: Longuet-Higgins and Lee 1984, Music Perception 1:424.
    """
    weights = [0]
    for level, parts in enumerate(divisions, start=1):
        weights = [weight for upper in weights for weight in (upper, *[-level] * (parts - 1))]
    return tuple(weights)


def longuet_higgins_lee(onsets: Sequence[int], weights: Sequence[int]) -> list[int | None]:
    """The strength of each onset's syncopation, None where there is none.

    A note followed by silence is syncopated by the strongest place within the silence, if that is at least as
    strong as its own. Source: Longuet-Higgins and Lee 1984; one pair a note, as in their worked examples.
    """
    steps = len(weights)
    strengths: list[int | None] = []
    for onset, length in zip(onsets, intervals(onsets, steps), strict=True):
        within = [weights[(onset + step) % steps] for step in range(1, length)]
        rest = max(within, default=-steps)
        strengths.append(rest - weights[onset] if within and rest >= weights[onset] else None)
    return strengths


def wnbd(onsets: Sequence[int], steps: int, beat: int) -> Fraction:
    """Weighted note-to-beat distance. Source: Gomez, Melvin, Rappaport and Toussaint 2005, Bridges.

    A note that ends after the next beat and before the one after counts twice; one that ends on it does not.
    """
    total = Fraction(0)
    for onset, length in zip(onsets, intervals(onsets, steps), strict=True):
        off = onset % beat
        if off:
            after_beat = length - (beat - off)
            total += Fraction(2 if 0 < after_beat < beat else 1) / Fraction(min(off, beat - off), beat)
    return total / len(onsets)


def keith(onsets: Sequence[int], steps: int) -> int:
    """Notes that begin off the grid of the largest power of two within their length.

    Source: Keith's measure as in Gomez, Melvin, Rappaport and Toussaint 2005.
    """
    lengths = intervals(onsets, steps)
    return sum(onset % 2 ** (length.bit_length() - 1) != 0 for onset, length in zip(onsets, lengths, strict=True))


def off_beatness(onsets: Sequence[int], steps: int) -> int:
    """Onsets that no even division of the ring can meet. Source: Gomez et al. 2005."""
    return sum(gcd(onset, steps) == 1 for onset in onsets)


def pressing(onsets: Sequence[int]) -> Fraction:
    """Cognitive complexity of one bar of sixteen steps: quarter units, and eighth units at half the weight.

    Source: Pressing 1999, as tabled by Toussaint 2002; the costs are those that give his six values.
    """
    struck = [step in onsets for step in range(16)]
    return sum((Fraction(_units(struck, length), weight) for length, weight in ((4, 1), (2, 2))), Fraction(0))


def _units(struck: Sequence[bool], length: int) -> int:
    units = [struck[start : start + length] for start in range(0, 16, length)]
    return sum(_cost(unit, units[(index + 1) % len(units)][0]) for index, unit in enumerate(units))


def _cost(unit: Sequence[bool], next_is_struck: bool) -> int:
    """Null 0, filled 1, run 2, upbeat 3 (2 where no onset follows), no first stroke 5."""
    while len(unit) > 1 and not any(unit[1::2]):
        unit = unit[::2]
    if len(unit) == 1:
        return 0
    if all(unit):
        return 1
    if not unit[0]:
        return 5
    if not unit[-1]:
        return 2
    return 3 if next_is_struck else 2
