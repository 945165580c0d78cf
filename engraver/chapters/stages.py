"""The stages of a ladder: what a student works at, in the order in which it is learnt."""

from __future__ import annotations

from enum import IntEnum


class Stage(IntEnum):
    """An exercise of a later stage comes later, whether it is harder or not."""

    PULSE = 1
    LIMBS = 2
    PARTS = 3  # layers laid over one another, and cells: what is easy of either comes before what is hard of the other
    RESTART = 4
    FILLS = 5
    PHRASE = 6
    WHOLE = 7
