"""Who plays what: a Groove in, every stroke with its limb out.

The author's sticking decides; where it is silent, the way of playing that is least work (`search`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from engraver.analysis.limbs.assignment import Assignment, DrumSet, LimbStroke
from engraver.analysis.limbs.hi_hat import closings
from engraver.analysis.limbs.moments import NOWHERE, Bound, Way, moments
from engraver.analysis.limbs.search import search
from engraver.rhythm import Groove, Instrument, Limb, Limbs, Side, Stroke

Known = Mapping[tuple[Fraction, Instrument], Side]


def assign(groove: Groove, places: DrumSet, leading: Side = Side.RIGHT) -> Assignment:
    """The limbs of a whole groove. Sticking is read as written for a right-handed player, as is the set in ``places``.

    A left-handed player has the set and the sticking the other way round, so every limb is the other one. Instruments
    that ``places`` does not hold are the hands'. A moment with more strokes than free limbs leaves some over.
    """
    assert leading is not Side.BOTH
    return _handed(_assign(groove, places, {}), leading)


def carry(whole: Assignment, window: Groove, offset: Fraction, scale: Fraction = Fraction(1)) -> Assignment:
    """The limbs of an exercise: a view of a groove whose limbs are known, and that keeps them.

    ``offset`` is where the window begins in the groove, ``scale`` what its times were multiplied by. A stroke that is
    not at its place in the groove (a fill hides it, or the window is put together from several) is searched for. Times
    of the result are those of the window, its tempo lets it last as long as in the groove.
    """
    heard = replace(window, tempo=replace(window.tempo, beat=window.tempo.beat * scale))
    sides = {
        ((each.onset - offset) * scale, each.stroke.instrument): _right_handed(each.limb, whole.leading).side
        for each in whole.strokes
    }
    return _handed(_assign(heard, whole.places, sides), whole.leading)


def _assign(groove: Groove, places: DrumSet, known: Known) -> Assignment:
    found: list[LimbStroke] = []
    over: list[Stroke] = []
    for limbs in Limbs:
        ours = [s for s in groove.strokes if places.get(s.instrument, NOWHERE).limbs is limbs]
        letters = {mark.onset: mark.side for mark in groove.sticking if mark.limbs is limbs}
        bound = Bound(letters, known, _two_pedals(ours, letters, known, places))
        second = groove.tempo.beat * groove.tempo.bpm / 60
        for way in search(tuple(moments(ours, limbs, places, bound)), limbs, places, second) if ours else ():
            found += _limb_strokes(way, limbs)
            over += way.unplayed
    return Assignment(
        strokes=tuple(sorted(found, key=lambda each: each.stroke.order)),
        length=groove.length,
        tempo=groove.tempo,
        beats=tuple(beat.start for bar in groove.bars for beat in bar.meter.beat_spans(bar.start)),
        left_over=tuple(over),
        closings=closings(groove.strokes, places),
        places=places,
    )


def _two_pedals(strokes: list[Stroke], letters: Mapping[Fraction, Side], known: Known, places: DrumSet) -> bool:
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


def _right_handed(limb: Limb, leading: Side) -> Limb:
    return limb if leading is Side.RIGHT else limb.other


def _handed(found: Assignment, leading: Side) -> Assignment:
    if leading is Side.RIGHT:
        return found
    return replace(found, strokes=tuple(stroke.mirrored for stroke in found.strokes), leading=leading)
