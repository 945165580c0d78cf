"""Which rudiment's hands a sequence of two letters is most like. Letters in, a `StickingLikeness` out."""

from __future__ import annotations

from collections.abc import Sequence
from math import lcm
from operator import ne

from engraver.analysis.report import StickingLikeness

# Names and hands: Percussive Arts Society, International Drum Rudiments (40; committee of 1984). Only rudiments of
# plain strokes: grace strokes have no letter to be compared with. Those that change the lead stand with both leads.
RUDIMENTS: tuple[tuple[str, str], ...] = (
    ("Single Stroke Roll", "RL"),
    ("Triple Stroke Roll", "RRRLLL"),
    ("Double Stroke Open Roll", "RRLL"),
    ("Five Stroke Roll", "RRLLRLLRRL"),
    ("Six Stroke Roll", "RLLRRL"),
    ("Seven Stroke Roll", "RRLLRRL"),
    ("Nine Stroke Roll", "RRLLRRLLRLLRRLLRRL"),
    ("Single Paradiddle", "RLRRLRLL"),
    ("Double Paradiddle", "RLRLRRLRLRLL"),
    ("Triple Paradiddle", "RLRLRLRRLRLRLRLL"),
    ("Single Paradiddle-Diddle", "RLRRLL"),
    ("Single Dragadiddle", "RRLRRLLRLL"),
)
_RENAMED = str.maketrans("RL", "ab")


def nearest_sticking(letters: Sequence[str]) -> StickingLikeness | None:
    """The likest rudiment, turned as it must be; None unless there are two letters and four cells.

    Likeness is the share of letters that differ over the least common length; then the same length is preferred,
    then the smaller turn, then the earlier rudiment.
    """
    kinds = list(dict.fromkeys(letters))
    if len(kinds) != 2 or len(letters) < 4:
        return None
    ours = "".join("ab"[kinds.index(letter)] for letter in letters)
    found = [likeness(ours, name, hands, turn) for name, hands in RUDIMENTS for turn in range(len(hands))]
    common = lcm(*(each.over for each in found))
    return min(found, key=lambda each: (each.distance * common // each.over, each.over != len(ours), each.rotation))


def likeness(ours: str, name: str, hands: str, rotation: int) -> StickingLikeness:
    """The better of both renamings of a and b."""
    over = lcm(len(ours), len(hands))
    turned = (hands[rotation:] + hands[:rotation]).translate(_RENAMED)
    right = sum(map(ne, ours * (over // len(ours)), turned * (over // len(turned))))
    return StickingLikeness(name, min(right, over - right), over, rotation)
