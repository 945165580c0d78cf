"""Which parts of a bar are written as tuplets, and with which numbers.

In: the beats of a bar, the onsets of one voice, the author's tuplets. Out: `Region`s that fill the bar in order, each
plain or one tuplet. An author's tuplet is kept where the voice needs it; elsewhere each beat takes the smallest
number of even parts that holds its onsets, or half that number where few of them need the finer grid.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from engraver.notation.beats import Beat, is_power_of_two
from engraver.notation.durations import SHORTEST
from engraver.rhythm import Span, Tuplet

LARGEST = 13  # no tuplet of more notes


@dataclass(frozen=True, slots=True)
class Region:
    """A stretch written in one frame: places count from ``origin``, printed time is sounding time times ``factor``.

    ``unit`` and ``whole`` are printed lengths, as in `Beat`. ``count`` in the time of ``normal``; equal where plain.
    """

    span: Span
    origin: Fraction
    unit: Fraction
    whole: Fraction
    count: int = 1
    normal: int = 1

    @property
    def factor(self) -> Fraction:
        return Fraction(self.count, self.normal)

    @property
    def is_tuplet(self) -> bool:
        return self.count != self.normal

    def place(self, moment: Fraction) -> int:
        """Printed time from the origin, in whole 64ths."""
        above, below = _difference(moment, self.origin)
        place, rest = divmod(above * self.count * SHORTEST.denominator, below * self.normal)
        assert not rest, f"{moment} is not in whole 64ths of {self}"
        return place

    def moment(self, place: int) -> Fraction:
        """The sounding time of a printed place, the inverse of `place`."""
        return self.origin + Fraction(place * self.normal, SHORTEST.denominator * self.count)


class Unwritable(Exception):
    """No value and no tuplet holds the onsets of this beat."""

    def __init__(self, beat: Beat) -> None:
        super().__init__(str(beat.span))
        self.beat = beat


def regions(beats: Sequence[Beat], onsets: Sequence[Fraction], authored: Sequence[Tuplet]) -> Iterator[Region]:
    """Regions from the first beat to the last. Raises `Unwritable`."""
    kept = [tuplet for tuplet in authored if _is_needed(tuplet, beats, onsets)] if onsets else []
    done = beats[0].span.start
    for beat in beats:
        for part in _outside(Span(max(done, beat.span.start), beat.span.end), kept):
            if isinstance(part, Tuplet):
                yield _bracketed(part.span, part.span, part.count)
                done = part.span.end
            else:
                yield from _infer(beat, part, _inside(onsets, part))


def _inside(onsets: Sequence[Fraction], span: Span) -> Sequence[Fraction]:
    return onsets[bisect_left(onsets, span.start) : bisect_left(onsets, span.end)]


def normal_of(length: Fraction, count: int) -> int:
    """How many notes of the printed value would fill ``length`` without the tuplet.

    The ratio is between 1 and 2 (3:2, 5:4, 6:4, 7:4, 9:8; in a dotted quarter 4:3, 5:3, 7:6), except that fewer notes
    than the length has units stretch them: 2:3. Source: Colorado College Music Press, Tuplets.
    """
    odd = _odd(length.numerator)
    normal = odd
    while normal * 2 <= count:
        normal *= 2
    return normal


def _odd(number: int) -> int:
    return number // (number & -number)


def _bracketed(span: Span, whole: Span, count: int) -> Region:
    normal = normal_of(whole.length, count)
    return Region(span, whole.start, whole.length / normal, whole.length * count / normal, count, normal)


# ------------------------------------------------------------------ the author's tuplets


def _is_needed(tuplet: Tuplet, beats: Sequence[Beat], onsets: Sequence[Fraction]) -> bool:
    """It lies in this bar, holds every onset of the voice there, and plain notes would not do."""
    span = tuplet.span
    if not (Span(beats[0].span.start, beats[-1].span.end).covers(span) and is_power_of_two(span.length.denominator)):
        return False
    inside = _inside(onsets, span)
    if tuplet.count == normal_of(span.length, tuplet.count) or not set(inside) - {span.start}:
        return False
    return _holds(tuplet, inside) and not _is_plain_throughout(beats, inside, span, tuplet.count)


def _holds(tuplet: Tuplet, inside: Sequence[Fraction]) -> bool:
    """Every onset is on its notes or on an even division of them, down to the shortest value."""
    printed = tuplet.span.length / normal_of(tuplet.span.length, tuplet.count)
    parts = lcm(*(((o - tuplet.span.start) / tuplet.span.length * tuplet.count).denominator for o in inside))
    return is_power_of_two(parts) and printed / parts >= SHORTEST


def _is_plain_throughout(beats: Sequence[Beat], inside: Sequence[Fraction], span: Span, count: int) -> bool:
    """Two notes in a dotted beat are on its sixteenths too, but the author who brackets them means the bracket."""
    if count < normal_of(span.length, count):
        return False
    return all(_is_plain(beat, _parts(beat, _inside(inside, beat.span))) for beat in beats if beat.span.overlaps(span))


def _outside(span: Span, kept: Sequence[Tuplet]) -> Iterator[Span | Tuplet]:
    """What is left of the span beside the tuplets, and the tuplets that begin in it, in order."""
    at = span.start
    for tuplet in sorted(kept, key=lambda tuplet: (tuplet.span.start, tuplet.count)):
        if tuplet.span.start < at or tuplet.span.start not in span:
            continue
        if at < tuplet.span.start:
            yield Span(at, tuplet.span.start)
        yield tuplet
        at = tuplet.span.end
    if at < span.end:
        yield Span(at, span.end)


# ------------------------------------------------------------------ tuplets found


def _infer(beat: Beat, part: Span, onsets: Sequence[Fraction]) -> Iterator[Region]:
    edges = [edge for edge in (part.start, part.end) if beat.span != part or not beat.is_whole]
    needed = _parts(beat, [*onsets, *edges])
    if _is_plain(beat, needed):
        yield Region(part, beat.origin, beat.unit, beat.length)
    elif beat.is_simple and _halves_read_better(beat, part, onsets, needed):
        for half, half_part in _halves(beat, part):
            yield from _infer(half, half_part, _inside(onsets, half_part))
    else:
        yield _bracketed(part, Span(beat.origin, beat.origin + beat.length), _count(beat, onsets, needed))


def _parts(beat: Beat, moments: Sequence[Fraction]) -> int:
    """The smallest number of even parts of the beat that holds all the moments."""
    return lcm(*(_denominator(moment, beat) for moment in moments))


def _denominator(moment: Fraction, beat: Beat) -> int:
    """Of the part of the beat that has passed by then; in whole numbers, since it is asked of every stroke."""
    above, below = _difference(moment, beat.origin)
    above, below = above * beat.length.denominator, below * beat.length.numerator
    return below // gcd(above, below)


def _difference(later: Fraction, earlier: Fraction) -> tuple[int, int]:
    """As two whole numbers, not reduced."""
    (above, below), (over, under) = later.as_integer_ratio(), earlier.as_integer_ratio()
    return above * under - over * below, below * under


def _is_plain(beat: Beat, parts: int) -> bool:
    """On the beat's own division, down to the shortest value. Four even notes in a dotted quarter are a quadruplet.

    Two even ones are left on the sixteenths of the dotted quarter: a pattern written in sixteenths meets that place
    by chance far more often than by a duplet.
    """
    units = int(beat.length / beat.unit)
    if units > 1 and parts > 2 and is_power_of_two(parts) and units % parts:
        return False
    on_units = Fraction(units, parts)
    return is_power_of_two(on_units.denominator) and beat.unit / on_units.denominator >= SHORTEST


def _count(beat: Beat, onsets: Sequence[Fraction], needed: int) -> int:
    """The number over the tuplet: of the grid that most onsets need, the others divide its notes in two.

    A triplet with one pair of sixteenths stays a triplet; only where half the strokes lie off its notes is it a
    sextuplet. Ours.
    """
    count = needed
    while count % 2 == 0 and count // 2 > 2 and (count > LARGEST or _few_off(beat, onsets, count // 2)):
        count //= 2
    normal = normal_of(beat.length, count)
    shortest = beat.length / normal / Fraction(needed, count)
    if count > LARGEST or shortest < SHORTEST or count == normal:
        raise Unwritable(beat)
    return count


def _few_off(beat: Beat, onsets: Sequence[Fraction], count: int) -> bool:
    off = sum(((onset - beat.origin) / beat.length * count).denominator > 1 for onset in onsets)
    return count != normal_of(beat.length, count) and off * 2 < len(onsets)


def _halves_read_better(beat: Beat, part: Span, onsets: Sequence[Fraction], needed: int) -> bool:
    """One half is plain and the other a tuplet (three sixteenths and an eighth), or no one tuplet holds both."""
    if needed % 2 or beat.length / 2 < SHORTEST * 4:
        return False
    odd = [_odd(parts) for parts in _half_parts(beat, part, onsets)]
    is_one_plain = len(odd) == 2 and odd.count(1) == 1
    return is_one_plain or (1 not in odd and len(set(odd)) == 2) or _odd(needed) > LARGEST


def _half_parts(beat: Beat, part: Span, onsets: Sequence[Fraction]) -> list[int]:
    return [_parts(half, [own.start, own.end, *_inside(onsets, own)]) for half, own in _halves(beat, part)]


def _halves(beat: Beat, part: Span) -> Iterator[tuple[Beat, Span]]:
    length = beat.length / 2
    for origin in (beat.origin, beat.origin + length):
        span = Span(origin, origin + length)
        if (own := span.clip(part)) is not None:
            yield Beat(beat.number, span.clip(beat.span) or own, origin, length, length), own
