"""LilyPond's performance read back: MIDI files to strokes at onsets, with the grace notes that belong to them.

LilyPond counts 384 ticks a quarter and rounds what falls between (fives, sevens, nines): an onset is known to less than
a tick, 1/1536 of a whole note.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

import mido

from engraver.lilypond.notes import Sound
from engraver.proof.source import END

TICK = Fraction(1, 1536)
# How early a grace note sounds: 9/40 of its length (measured, LilyPond 2.24.3), at most three sixteenths, of which
# `sound.ily` leaves an eighth. Less than the shortest step, so that no stroke of the instrument comes between.
REACH = Fraction(9, 40) * Fraction(3, 16) / 8 + TICK


@dataclass(frozen=True, slots=True)
class Heard:
    """A stroke that sounds. ``onset`` to the tick, from the first beat of the passage."""

    onset: Fraction
    sound: Sound
    graces: int = 0

    def is_at(self, onset: Fraction) -> bool:
        return abs(self.onset - onset) < TICK


@dataclass(frozen=True, slots=True)
class Performance:
    """``stray`` are grace notes that no stroke follows; ``length`` None: the end was not heard."""

    strokes: tuple[Heard, ...]
    stray: tuple[Heard, ...]
    length: Fraction | None


def performances(files: Sequence[Path], keys: Mapping[int, Sound]) -> Mapping[int, Performance]:
    """By the number that each file carries as its title."""
    found: dict[int, Performance] = {}
    for file in files:
        midi = mido.MidiFile(file)
        title = next(message.name for message in midi.tracks[0] if message.type == "track_name")
        assert title.isdigit() and int(title) not in found, title
        found[int(title)] = _performance(midi, keys)
    return found


def _performance(midi: mido.MidiFile, keys: Mapping[int, Sound]) -> Performance:
    events = sorted(_events(midi))
    ends = [onset for onset, key in events if key == END]
    heard = [Heard(onset, keys[key]) for onset, key in events if key in keys]
    strokes = [one for one in heard if not one.sound.grace]
    stray = []
    for grace in (one for one in heard if one.sound.grace):
        owner = _owner(grace, strokes)
        if owner is None:
            stray.append(grace)
        else:
            strokes[owner] = replace(strokes[owner], graces=strokes[owner].graces + 1)
    return Performance(tuple(strokes), tuple(stray), ends[0] if len(ends) == 1 else None)


def _events(midi: mido.MidiFile) -> Iterator[tuple[Fraction, int]]:
    """Onset and key of every note. The whole rest before the music is taken off."""
    for track in midi.tracks:
        ticks = 0
        for message in track:
            ticks += message.time
            if message.type == "note_on" and message.velocity:
                yield Fraction(ticks, midi.ticks_per_beat * 4) - 1, message.note


def _owner(grace: Heard, strokes: Sequence[Heard]) -> int | None:
    """The stroke of its instrument that it leads to, if there is one so near."""
    for index, one in enumerate(strokes):
        if one.sound.instrument == grace.sound.instrument and 0 < one.onset - grace.onset <= REACH:
            return index
    return None
