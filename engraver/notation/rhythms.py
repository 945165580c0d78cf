"""One voice in one bar, written once for all bars that have its rhythm.

In: the chords of the bar, where it begins, and its frame. Out: beamed items that add up to the bar. How it is written
follows from when something is struck, not from what: most bars of a ladder have a rhythm that was written before.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import lcm

from engraver.notation.beams import Item, beam
from engraver.notation.beats import beats
from engraver.notation.score import Head, Note, Rest, TupletGroup
from engraver.notation.spelling import spell
from engraver.notation.voices import ROLLS, Chord
from engraver.rhythm import ZERO, Bar, Meter, Tuplet, tick_of
from engraver.style import Beams


@dataclass(frozen=True, slots=True)
class Frame:
    """What a bar is written in. ``tuplets`` are the author's, their times told from the start of the bar."""

    meter: Meter
    length: Fraction
    is_pickup: bool
    tuplets: tuple[Tuplet, ...]
    beams: Beams

    def __hash__(self) -> int:
        return hash((self.meter.beats, self.meter.unit))  # few frames differ in the rest, which is slow to hash


def written(chords: Sequence[Chord], start: Fraction, frame: Frame) -> tuple[Item, ...]:
    """The items of a bar that begins at ``start``. Raises `Unwritable`; of its beat only the number is to be used.

    A double or a buzz changes lengths around it, so a bar that holds one is written for itself.
    """
    if any(stroke.ornament in ROLLS for chord in chords for stroke in chord.strokes if stroke.ornament):
        return _spelled(chords, start, frame)
    ticks = lcm(start.denominator, *{chord.onset.denominator for chord in chords})
    zero = tick_of(start, ticks)
    places = tuple(tick_of(chord.onset, ticks) - zero for chord in chords)
    struck = iter(chords)
    return tuple(_filled(item, start, struck) for item in _rhythm(places, ticks, frame))


@lru_cache(maxsize=4096)
def _rhythm(places: tuple[int, ...], ticks: int, frame: Frame) -> tuple[Item, ...]:
    """A bar at zero, its notes without heads. ``places`` in ticks, of which a whole note has so many."""
    return _spelled([Chord(Fraction(place, ticks), ()) for place in places], ZERO, frame)


def _spelled(chords: Sequence[Chord], start: Fraction, frame: Frame) -> tuple[Item, ...]:
    parts = beats(Bar(start, frame.meter, frame.length), frame.is_pickup)
    tuplets = [Tuplet(tuplet.span.shift(start), tuplet.count) for tuplet in frame.tuplets]
    return beam(spell(chords, parts, frame.meter, tuplets), parts, frame.meter, frame.beams)


def _filled(item: Item, start: Fraction, struck: Iterator[Chord]) -> Item:
    """At its place in the groove, each note with the heads of the next chord."""
    if isinstance(item, TupletGroup):
        inner = tuple(_leaf(each, start, struck) for each in item.items)
        return TupletGroup(item.span.shift(start), item.count, item.normal, inner, item.bracket)
    return _leaf(item, start, struck)


def _leaf(item: Note | Rest, start: Fraction, struck: Iterator[Chord]) -> Note | Rest:
    if isinstance(item, Rest):
        return Rest(start + item.onset if start else item.onset, item.value, item.visible)
    chord = next(struck)
    return Note(chord.onset, item.value, tuple(map(Head, chord.strokes)), item.beam, item.parts)
