"""A piece as a Standard MIDI File 1.0, format 1: conductor, drums, click.

The conductor track holds tempo, time signatures and markers; drums and click play on channel 10. A count-in of one bar
comes first (and, before a pickup, the part of its bar that the pickup leaves out). Equal pieces give equal bytes.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from fractions import Fraction
from io import BytesIO

import mido

from engraver.errors import NotationError, Problem
from engraver.export.hits import Hit, hits
from engraver.export.pieces import Piece
from engraver.export.playing import Played, PlayedBar, play
from engraver.export.tracks import Clock, Event, division, notes, track
from engraver.rhythm import Meter, value_name
from engraver.style import VELOCITIES, Style, Velocities, Words

HIGH, LOW = 76, 77  # General MIDI Level 1: high and low wood block
CLICK_LENGTH = Fraction(1, 64)
SLOWEST = 0xFFFFFF  # microseconds a quarter: three bytes (Standard MIDI File 1.0, set tempo)
MINUTE = 60_000_000  # microseconds


class Click(Enum):
    """What the click marks after the count-in."""

    NONE = "none"
    BEAT = "beat"
    CELL = "cell"  # the beat, where no cells are known


def midi_file(piece: Piece, style: Style, click: Click = Click.NONE, velocities: Velocities = VELOCITIES) -> bytes:
    """In the words of the style. Raises NotationError if the tempo is slower than the format can say."""
    played, say = play(piece), style.say
    keys = {row.instrument: row.key for row in style.kit.rows}
    struck = [hit for stroke in played.strokes for hit in hits(stroke, keys[stroke.instrument], velocities)]
    lead = _lead(played.bars[0])
    clicks = [*_count_in(played.bars[0], lead, velocities), *_clicks(played, click, velocities)]
    moments = [hit.onset for hit in (*struck, *clicks)] + [bar.start for bar in played.bars]
    clock = Clock(division([*moments, lead, played.length]), lead)
    end = clock(played.length)
    return _bytes(
        clock.division,
        track(piece.whole.title, _conducted(piece, played, clock, say), end),
        track(piece.title, notes(struck, clock, end), end),
        track(say("midi click"), notes(clicks, clock, end), end),
    )


def _bytes(ticks: int, *tracks: mido.MidiTrack) -> bytes:
    made = mido.MidiFile(type=1, ticks_per_beat=ticks, charset="utf-8", tracks=list(tracks))
    out = BytesIO()
    made.save(file=out)
    return out.getvalue()


# ------------------------------------------------------------------ count-in and click
def _lead(first: PlayedBar) -> Fraction:
    """How long the count-in is."""
    missing = first.meter.length - first.length if first.number == 0 else Fraction(0)
    return first.meter.length + missing


def _count_in(first: PlayedBar, lead: Fraction, velocities: Velocities) -> Iterator[Hit]:
    for start in (-lead, first.meter.length - lead):
        for number, beat in enumerate(first.meter.beat_spans(start)):
            if beat.start < 0:
                yield _tick(beat.start, number == 0, velocities)


def _clicks(played: Played, click: Click, velocities: Velocities) -> Iterator[Hit]:
    on_cells = click is Click.CELL and any(bar.cells for bar in played.bars)
    for bar in played.bars if click is not Click.NONE else ():
        if on_cells:
            yield from (_tick(onset, True, velocities) for onset, _ in bar.cells)
        else:
            yield from (_tick(onset, number == 0, velocities) for onset, number in bar.beats)


def _tick(onset: Fraction, strong: bool, velocities: Velocities) -> Hit:
    return Hit(onset, HIGH if strong else LOW, velocities.downbeat if strong else velocities.beat, CLICK_LENGTH)


# ------------------------------------------------------------------ the conductor track
def _conducted(piece: Piece, played: Played, clock: Clock, say: Words) -> Iterator[Event]:
    yield Event(0, 0, mido.MetaMessage("text", text=_tempo_in_words(piece, say)))
    if piece.twice:
        yield Event(0, 0, mido.MetaMessage("text", text=say("midi barred")))
    yield Event(0, 0, mido.MetaMessage("set_tempo", tempo=_microseconds(piece)))
    yield Event(0, 0, _signature(played.bars[0].meter, played.bars[0].meter.length))
    yield Event(0, 1, mido.MetaMessage("marker", text=say("midi count-in")))
    yield from _signatures(played, clock)
    for bar in played.bars:
        tick = clock(bar.start)
        yield Event(
            tick, 1, mido.MetaMessage("marker", text=say("bar n", n=bar.number) if bar.number else say("pickup"))
        )
        for onset, letter in bar.cells:
            yield Event(clock(onset), 2, mido.MetaMessage("marker", text=say("midi cell", letter=letter).strip()))


def _tempo_in_words(piece: Piece, say: Words) -> str:
    tempo = f"{say.value(piece.tempo.beat * piece.passage.scale)} = {piece.tempo.bpm}"
    before = ", ".join(map(str, piece.climb[:-1]))
    return say("midi climb", tempo=tempo, before=before) if before else tempo


def _microseconds(piece: Piece) -> int:
    """The length of the file's quarter, to the nearest microsecond; the file's times may be scaled."""
    quarter = Fraction(MINUTE, piece.tempo.bpm) / (4 * piece.tempo.beat * piece.passage.scale)
    if quarter > SLOWEST:
        beat = value_name(piece.tempo.beat * piece.passage.scale)
        slow = f"{piece.title}: {beat} = {piece.tempo.bpm} is slower than a MIDI file can say"
        raise NotationError(Problem(None, slow, "name the tempo with a longer beat, or make it faster"))
    return round(quarter)


def _signatures(played: Played, clock: Clock) -> Iterator[Event]:
    """A time signature where it changes. A bar that is cut off has that of what it holds; a pickup ends a whole bar."""
    last = (played.bars[0].meter, played.bars[0].meter.length)
    for bar in played.bars:
        now = (bar.meter, bar.length)
        if bar.number and now != last:
            yield Event(clock(bar.start), 0, _signature(*now))
            last = now


def _signature(meter: Meter, length: Fraction) -> mido.MetaMessage:
    """Of a bar that holds ``length``; the meter's own if that is no number of notes of 1/2, 1/4, 1/8 ..."""
    unit = max(meter.unit, length.denominator)
    if unit & (unit - 1) or length == meter.length:
        unit, length = meter.unit, meter.length
    return mido.MetaMessage(
        "time_signature",
        numerator=int(length * unit),
        denominator=unit,
        clocks_per_click=_clocks(meter),
        notated_32nd_notes_per_beat=8,
    )


def _clocks(meter: Meter) -> int:
    """MIDI clocks, 24 a quarter, in a beat; in the meter's unit where beats are uneven or too long for a byte."""
    unit = Fraction(1, meter.unit)
    beat = meter.beat or unit
    return max(1, int(96 * (beat if 96 * beat <= 255 else unit)))
