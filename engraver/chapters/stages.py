"""The stages of a ladder: what a student works at, in the order in which it is learnt."""

from __future__ import annotations

from enum import IntEnum


class Stage(IntEnum):
    """An exercise of a later stage comes later, whether it is harder or not."""

    LIMBS = 1
    LAYERS = 2
    CELLS = 3
    CHANGES = 4
    RESTART = 5
    FILLS = 6
    PHRASE = 7
    WHOLE = 8
