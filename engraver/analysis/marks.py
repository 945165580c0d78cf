"""Strokes as the marks of the pattern lines, and what the skeleton keeps of a mark.

In go strokes, out come single marks, or for strokes between two steps a bracket such as ``(x-x)1``.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from math import lcm

from engraver.rhythm import Ornament, Touch

SILENCE = "-"
GHOST = "g"

_PLAIN = {
    None: "x",
    Ornament.FLAM: "f",
    Ornament.DRAG: "d",
    Ornament.RUFF: "r",
    Ornament.BUZZ: "z",
    Ornament.CHOKE: "c",
    Ornament.DOUBLE: "=",
}


def mark(touch: Touch, ornament: Ornament | None) -> str:
    """The mark of a stroke; a ghost with an ornament, which no pattern line can write, shows its ornament."""
    if touch is Touch.GHOST and ornament is None:
        return GHOST
    plain = _PLAIN[ornament]
    return plain.upper() if touch is Touch.ACCENT else plain


def bracket(strokes: Iterable[tuple[Fraction, str]]) -> str:
    """One step's marks at fractions of the step: a plain mark, or ``(x-x)1`` as an author would write it."""
    places = dict(strokes)
    parts = lcm(*(place.denominator for place in places))
    if parts == 1:
        return places.get(Fraction(0), SILENCE)
    return f"({''.join(places.get(Fraction(part, parts), SILENCE) for part in range(parts))})1"


@cache
def skeleton(mark: str) -> str:
    """The mark without ghosts, ornaments and accents: whether a limb strikes here at all."""
    if len(mark) == 1:
        return SILENCE if mark in (SILENCE, GHOST) else "x"
    inside = "".join(skeleton(each) for each in mark[1 : mark.index(")")])
    if "x" not in inside:
        return SILENCE
    return "x" if "x" not in inside[1:] else f"({inside})1"


def accents(mark: str) -> bool:
    return any(each.isupper() for each in mark)


def count(mark: str) -> int:
    """How many strokes a mark stands for, ghosts included; a double is one mark."""
    return 0 if mark == SILENCE else sum(each not in "-()" and not each.isdigit() for each in mark)
