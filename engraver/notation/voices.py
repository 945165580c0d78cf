"""Hands from feet: the strokes of a groove as the chords of two voices.

In: strokes and the kit, whose rows say which limbs play what. Out: `Chord`s of each voice, in order of time. Doubles
that one slash on the stem cannot show (the rest of the chord is not doubled, or a stroke comes too soon) are already
written out as two strokes.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from engraver.errors import NotationError, Problem
from engraver.notation.score import VoiceName
from engraver.rhythm import Limbs, Ornament, Stroke, Touch
from engraver.style import Kit

VOICE_OF: Mapping[Limbs, VoiceName] = {Limbs.HANDS: VoiceName.UPPER, Limbs.FEET: VoiceName.LOWER}


@dataclass(frozen=True, slots=True)
class Chord:
    """All that one voice strikes at ``onset``."""

    onset: Fraction
    strokes: tuple[Stroke, ...]

    @property
    def limit(self) -> Fraction | None:
        """How long the note may look at most: a slash or a z on the stem lasts as long as the note, so one step."""
        return min((s.step for s in self.strokes if s.ornament in (Ornament.DOUBLE, Ornament.BUZZ)), default=None)

    @property
    def has_double(self) -> bool:
        return any(stroke.ornament is Ornament.DOUBLE for stroke in self.strokes)

    @property
    def is_double(self) -> bool:
        """Every stroke is doubled, at the same rate, so that one slash tells the truth of the whole chord."""
        return len({stroke.step for stroke in self.strokes}) == 1 and all(
            stroke.ornament is Ornament.DOUBLE for stroke in self.strokes
        )


def voices(strokes: Iterable[Stroke], kit: Kit) -> dict[VoiceName, tuple[Chord, ...]]:
    """The chords of each voice; a stroke of an instrument that the kit lacks is an assertion."""
    rows = {row.instrument: row for row in kit.rows}
    split: dict[VoiceName, list[Stroke]] = {name: [] for name in VoiceName}
    for stroke in strokes:
        assert stroke.instrument in rows, f"no kit row for {stroke.instrument}"
        split[VOICE_OF[rows[stroke.instrument].limbs]].append(stroke)
    order = {row.instrument: (row.position, row.instrument.name) for row in kit.rows}
    return {
        name: _settle(_chords(sorted(own, key=lambda stroke: (stroke.onset, order[stroke.instrument]))))
        for name, own in split.items()
    }


def write_out(chords: Iterable[Chord], onsets: set[Fraction]) -> tuple[Chord, ...]:
    """The chords with the doubles at these onsets as two strokes each."""
    strokes: list[Stroke] = []
    for chord in chords:
        strokes.extend(_two_strokes(chord) if chord.onset in onsets else chord.strokes)
    return _chords(sorted(strokes, key=lambda stroke: stroke.onset))


def _chords(strokes: list[Stroke]) -> tuple[Chord, ...]:
    chords = tuple(Chord(onset, tuple(same)) for onset, same in groupby(strokes, key=lambda stroke: stroke.onset))
    for chord in chords:
        if len({stroke.instrument for stroke in chord.strokes}) < len(chord.strokes):
            raise NotationError(_struck_twice(chord))
    return chords


def _settle(chords: tuple[Chord, ...]) -> tuple[Chord, ...]:
    """Writing out one double can leave another too little room, so until nothing changes."""
    while unclear := {chord.onset for chord in _unclear(chords)}:
        chords = write_out(chords, unclear)
    return chords


def _unclear(chords: tuple[Chord, ...]) -> Iterable[Chord]:
    ends = [chord.onset for chord in chords[1:]]
    for index, chord in enumerate(chords):
        if not chord.has_double:
            continue
        limit = chord.limit
        assert limit is not None
        if not chord.is_double or (index < len(ends) and ends[index] < chord.onset + limit):
            yield chord


def _two_strokes(chord: Chord) -> Iterable[Stroke]:
    """The second stroke of a double is a rebound: it keeps a ghost's softness but never the accent."""
    for stroke in chord.strokes:
        if stroke.ornament is not Ornament.DOUBLE:
            yield stroke
            continue
        first = replace(stroke, ornament=None, step=stroke.step / 2)
        yield first
        touch = Touch.GHOST if stroke.is_ghost else Touch.PLAIN
        yield replace(first, onset=stroke.onset + stroke.step / 2, touch=touch)


def _struck_twice(chord: Chord) -> Problem:
    names = [stroke.instrument.name for stroke in chord.strokes]
    twice = next(name for name in names if names.count(name) > 1)
    return Problem(
        None,
        f'"{twice}" is struck twice at {chord.onset} of a whole note from the start',
        "let a double end before the next stroke of its instrument, or write it as two marks",
    )
