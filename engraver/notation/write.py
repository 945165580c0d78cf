"""A groove as it stands on the staff: hands from feet, lengths spelled, beats joined.

In: a `Groove` and a `Style`. Out: a `Score`, ink only. Struck notes are never tied; every voice of every bar adds up.
Doubles that a slash cannot show stand as two heads of plain strokes, the second half a step after the first.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence

from engraver.notation.faults import is_pickup, no_value
from engraver.notation.repeats import is_like_last
from engraver.notation.rhythms import Frame, written
from engraver.notation.score import Rest, Score, StaffBar, Value, Voice, VoiceName
from engraver.notation.tuplets import Unwritable
from engraver.notation.voices import Chord, voices
from engraver.rhythm import Bar, Groove, Tuplet
from engraver.style import Rests, Style

WHOLE_BAR = Value(1)
Playing = Mapping[VoiceName, Sequence[tuple[Chord, ...]]]  # the chords of each voice, bar by bar


def write(groove: Groove, style: Style) -> Score:
    """The groove on the staff, in two voices or one. Raises NotationError, naming bar and beat."""
    chords = voices(groove, style)
    playing = {name: tuple(_by_bar(own, groove.bars)) for name, own in chords.items()}
    bars = tuple(_staff_bar(groove, index, playing, style) for index in range(len(groove.bars)))
    return Score(bars, groove.step, groove.tempo)


def _staff_bar(groove: Groove, index: int, playing: Playing, style: Style) -> StaffBar:
    bar, frame = groove.bars[index], _frame(groove, index, style)
    last = groove.bars[index - 1].meter if index else None
    try:
        spelled = tuple(
            Voice(name, written(own[index], bar.start, frame))
            if own[index]
            else _silent(name, bar, frame, index, playing, style)
            for name, own in playing.items()
        )
    except Unwritable as fault:
        raise no_value(groove, index, fault.beat) from None
    repeats = [repeat for repeat in groove.repeats if repeat.first <= index <= repeat.last]
    return StaffBar(
        span=bar.span,
        meter=bar.meter,
        new_meter=last != bar.meter and str(last) != str(bar.meter),
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


def _by_bar(chords: Sequence[Chord], bars: Iterable[Bar]) -> Iterator[tuple[Chord, ...]]:
    left = deque(chords)
    for bar in bars:
        inside: list[Chord] = []
        while left and left[0].onset in bar.span:
            inside.append(left.popleft())
        yield tuple(inside)


def _silent(name: VoiceName, bar: Bar, frame: Frame, index: int, playing: Playing, style: Style) -> Voice:
    """A rest for a bar in which nobody plays; else only in full style, in a voice that plays elsewhere.

    It is the whole-bar rest; a pickup or a bar that is cut off has rests for the beats that it holds.
    """
    is_empty_bar = not any(own[index] for own in playing.values())
    visible = name is VoiceName.UPPER if is_empty_bar else style.rests is Rests.FULL and any(playing[name])
    if visible and not bar.is_whole:
        return Voice(name, written((), bar.start, frame))
    return Voice(name, (Rest(bar.start, WHOLE_BAR, visible),), is_silent=True)
