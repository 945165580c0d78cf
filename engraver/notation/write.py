"""A groove as it stands on the staff: hands from feet, lengths spelled, beats joined.

In: a `Groove` and a `Style`. Out: a `Score`, ink only. Struck notes are never tied; every voice of every bar adds up.
Doubles that a slash cannot show stand as two heads of plain strokes, the second half a step after the first.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from engraver.notation.faults import is_pickup, no_value
from engraver.notation.repeats import is_like_last
from engraver.notation.rhythms import Frame, written
from engraver.notation.score import Rest, Score, StaffBar, Value, Voice, VoiceName
from engraver.notation.tuplets import Unwritable
from engraver.notation.voices import Chord, voices
from engraver.rhythm import Bar, Groove, Span, Tuplet
from engraver.style import Rests, Style

WHOLE_BAR = Value(1)


def write(groove: Groove, style: Style) -> Score:
    """The groove on the staff, in two voices or one. Raises NotationError, naming bar and beat."""
    chords = voices(groove, style)
    bars = tuple(_staff_bar(groove, index, chords, style) for index in range(len(groove.bars)))
    return Score(bars, groove.step, groove.tempo)


def _staff_bar(groove: Groove, index: int, chords: dict[VoiceName, tuple[Chord, ...]], style: Style) -> StaffBar:
    bar, frame = groove.bars[index], _frame(groove, index, style)
    playing = {name: _in_bar(own, bar.span) for name, own in chords.items()}
    try:
        spelled = tuple(
            Voice(name, written(own, bar.start, frame)) if own else _silent(name, bar, frame, playing, chords, style)
            for name, own in playing.items()
        )
    except Unwritable as fault:
        raise no_value(groove, index, fault.beat) from None
    repeats = [repeat for repeat in groove.repeats if repeat.first <= index <= repeat.last]
    return StaffBar(
        span=bar.span,
        meter=bar.meter,
        new_meter=index == 0 or str(groove.bars[index - 1].meter) != str(bar.meter),
        voices=spelled,
        partial=not bar.is_whole,
        opens_repeat=next((repeat.times for repeat in repeats if repeat.first == index), 0),
        closes_repeat=next((repeat.times for repeat in repeats if repeat.last == index), 0),
        ending=next((repeat.endings.index(index) + 1 for repeat in repeats if index in repeat.endings), 0),
        section=next((section.name for section in groove.sections if section.first == index), ""),
        like_last=style.repeat_bars and is_like_last(groove, index),
    )


def _frame(groove: Groove, index: int, style: Style) -> Frame:
    bar = groove.bars[index]
    within = (tuplet for tuplet in groove.tuplets if bar.span.covers(tuplet.span))
    tuplets = dict.fromkeys(Tuplet(tuplet.span.shift(-bar.start), tuplet.count) for tuplet in within)
    return Frame(bar.meter, bar.length, is_pickup(groove, index), tuple(tuplets), style.beams)


def _in_bar(chords: Sequence[Chord], span: Span) -> tuple[Chord, ...]:
    first = bisect_left(chords, span.start, key=lambda chord: chord.onset)
    return tuple(chords[first : bisect_left(chords, span.end, first, key=lambda chord: chord.onset)])


def _silent(
    name: VoiceName,
    bar: Bar,
    frame: Frame,
    playing: dict[VoiceName, tuple[Chord, ...]],
    chords: dict[VoiceName, tuple[Chord, ...]],
    style: Style,
) -> Voice:
    """A rest for a bar in which nobody plays; else only in full style, in a voice that plays elsewhere.

    It is the whole-bar rest; a pickup or a bar that is cut off has rests for the beats that it holds.
    """
    is_empty_bar = not any(playing.values())
    visible = name is VoiceName.UPPER if is_empty_bar else style.rests is Rests.FULL and bool(chords[name])
    if visible and not bar.is_whole:
        return Voice(name, written((), bar.start, frame))
    return Voice(name, (Rest(bar.start, WHOLE_BAR, visible),), is_silent=True)
