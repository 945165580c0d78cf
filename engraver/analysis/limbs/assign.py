"""Who plays what: a Groove in, every stroke with its limb out.

The author's sticking decides; where it is silent, the way of playing that is least work (`search`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from engraver.analysis.limbs.assignment import Assignment, DrumSet, LimbStroke
from engraver.analysis.limbs.hi_hat import closings
from engraver.analysis.limbs.moments import NOWHERE, Bound, Settled, Way, moments
from engraver.analysis.limbs.search import Time, search
from engraver.rhythm import ZERO, Groove, Limb, Limbs, Side, Span, Stroke, Tempo

Known = LimbStroke | None  # a stroke with its limb, where it is known before anything is searched for


def assign(groove: Groove, places: DrumSet, leading: Side = Side.RIGHT) -> Assignment:
    """The limbs of a whole groove. Sticking is read as written for a right-handed player, as is the set in ``places``.

    A left-handed player has the set and the sticking the other way round, so every limb is the other one. Instruments
    that ``places`` does not hold are the hands'. A moment with more strokes than free limbs leaves some over.
    """
    assert leading is not Side.BOTH
    found = _assigned(groove, groove.tempo, places, [None] * len(groove.strokes))
    return found if leading is Side.RIGHT else found.mirrored


def carry(whole: Assignment, window: Groove, offset: Fraction, scale: Fraction = Fraction(1)) -> Assignment:
    """The limbs of an exercise: a view of a groove whose limbs are known, and that keeps them.

    ``offset`` is where the window begins in the groove, ``scale`` what its times were multiplied by. A stroke that is
    not at its place in the groove (a fill hides it, or the window is put together from several) is searched for. Times
    of the result are those of the window, its tempo lets it last as long as in the groove.
    """
    right = whole if whole.leading is Side.RIGHT else whole.mirrored
    tempo = replace(window.tempo, beat=window.tempo.beat * scale)
    found = _assigned(window, tempo, whole.places, tuple(_remembered(right, window.strokes, offset, scale)))
    return found if whole.leading is Side.RIGHT else found.mirrored


def _remembered(whole: Assignment, strokes: Iterable[Stroke], offset: Fraction, scale: Fraction) -> Iterator[Known]:
    """Each stroke with its limb in the whole groove. Its place there is told in ticks and whole numbers alone."""
    factor, later = whole.in_ticks.whole / scale, whole.in_ticks.whole * offset
    (over, under), (first, of) = factor.as_integer_ratio(), later.as_integer_ratio()
    for stroke in strokes:
        above, below = stroke.onset.as_integer_ratio()
        tick, rest = divmod(above * over * of + first * below * under, below * under * of)  # onset * factor + later
        played = None if rest else whole.by_tick.get((tick, stroke.instrument.name))
        if played is None or played.stroke.ornament is not stroke.ornament:
            yield None
        else:
            yield played if played.stroke is stroke else LimbStroke(stroke, played.limb, played.helper)


def _assigned(groove: Groove, tempo: Tempo, places: DrumSet, known: Sequence[Known]) -> Assignment:
    """``known`` goes with the strokes of the groove, one by one."""
    found: dict[int, LimbStroke] = {}
    over: list[Stroke] = []
    beats = tuple(_beats(groove))
    for limbs in Limbs:
        ours = [
            (stroke, each)
            for stroke, each in zip(groove.strokes, known, strict=True)
            if places.get(stroke.instrument, NOWHERE).limbs is limbs
        ]
        if all(each for _, each in ours):
            found |= {id(stroke): each for stroke, each in ours if each}
            continue
        settled = [(stroke, each.limb.side if each else None) for stroke, each in ours]
        for way in _searched(groove, tempo, beats, settled, limbs, places):
            found |= {id(each.stroke): each for each in _limb_strokes(way, limbs)}
            over += way.unplayed
    return Assignment(
        strokes=tuple(each for stroke in groove.strokes if (each := found.get(id(stroke)))),
        length=groove.length,
        tempo=tempo,
        beats=beats,
        left_over=tuple(over),
        closings=closings(groove.strokes, places),
        places=places,
    )


def _searched(
    groove: Groove, tempo: Tempo, beats: tuple[Span, ...], ours: Sequence[Settled], limbs: Limbs, places: DrumSet
) -> tuple[Way, ...]:
    letters = {mark.onset: mark.side for mark in groove.sticking if mark.limbs is limbs}
    bound = Bound(letters, _two_pedals(ours, letters, places))
    starts = frozenset(beat.start for beat in beats)
    time = Time(tempo.beat * tempo.bpm / 60, groove.length, starts)
    return search(tuple(moments(ours, limbs, places, bound)), limbs, places, time)


def _beats(groove: Groove) -> Iterator[Span]:
    """All that have a part in the groove; a bar that is cut off keeps its first beats, a pickup its last."""
    for index, bar in enumerate(groove.bars):
        if bar.is_whole:
            yield from bar.meter.beat_spans(bar.start)
            continue
        late = bar.meter.length - bar.length if groove.pickup and index == 0 else ZERO
        yield from (beat for beat in bar.meter.beat_spans(bar.start - late) if beat.overlaps(bar.span))


def _two_pedals(strokes: Iterable[Settled], letters: Mapping[Fraction, Side], places: DrumSet) -> bool:
    """The left foot has strokes of the right foot's drum: the author says so, or it is known from the whole groove."""
    return any(
        Side.LEFT in (known, letters.get(stroke.onset))
        for stroke, known in strokes
        if places.get(stroke.instrument, NOWHERE).foot is Side.RIGHT
    )


def _limb_strokes(way: Way, limbs: Limbs) -> Iterator[LimbStroke]:
    helper = Limb.of(limbs, way.helper) if way.helper else None
    for side, stroke in way.mains:
        yield LimbStroke(stroke, Limb.of(limbs, side), helper)
