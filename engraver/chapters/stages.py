"""The stages of a ladder: what a student works at, in the order in which it is learnt."""

from __future__ import annotations

from enum import IntEnum


class Stage(IntEnum):
    """An exercise of a later stage comes later, whether it is harder or not."""

    PULSE = 1
    LIMBS = 2
    LAYERS = 3
    CELLS = 4
    CHANGES = 5
    RESTART = 6
    FILLS = 7
    PHRASE = 8
    WHOLE = 9
