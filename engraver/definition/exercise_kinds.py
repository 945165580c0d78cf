"""The kinds of exercise by the names that an author writes. What each makes is in `chapters/exercises`."""

from __future__ import annotations

from enum import Enum


class ExerciseKind(Enum):
    """In the order in which they are learnt."""

    PULSE = "pulse"  # what keeps the time, counted aloud
    FEET = "feet"  # the feet alone
    LEADING_HAND = "leading hand"  # the hand that leads, alone
    HAND_AND_FEET = "hand and feet"  # the leading hand with the feet, as one pattern
    CYCLE = "cycle"  # the first cycle alone, barred by itself
    ALONE = "alone"  # each layer by itself
    LAYERS = "layers"  # each layer with those before it
    ACCENTS = "accents"  # without the ghost notes
    GHOSTS = "ghosts"  # without the accents of the same drum
    DOUBLED_FEET = "doubled feet"  # where both feet play bass drums
    CELLS = "cells"  # each cell as a loop
    CHANGES = "changes"  # each change from one cell to another, as a loop
    RESTART = "restart"  # the last bar and the first
    FILLS = "fills"  # into a fill and out of it
    BARLINES = "bar lines"  # the phrase barred by the cell, and barred as it is counted
    WHOLE = "whole"
