"""The fastest that each limb has to move at the groove's tempo. A Groove in, strokes a second out."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction

from engraver.analysis.grid import Grid
from engraver.analysis.report import Rate
from engraver.rhythm import Groove, Instrument, Limbs, Side

LIMB_NAMES = {
    (Limbs.HANDS, Side.RIGHT): "right hand",
    (Limbs.HANDS, Side.LEFT): "left hand",
    (Limbs.FEET, Side.RIGHT): "right foot",
    (Limbs.FEET, Side.LEFT): "left foot",
}


def rates(groove: Groove, grid: Grid, feet: Collection[Instrument]) -> tuple[Rate, ...]:
    """Each side where sticking names it; else the two hands together, and each foot instrument as one foot's.

    Two hands can share any strokes so that each plays every second one, and no better: of three successive strokes
    two are of one hand. The phrase is taken to go round.
    """
    strokes = grid.sounding()
    second = groove.tempo.beat * groove.tempo.bpm / 60  # whole notes in a second
    found = [rate for each in _limbs(groove, strokes, feet) if (rate := _fastest(*each, groove.length, second))]
    return tuple(found)


def _limbs(
    groove: Groove, strokes: Sequence[tuple[Fraction, Instrument]], feet: Collection[Instrument]
) -> Iterator[tuple[str, list[Fraction], int]]:
    """A limb's name, the onsets it plays, and how many limbs share them."""
    for limbs, sharing in ((Limbs.HANDS, 2), (Limbs.FEET, 1)):
        ours = [(onset, each) for onset, each in strokes if (each in feet) == (limbs is Limbs.FEET)]
        sides = {mark.onset: mark.side for mark in groove.sticking if mark.limbs is limbs}
        if ours and all(onset in sides for onset, _ in ours):
            for side in (Side.RIGHT, Side.LEFT):
                onsets = {onset for onset, _ in ours if sides[onset] in (side, Side.BOTH)}
                yield LIMB_NAMES[limbs, side], sorted(onsets), 1
        elif limbs is Limbs.HANDS:
            yield "each hand", sorted(onset for onset, _ in ours), sharing
        else:
            for drum in sorted({each for _, each in ours}):
                yield f"foot on {drum}", sorted(onset for onset, each in ours if each == drum), 1


def _fastest(limb: str, onsets: Sequence[Fraction], sharing: int, length: Fraction, second: Fraction) -> Rate | None:
    if len(onsets) <= sharing:
        return None
    ring = [*onsets, *(onset + length for onset in onsets[:sharing])]
    spans = [(ring[i + sharing] - ring[i], ring[i]) for i in range(len(onsets))]
    shortest, onset = min(spans)
    return Rate(limb, second / shortest, onset) if shortest else None
