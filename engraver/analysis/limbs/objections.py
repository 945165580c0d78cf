"""Whether a body can play it: limbs in, objections out. One function a question, listed in `QUESTIONS`.

The questions are asked of a right-handed player; for another the answers are mirrored.

What no player does is refused, by the upper ends of the bands; what few do is warned of. Limits without a source in
`bands` are ours.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import groupby, pairwise

from engraver.analysis.limbs.assign import assign
from engraver.analysis.limbs.assignment import Assignment, LimbStroke
from engraver.analysis.limbs.bands import REBOUND, Band, limit
from engraver.analysis.limbs.complaint import Complaint, Objection
from engraver.analysis.limbs.hi_hat import contradictions
from engraver.analysis.limbs.rates import Rate, burst, fastest_of, sustained
from engraver.analysis.limbs.tempo import hardest
from engraver.rhythm import Groove, Limb, Limbs, Pedal, Side, Stroke

# Decimetres that the right hand may be to the left of the left one: hi-hat and snare drum. Common practice, no source.
CROSSING = 4
# Decimetres a second between two strokes of a hand: a metre and a half in a quarter of a second. Ours, no source.
FARTHEST = Fraction(60)


def objections(groove: Groove, assignment: Assignment) -> tuple[Objection, ...]:
    """Against the limbs of a groove, refusals first, each in order of onset."""
    right = assignment if assignment.leading is Side.RIGHT else assignment.mirrored
    found = [each for question in QUESTIONS for each in question(right)]
    helped = [_helped(each, groove, right) if each.complaint.is_refusal else each for each in found]
    ordered = sorted(helped, key=lambda each: (not each.complaint.is_refusal, each.onset))
    return tuple(ordered if right is assignment else map(_mirrored, ordered))


def _mirrored(found: Objection) -> Objection:
    return replace(found, limb=found.limb.other) if found.limb else found


# ------------------------------------------------------------------ strokes of one moment
def crowded(assignment: Assignment) -> Iterator[Objection]:
    """Each pair of limbs at the first moment that has a stroke too many."""
    for limbs in Limbs:
        over = [s for s in assignment.left_over if assignment.place(s).limbs is limbs]
        if over:
            onset = over[0].onset
            played = [each for each in assignment.strokes if each.onset == onset and each.limb.limbs is limbs]
            strokes = tuple(sorted([*(each.stroke for each in played), *_at(over, onset)], key=lambda s: s.order))
            free = sum(len(each.limbs) for each in played)
            moments = len({stroke.onset for stroke in over})
            limb = played[0].limb if limbs is Limbs.FEET and len(played) == 1 else None
            yield Objection(
                Complaint.CROWDED, onset, strokes, limb, Fraction(len(strokes)), Fraction(free), moments=moments
            )


def ornaments_have_two_hands(assignment: Assignment) -> Iterator[Objection]:
    """The other hand strikes something else: then the graces have to come by rebound, or not at all."""
    yield from _first(
        Objection(Complaint.UNAIDED, each.onset, (each.stroke,), each.limb)
        for each in assignment.strokes
        if each.limb.limbs is Limbs.HANDS and each.stroke.ornament and each.stroke.ornament.graces and not each.helper
    )


def pedal_up_and_down(assignment: Assignment) -> Iterator[Objection]:
    strokes = (each.stroke for each in assignment.strokes)
    yield from _first(
        Objection(Complaint.PEDAL, pair[0].onset, pair) for pair in contradictions(strokes, assignment.places)
    )


def closing_foot_is_free(assignment: Assignment) -> Iterator[Objection]:
    """A foot that strikes at the moment at which it has to press the pedal."""
    busy = [each for each in assignment.of(assignment.pedal_foot) if each.onset in assignment.closings]
    yield from _first(Objection(Complaint.CLOSING, each.onset, (each.stroke,), assignment.pedal_foot) for each in busy)


def held_hi_hat_has_its_foot(assignment: Assignment) -> Iterator[Objection]:
    foot = assignment.pedal_foot
    away = {each.onset: each.stroke for each in assignment.of(foot) if assignment.place(each.stroke).pedal is None}
    yield from _first(
        Objection(Complaint.HELD, each.onset, (each.stroke, away[each.onset]), foot)
        for each in assignment.strokes
        if each.onset in away and assignment.place(each.stroke).pedal is Pedal.CLOSED
        if each.onset not in assignment.closings
    )


# ------------------------------------------------------------------ rates
def rates_are_possible(assignment: Assignment) -> Iterator[Objection]:
    for limb in Limb:
        going_on = sustained(assignment, limb)
        if going_on and going_on.load() > 1:
            yield _rate(Complaint.TOO_FAST, going_on, Band.EXPERT, assignment)
            continue
        if going_on and going_on.load(Band.HARD) > 1:
            yield _rate(Complaint.VERY_FAST, going_on, Band.HARD, assignment)
        quick = burst(assignment, limb)
        if quick and quick.load() > 1:
            yield _rate(Complaint.TOO_QUICK, quick, Band.EXPERT, assignment)
        elif quick and limb.limbs is Limbs.FEET and quick.per_second > limit(limb):
            found = _rate(Complaint.QUICK_FOOT, quick, Band.EXPERT, assignment)
            yield replace(found, limit=limit(limb), bpm=_bpm(assignment, quick.per_second / limit(limb)))


def closing_foot_keeps_up(assignment: Assignment) -> Iterator[Objection]:
    """The closings of the hi-hat among the strokes of its foot."""
    foot, whole = assignment.pedal_foot, assignment.in_ticks.whole
    moved = sorted({*assignment.in_ticks.motions[foot], *(int(onset * whole) for onset in assignment.closings)})
    rate = fastest_of(moved, assignment, foot, 3) if assignment.closings else None
    alone = sustained(assignment, foot)
    if rate and rate.load() > 1 and not (alone and alone.load() > 1):
        yield _rate(Complaint.TOO_FAST, rate, Band.EXPERT, assignment)


def _rate(complaint: Complaint, rate: Rate, band: Band, assignment: Assignment) -> Objection:
    top = limit(rate.limb, band) * (REBOUND if complaint is Complaint.TOO_QUICK else 1)
    ours = [each.stroke for each in assignment.of(rate.limb)] or [each.stroke for each in assignment.strokes]
    stroke = min(ours, key=lambda stroke: abs(stroke.onset - rate.onset))
    bpm = _bpm(assignment, rate.load(band))
    return Objection(complaint, rate.onset, (stroke,), rate.limb, rate.per_second, top, bpm)


def _bpm(assignment: Assignment, load: Fraction) -> int:
    return max(1, int(assignment.tempo.bpm / load))


# ------------------------------------------------------------------ reach
def arms_do_not_cross(assignment: Assignment) -> Iterator[Objection]:
    def found() -> Iterator[Objection]:
        for right, left in _both_hands(assignment):
            right_at, left_at = assignment.place(right.stroke).across, assignment.place(left.stroke).across
            if right_at is not None and left_at is not None and left_at - right_at > CROSSING:
                strokes = (right.stroke, left.stroke)
                figure = Fraction(left_at - right_at)
                yield Objection(Complaint.CROSSED, right.onset, strokes, None, figure, Fraction(CROSSING))

    yield from _first(found())


def hands_have_room(assignment: Assignment) -> Iterator[Objection]:
    """Two sticks on one small place, or two sounds of one surface, at one moment."""
    together = [tuple(dict.fromkeys((right, left))) for right, left in _both_hands(assignment)]
    yield from _first(
        Objection(Complaint.SHARED, pair[0].onset, tuple(each.stroke for each in pair))
        for pair in together
        if len({assignment.place(each.stroke).surface for each in pair}) == 1
        and (len(pair) == 2 or assignment.place(pair[0].stroke).small)
    )


def ways_are_short(assignment: Assignment) -> Iterator[Objection]:
    """From stroke to stroke of one hand, round and round; of each hand the farthest."""
    for hand in (Limb.RIGHT_HAND, Limb.LEFT_HAND):
        ours = assignment.of(hand)
        ways = [way for pair in pairwise([*ours, *ours[:1]]) if (way := _speed(*pair, assignment))]
        fastest, strokes = max(ways, key=lambda way: way[0], default=(Fraction(0), ()))
        if fastest > FARTHEST:
            moments = sum(1 for speed, _ in ways if speed > FARTHEST)
            bpm = _bpm(assignment, fastest / FARTHEST)
            yield Objection(Complaint.FAR, strokes[0].onset, strokes, hand, fastest, FARTHEST, bpm, moments)


def _speed(one: LimbStroke, other: LimbStroke, assignment: Assignment) -> tuple[Fraction, tuple[Stroke, ...]] | None:
    start, end = assignment.place(one.stroke).across, assignment.place(other.stroke).across
    passed = (other.onset - one.onset) % assignment.length
    if start is None or end is None or not passed:
        return None
    return abs(end - start) * assignment.second / passed, (one.stroke, other.stroke)


def _both_hands(assignment: Assignment) -> Iterator[tuple[LimbStroke, LimbStroke]]:
    """What the right and the left hand do at each moment at which both strike."""
    for _, moment in groupby(assignment.strokes, key=lambda each: each.onset):
        playing = {limb: each for each in moment for limb in each.limbs}
        if Limb.RIGHT_HAND in playing and Limb.LEFT_HAND in playing:
            yield playing[Limb.RIGHT_HAND], playing[Limb.LEFT_HAND]


# ------------------------------------------------------------------ what would help
def _helped(found: Objection, groove: Groove, assignment: Assignment) -> Objection:
    if found.complaint not in (Complaint.TOO_FAST, Complaint.TOO_QUICK) or found.limb is None:
        return found
    limb = found.limb
    if limb.limbs is Limbs.FEET:
        in_turn = found.figure is not None and found.limit is not None and found.figure <= 2 * found.limit
        return replace(found, two_feet=in_turn and not assignment.of(limb.other))
    free = replace(groove, sticking=tuple(mark for mark in groove.sticking if mark.limbs is not limb.limbs))
    if free.sticking == groove.sticking:
        return found
    other = assign(free, assignment.places)
    worst = hardest(other)
    return replace(found, own_hands=worst is not None and worst.load() <= 1)


def _at(strokes: Iterable[Stroke], onset: Fraction) -> list[Stroke]:
    return [stroke for stroke in strokes if stroke.onset == onset]


def _first(found: Iterable[Objection]) -> Iterator[Objection]:
    """The first of several alike, with the number of their moments."""
    alike = list(found)
    if alike:
        yield replace(alike[0], moments=len({each.onset for each in alike}))


QUESTIONS: tuple[Callable[[Assignment], Iterator[Objection]], ...] = (
    crowded,
    ornaments_have_two_hands,
    pedal_up_and_down,
    closing_foot_is_free,
    rates_are_possible,
    closing_foot_keeps_up,
    held_hi_hat_has_its_foot,
    arms_do_not_cross,
    hands_have_room,
    ways_are_short,
)
