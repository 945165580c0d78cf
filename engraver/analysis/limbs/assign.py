"""Who plays what: a Groove in, every stroke with its limb out.

The author's sticking decides; where it is silent, the way of playing that is least work (`search`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from engraver.analysis.limbs.assignment import Assignment, DrumSet, Known, LimbStroke
from engraver.analysis.limbs.hi_hat import closings
from engraver.analysis.limbs.moments import NOWHERE, Bound, Way, moments
from engraver.analysis.limbs.search import Time, search
from engraver.rhythm import ZERO, Groove, Instrument, Limb, Limbs, Side, Span, Stroke


def assign(groove: Groove, places: DrumSet, leading: Side = Side.RIGHT) -> Assignment:
    """The limbs of a whole groove. Sticking is read as written for a right-handed player, as is the set in ``places``.

    A left-handed player has the set and the sticking the other way round, so every limb is the other one. Instruments
    that ``places`` does not hold are the hands'. A moment with more strokes than free limbs leaves some over.
    """
    assert leading is not Side.BOTH
    found = _assigned(groove, places, {})
    return found if leading is Side.RIGHT else found.mirrored


def carry(whole: Assignment, window: Groove, offset: Fraction, scale: Fraction = Fraction(1)) -> Assignment:
    """The limbs of an exercise: a view of a groove whose limbs are known, and that keeps them.

    ``offset`` is where the window begins in the groove, ``scale`` what its times were multiplied by. A stroke that is
    not at its place in the groove (a fill hides it, or the window is put together from several) is searched for. Times
    of the result are those of the window, its tempo lets it last as long as in the groove.
    """
    heard = replace(window, tempo=replace(window.tempo, beat=window.tempo.beat * scale))
    right = whole if whole.leading is Side.RIGHT else whole.mirrored
    known = [each for stroke in window.strokes if (each := _remembered(right, stroke, offset, scale))]
    if len(known) == len(window.strokes):
        found = _assignment(heard, tuple(_beats(heard)), known, (), whole.places)
    else:
        by_place = {(each.onset, each.stroke.instrument): each for each in known}
        found = _assigned(heard, whole.places, by_place)
    return found if whole.leading is Side.RIGHT else found.mirrored


def _remembered(whole: Assignment, stroke: Stroke, offset: Fraction, scale: Fraction) -> LimbStroke | None:
    onset = stroke.onset / scale if scale != 1 else stroke.onset
    played = whole.by_place.get((onset + offset if offset else onset, stroke.instrument))
    if played is None or played.stroke.ornament is not stroke.ornament:
        return None
    return LimbStroke(stroke, played.limb, played.helper)


def _assigned(groove: Groove, places: DrumSet, known: Known) -> Assignment:
    found: list[LimbStroke] = []
    over: list[Stroke] = []
    beats = tuple(_beats(groove))
    for limbs in Limbs:
        ours = [s for s in groove.strokes if places.get(s.instrument, NOWHERE).limbs is limbs]
        for way in _searched(groove, beats, ours, places, known) if ours else ():
            found += _limb_strokes(way, limbs)
            over += way.unplayed
    order = {id(stroke): number for number, stroke in enumerate(groove.strokes)}
    found.sort(key=lambda each: order[id(each.stroke)])
    return _assignment(groove, beats, found, over, places)


def _assignment(
    groove: Groove,
    beats: tuple[Span, ...],
    strokes: Iterable[LimbStroke],
    over: Iterable[Stroke],
    places: DrumSet,
) -> Assignment:
    return Assignment(
        strokes=tuple(strokes),
        length=groove.length,
        tempo=groove.tempo,
        beats=beats,
        left_over=tuple(over),
        closings=closings(groove.strokes, places),
        places=places,
    )


def _searched(
    groove: Groove, beats: tuple[Span, ...], ours: list[Stroke], places: DrumSet, known: Known
) -> tuple[Way, ...]:
    limbs = places.get(ours[0].instrument, NOWHERE).limbs
    letters = {mark.onset: mark.side for mark in groove.sticking if mark.limbs is limbs}
    sides = {key: played.limb.side for key, played in known.items()}
    bound = Bound(letters, sides, _two_pedals(ours, letters, sides, places))
    starts = frozenset(beat.start for beat in beats)
    time = Time(groove.tempo.beat * groove.tempo.bpm / 60, groove.length, starts)
    return search(tuple(moments(ours, limbs, places, bound)), limbs, places, time)


def _beats(groove: Groove) -> Iterator[Span]:
    """All that have a part in the groove; a bar that is cut off keeps its first beats, a pickup its last."""
    for index, bar in enumerate(groove.bars):
        late = bar.meter.length - bar.length if groove.pickup and index == 0 else ZERO
        yield from (beat for beat in bar.meter.beat_spans(bar.start - late) if beat.overlaps(bar.span))


def _two_pedals(
    strokes: list[Stroke],
    letters: Mapping[Fraction, Side],
    known: Mapping[tuple[Fraction, Instrument], Side],
    places: DrumSet,
) -> bool:
    """The left foot has strokes of the right foot's drum: the author says so, or it is known from the whole groove."""
    return any(
        Side.LEFT in (letters.get(stroke.onset), known.get((stroke.onset, stroke.instrument)))
        for stroke in strokes
        if places.get(stroke.instrument, NOWHERE).foot is Side.RIGHT
    )


def _limb_strokes(way: Way, limbs: Limbs) -> Iterator[LimbStroke]:
    helper = Limb.of(limbs, way.helper) if way.helper else None
    for side, stroke in way.mains:
        yield LimbStroke(stroke, Limb.of(limbs, side), helper)
