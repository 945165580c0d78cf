"""Fill one bar of one voice: its chords as notes, the time between them as rests, tuplets around what needs them.

In: the chords of the bar, its beats, the author's tuplets. Out: items without beams that add up to the bar.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from engraver.notation.beams import Item
from engraver.notation.beats import Beat
from engraver.notation.durations import SHORTEST, VALUES, note_length, ticks
from engraver.notation.rests import rest_lengths, shared_rests
from engraver.notation.score import Head, Note, Rest, TupletGroup, Value
from engraver.notation.tuplets import Region, regions
from engraver.notation.voices import Chord, write_out
from engraver.rhythm import ZERO, Meter, Ornament, Span, Tuplet


def spell(chords: Sequence[Chord], beats: Sequence[Beat], meter: Meter, tuplets: Sequence[Tuplet]) -> tuple[Item, ...]:
    """Notes and rests from the first beat to the last. Raises `Unwritable`, naming the beat.

    A double whose slash would not last exactly its step is written out as two strokes.
    """
    items = _fill(chords, beats, meter, tuplets)
    while untrue := _doubles_not_of_their_step(items):
        chords = write_out(chords, untrue)
        items = _fill(chords, beats, meter, tuplets)
    assert sum(map(sounding_length, items)) == beats[-1].span.end - beats[0].span.start
    return items


def sounding_length(item: Item) -> Fraction:
    return item.span.length if isinstance(item, TupletGroup) else item.value.duration


def _fill(chords: Sequence[Chord], beats: Sequence[Beat], meter: Meter, tuplets: Sequence[Tuplet]) -> tuple[Item, ...]:
    items: list[Item] = []
    empty: list[Beat] = []
    onsets = [chord.onset for chord in chords]
    for region in regions(beats, onsets, tuplets):
        within = chords[bisect_left(onsets, region.span.start) : bisect_left(onsets, region.span.end)]
        own = None if within or region.is_tuplet else _whole_beat(region.span, beats)
        if own:
            empty.append(own)
            continue
        items += _rests_of(empty, meter)
        empty = []
        items += _region_items(region, within)
    return (*items, *_rests_of(empty, meter))


def _whole_beat(span: Span, beats: Iterable[Beat]) -> Beat | None:
    return next((beat for beat in beats if beat.span == span and beat.is_whole), None)


def _rests_of(empty: Sequence[Beat], meter: Meter) -> Iterator[Rest]:
    for group in shared_rests(empty, meter):
        length = sum((beat.length for beat in group), ZERO)
        whole = _whole_ticks(length)
        unit = _whole_ticks(group[0].unit if len(group) == 1 else length)
        for place, rest in _rest_places(0, whole, unit, whole):
            yield Rest(group[0].origin + place * SHORTEST, VALUES[rest])


def _region_items(region: Region, chords: Sequence[Chord]) -> Iterator[Item]:
    pieces = _pieces(
        region.place(region.span.start),
        region.place(region.span.end),
        _whole_ticks(region.unit),
        _whole_ticks(region.whole),
        tuple((region.place(chord.onset), _limit(chord, region)) for chord in chords),
    )
    items = tuple(_items(region, pieces, chords))
    if not region.is_tuplet:
        yield from items
        return
    group = TupletGroup(region.span, region.count, region.normal, items, bracket=True)
    assert sum(item.value.duration for item in items) == region.span.length * region.factor, group
    yield group


def _limit(chord: Chord, region: Region) -> int:
    """The step in 64ths of printed time; a step with no such value (0) leaves the double to be written out."""
    return 0 if chord.limit is None else ticks(chord.limit * region.factor) or 0


def _whole_ticks(duration: Fraction) -> int:
    count = ticks(duration)
    assert count is not None, f"{duration} is not in whole 64ths"
    return count


# ------------------------------------------------------------------ places and lengths


@dataclass(frozen=True, slots=True)
class Piece:
    """A value at a place of its region, both in 64ths of printed time: the ``chord``-th note, or a rest."""

    place: int
    value: Value
    chord: int | None


@lru_cache(maxsize=4096)
def _pieces(start: int, end: int, unit: int, whole: int, notes: tuple[tuple[int, int], ...]) -> tuple[Piece, ...]:
    """``notes``: place and longest allowed length (0: any) of each."""
    pieces = list(_rest_pieces(start, notes[0][0] if notes else end, unit, whole))
    for index, (place, limit) in enumerate(notes):
        next_place = notes[index + 1][0] if index + 1 < len(notes) else end
        gap = min(next_place - place, limit or end)
        length = note_length(place, gap, unit)
        pieces.append(Piece(place, VALUES[length], index))
        pieces += _rest_pieces(place + length, next_place, unit, whole)
    return tuple(pieces)


def _rest_pieces(start: int, end: int, unit: int, whole: int) -> Iterator[Piece]:
    return (Piece(place, VALUES[length], None) for place, length in _rest_places(start, end, unit, whole))


def _rest_places(start: int, end: int, unit: int, whole: int) -> Iterator[tuple[int, int]]:
    for length in rest_lengths(start, end, unit, whole):
        yield start, length
        start += length


def _items(region: Region, pieces: Sequence[Piece], chords: Sequence[Chord]) -> Iterator[Note | Rest]:
    for piece in pieces:
        if piece.chord is None:
            yield Rest(region.moment(piece.place), piece.value)
        else:
            chord = chords[piece.chord]
            yield Note(chord.onset, piece.value, tuple(map(Head, chord.strokes)))


# ------------------------------------------------------------------ doubles


def _doubles_not_of_their_step(items: Sequence[Item]) -> set[Fraction]:
    """Onsets of slashed notes that last longer or shorter than the double does; a dot would slow the slash too."""
    return {note.onset for note, factor in _notes(items) if not _is_true(note, factor)}


def _is_true(note: Note, factor: Fraction) -> bool:
    steps = {head.stroke.step for head in note.heads if head.stroke.ornament is Ornament.DOUBLE}
    return not steps or (steps == {note.value.duration / factor} and not note.value.dots)


def _notes(items: Sequence[Item]) -> Iterator[tuple[Note, Fraction]]:
    for item in items:
        if isinstance(item, TupletGroup):
            factor = Fraction(item.count, item.normal)
            yield from ((inner, factor) for inner in item.items if isinstance(inner, Note))
        elif isinstance(item, Note):
            yield item, Fraction(1)
