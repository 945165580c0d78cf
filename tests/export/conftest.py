"""What the tests of MIDI files share: a groove as YAML becomes pieces; a piece's notes in fractions of a whole note."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from io import BytesIO

import mido
import pytest

from engraver import analysis, chapters, definition
from engraver.chapters import ChapterPlan
from engraver.export import Click, Piece, midi_file, pieces
from engraver.style import Style, standard_kit, words

HEAD = "title: Example\ntempo: 120\n"


def plan_of(text: str) -> ChapterPlan:
    read = definition.parse_groove(text if text.startswith("title:") else HEAD + text)
    groove = definition.to_groove(read)
    cells = analysis.StatedCells(read.cells.length, read.cells.start - 1) if read.cells else None
    return chapters.plan(
        read, groove, analysis.analyse(groove, cells, places=standard_kit().places()), words("en"), standard_kit()
    )


def lanes(**patterns: str) -> str:
    """One layer; an underscore in a name is a space."""
    strokes = "".join(f'      {name.replace("_", " ")}: "{pattern}"\n' for name, pattern in patterns.items())
    return f"layers:\n  - name: Lane\n    strokes:\n{strokes}"


@dataclass(frozen=True)
class Note:
    """``onset`` counts from the first beat after the count-in, in whole notes."""

    onset: Fraction
    key: int
    velocity: int
    length: Fraction


@dataclass(frozen=True)
class Performed:
    file: mido.MidiFile
    drums: tuple[Note, ...]
    click: tuple[Note, ...]
    signs: tuple[tuple[Fraction, str], ...]  # markers
    lead: Fraction

    @property
    def onsets(self) -> list[Fraction]:
        return [note.onset for note in self.drums]


def performed(content: bytes) -> Performed:
    """Read back with mido. The count-in ends where the first bar's marker stands."""
    file = mido.MidiFile(file=BytesIO(content))
    whole = 4 * file.ticks_per_beat
    signs = [(Fraction(tick, whole), m.text) for tick, m in timed(file.tracks[0]) if m.type == "marker"]
    lead = next(moment for moment, text in signs if text in ("bar 1", "pickup"))
    drums, click = (tuple(_notes(track, whole, lead)) for track in file.tracks[1:])
    return Performed(file, drums, click, tuple((moment - lead, text) for moment, text in signs), lead)


def timed(track: mido.MidiTrack) -> list[tuple[int, mido.Message]]:
    tick, found = 0, []
    for message in track:
        tick += message.time
        found.append((tick, message))
    return found


def _notes(track: mido.MidiTrack, whole: int, lead: Fraction) -> list[Note]:
    notes: list[Note] = []
    sounding: list[tuple[int, mido.Message]] = []
    for tick, message in timed(track):
        if message.type == "note_on":
            sounding.append((tick, message))
        elif message.type == "note_off":
            start, begun = next(one for one in sounding if one[1].note == message.note)
            sounding.remove((start, begun))
            length = Fraction(tick - start, whole)
            notes.append(Note(Fraction(start, whole) - lead, begun.note, begun.velocity, length))
    assert not sounding
    return sorted(notes, key=lambda note: (note.onset, note.key))


@pytest.fixture
def play() -> Callable[..., Performed]:
    """The whole groove of a YAML text, or the exercise with that number."""

    def play(text: str, number: int = 0, click: Click = Click.NONE) -> Performed:
        return performed(midi_file(piece(text, number), Style(), click))

    return play


def piece(text: str, number: int = 0) -> Piece:
    return pieces(plan_of(text))[number]
