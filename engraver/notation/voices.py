"""Hands from feet: the strokes of a groove as the chords of two voices, or of one.

In: a groove and a style, whose kit says which way the stems of an instrument go. Out: `Chord`s of each voice, in order
of time. Doubles that one slash on the stem cannot show (the rest of the chord is not doubled, a stroke comes too soon,
a bar line falls in between) are already written out as two strokes.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from engraver.notation.faults import double_past_the_end, struck_twice
from engraver.notation.score import VoiceName
from engraver.rhythm import Groove, Instrument, Ornament, Stroke, Touch
from engraver.style import Stem, Style, Voices

ROLLS = (Ornament.DOUBLE, Ornament.BUZZ)
VOICE_OF: Mapping[Stem, VoiceName] = {Stem.UP: VoiceName.UPPER, Stem.DOWN: VoiceName.LOWER}


@dataclass(frozen=True, slots=True)
class Chord:
    """All that one voice strikes at ``onset``."""

    onset: Fraction
    strokes: tuple[Stroke, ...]

    @property
    def limit(self) -> Fraction | None:
        """How long the note may look at most: a slash or a z on the stem lasts as long as the note, so one step."""
        return min((s.step for s in self.strokes if s.ornament in ROLLS), default=None)

    @property
    def has_double(self) -> bool:
        return any(stroke.ornament is Ornament.DOUBLE for stroke in self.strokes)

    @property
    def is_double(self) -> bool:
        """Every stroke is doubled, at the same rate, so that one slash tells the truth of the whole chord."""
        return len({stroke.step for stroke in self.strokes}) == 1 and all(
            stroke.ornament is Ornament.DOUBLE for stroke in self.strokes
        )


def voice_of(instrument: Instrument, style: Style) -> VoiceName:
    """The voice that an instrument is written in; where there is one, all stems go up."""
    return VoiceName.UPPER if style.voices is Voices.ONE else VOICE_OF[style.kit[instrument].stems]


def voice_names(style: Style) -> tuple[VoiceName, ...]:
    return (VoiceName.UPPER,) if style.voices is Voices.ONE else tuple(VoiceName)


def voices(groove: Groove, style: Style) -> dict[VoiceName, tuple[Chord, ...]]:
    """The chords of each voice, lowest head first. Raises NotationError for a double that has no room."""
    instruments = groove.instruments
    rows = {instrument: style.kit[instrument] for instrument in instruments if instrument in style.kit}
    missing = [str(instrument) for instrument in instruments if instrument not in rows]
    assert not missing, f"no kit row for {', '.join(missing)}"
    own_voice = {instrument: voice_of(instrument, style) for instrument in instruments}
    split: dict[VoiceName, list[Stroke]] = {name: [] for name in voice_names(style)}
    strokes, span = groove.strokes, groove.span
    assert not strokes or (strokes[0].onset in span and strokes[-1].onset in span), f"{groove.title} leaves its bars"
    for stroke in strokes:
        split[own_voice[stroke.instrument]].append(stroke)
    positions = {instrument: row.position for instrument, row in rows.items()}
    bar_lines = [bar.span.end for bar in groove.bars]
    written = {name: _settle(tuple(_chords(own, positions)), bar_lines) for name, own in split.items()}
    for chords in written.values():
        _check(groove, chords)
    return written


def write_out(chords: Iterable[Chord], onsets: set[Fraction]) -> tuple[Chord, ...]:
    """The chords with the doubles at these onsets as two strokes each."""
    strokes: list[Stroke] = []
    for chord in chords:
        strokes.extend(_two_strokes(chord) if chord.onset in onsets else chord.strokes)
    return tuple(_chords(sorted(strokes, key=lambda stroke: stroke.onset)))


def _chords(strokes: Iterable[Stroke], positions: Mapping[Instrument, int] | None = None) -> Iterator[Chord]:
    """What sounds together, in the order of ``strokes`` or from the lowest position up."""
    # as whole numbers: fractions are slow to compare
    for _, same in groupby(strokes, key=lambda stroke: stroke.onset.as_integer_ratio()):
        together = list(same)
        if positions and len(together) > 1:
            together.sort(key=lambda stroke: positions[stroke.instrument])
        yield Chord(together[0].onset, tuple(together))


def _settle(chords: tuple[Chord, ...], bar_lines: Sequence[Fraction]) -> tuple[Chord, ...]:
    """Writing out one double can leave another too little room, so until nothing changes."""
    while unclear := set(_unclear(chords, bar_lines)):
        chords = write_out(chords, unclear)
    return chords


def _unclear(chords: tuple[Chord, ...], bar_lines: Sequence[Fraction]) -> Iterator[Fraction]:
    for index, chord in enumerate(chords):
        if not chord.has_double:
            continue
        next_onset = chords[index + 1].onset if index + 1 < len(chords) else bar_lines[-1]
        bar_end = bar_lines[bisect_right(bar_lines, chord.onset)]
        if not chord.is_double or chord.onset + chord.strokes[0].step > min(next_onset, bar_end):
            yield chord.onset


def _two_strokes(chord: Chord) -> Iterator[Stroke]:
    """The second stroke of a double is a rebound: it keeps a ghost's softness but never the accent."""
    for stroke in chord.strokes:
        if stroke.ornament is not Ornament.DOUBLE:
            yield stroke
            continue
        first = replace(stroke, ornament=None, step=stroke.step / 2)
        yield first
        touch = Touch.GHOST if stroke.is_ghost else Touch.PLAIN
        yield replace(first, onset=stroke.onset + stroke.step / 2, touch=touch)


def _check(groove: Groove, chords: tuple[Chord, ...]) -> None:
    if chords and chords[-1].onset >= groove.length:
        raise double_past_the_end(groove, chords[-1].onset - chords[-1].strokes[0].step)
    for chord in chords:
        instruments = [stroke.instrument.name for stroke in chord.strokes]
        if len(set(instruments)) < len(instruments):
            raise struck_twice(groove, chord.onset, max(instruments, key=instruments.count))
