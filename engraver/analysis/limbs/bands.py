"""How fast a limb can go: bands of strokes a second, hands and feet apart.

The upper ends are the most that has been counted, half of it for each limb of a pair: 1208 strokes of two hands in 60
seconds (a contest of 2013, press reports; secondary), 1034 of two feet (2018, a web summary; secondary). Beside
them: one hand usually 5 to 7 a second, the fastest 10, Fujii, Kudo, Ohtsuki and Oda, Neuroscience Letters 459 (2009)
69-73 (abstract). The bands below are ours.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from fractions import Fraction
from functools import cache

from engraver.rhythm import Limb, Limbs


class Band(Enum):
    EASY = "easy"
    WORKING = "working"
    HARD = "hard"
    EXPERT = "expert"
    BEYOND = "beyond any player"


UPPER: Mapping[Limbs, Mapping[Band, Fraction]] = {
    Limbs.HANDS: {
        Band.EASY: Fraction(4),
        Band.WORKING: Fraction(6),
        Band.HARD: Fraction(8),
        Band.EXPERT: Fraction(1208, 2 * 60),
    },
    Limbs.FEET: {
        Band.EASY: Fraction(3),
        Band.WORKING: Fraction(5),
        Band.HARD: Fraction(7),
        Band.EXPERT: Fraction(1034, 2 * 60),
    },
}

# A second and a third stroke may come by rebound, faster than a limb can go on: up to twice as fast. Common practice
# (rolls in doubles, two quick strokes of a foot); the figure is ours, no source.
REBOUND = 2
REBOUND_STROKES = 3


@cache
def limit(limb: Limb, band: Band = Band.EXPERT, strokes: int = REBOUND_STROKES + 1) -> Fraction:
    """The most strokes a second of a band, over so many strokes; ``band`` is not BEYOND."""
    return UPPER[limb.limbs][band] * (1 if strokes > REBOUND_STROKES else REBOUND)


def band_of(limb: Limb, per_second: Fraction) -> Band:
    return next((band for band, upper in UPPER[limb.limbs].items() if per_second <= upper), Band.BEYOND)
