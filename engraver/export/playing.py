"""A piece in the order of playing: repeats written out, swing played, everything at its moment after the count-in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import chain

from engraver.export.pieces import Piece
from engraver.export.swing import Feel
from engraver.notation.beats import beats
from engraver.rhythm import ZERO, Bar, Groove, Meter, Stroke


@dataclass(frozen=True, slots=True)
class PlayedBar:
    """A bar in its turn, from ``start`` on. ``number`` counts as on the page; 0 is a pickup.

    ``beats`` and ``cells`` say at which moment one begins, and its number in the meter or its letter.
    """

    start: Fraction
    number: int
    meter: Meter
    length: Fraction
    strokes: tuple[Stroke, ...]
    beats: tuple[tuple[Fraction, int], ...]
    cells: tuple[tuple[Fraction, str], ...]


@dataclass(frozen=True, slots=True)
class Played:
    """``length`` is where the last bar ends; the first begins at 0."""

    bars: tuple[PlayedBar, ...]
    length: Fraction

    @property
    def strokes(self) -> Iterator[Stroke]:
        return chain.from_iterable(bar.strokes for bar in self.bars)


def play(piece: Piece) -> Played:
    passage = piece.passage
    groove = passage.groove
    turns = groove.played_bars * passage.repeats
    once = {index: _bar(piece, index) for index in set(turns)}
    start, bars = ZERO, []
    for index in turns:
        bars.append(_later(once[index], start - once[index].start))
        start += once[index].length
    return Played(tuple(bars), start)


def _bar(piece: Piece, index: int) -> PlayedBar:
    """A bar where it is written."""
    groove = piece.passage.groove
    feel = Feel(piece.whole, piece.passage.offset, piece.passage.scale)
    bar = groove.bars[index]
    return PlayedBar(
        bar.start,
        index if groove.pickup else index + 1,
        bar.meter,
        bar.length,
        tuple(feel.struck(stroke) for stroke in groove.strokes if stroke.onset in bar.span),
        tuple((feel.sounds(onset), number) for onset, number in _beats(groove, index, bar)),
        tuple((feel.sounds(cell.onset), cell.letter) for cell in piece.cells if cell.onset in bar.span),
    )


def _later(bar: PlayedBar, by: Fraction) -> PlayedBar:
    return replace(
        bar,
        start=bar.start + by,
        strokes=tuple(replace(stroke, onset=stroke.onset + by) for stroke in bar.strokes),
        beats=tuple((onset + by, number) for onset, number in bar.beats),
        cells=tuple((onset + by, letter) for onset, letter in bar.cells),
    )


def _beats(groove: Groove, index: int, bar: Bar) -> Iterator[tuple[Fraction, int]]:
    """Where beats of the bar begin; one that a pickup has only the end of does not."""
    for beat in beats(bar, bool(groove.pickup) and index == 0):
        if beat.origin in bar.span:
            yield beat.origin, beat.number
