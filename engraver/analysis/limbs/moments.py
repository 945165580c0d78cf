"""The moments at which one pair of limbs strikes, and the ways in which it can share them out.

Strokes of one pair in, ways of playing each onset out. Which of them is the best is asked in `search`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, permutations

from engraver.analysis.limbs.assignment import DrumSet
from engraver.rhythm import Limbs, Place, Side, Stroke

NOWHERE = Place()


@dataclass(frozen=True, slots=True)
class Way:
    """What each side plays; None: nothing. ``helper``: the side that only assists, with grace strokes or in unison.

    ``unplayed``: strokes for which neither side is free.
    """

    right: Stroke | None
    left: Stroke | None
    helper: Side | None = None
    unplayed: tuple[Stroke, ...] = ()

    @property
    def played(self) -> tuple[tuple[Side, Stroke], ...]:
        """What each side strikes, main strokes and help."""
        right = ((Side.RIGHT, self.right),) if self.right else ()
        return (*right, (Side.LEFT, self.left)) if self.left else right

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """All of the moment."""
        return (*(stroke for _, stroke in self.played), *self.unplayed)

    @property
    def mains(self) -> tuple[tuple[Side, Stroke], ...]:
        if self.helper is None:
            return self.played
        return tuple((side, stroke) for side, stroke in self.played if side is not self.helper)


@dataclass(frozen=True, slots=True)
class Moment:
    onset: Fraction
    ways: tuple[Way, ...]


@dataclass(frozen=True, slots=True)
class Bound:
    """What is settled beforehand: the sticking's letters, whether the bass drum has two pedals."""

    letters: Mapping[Fraction, Side]
    two_pedals: bool


Settled = tuple[Stroke, Side | None]  # with its side, where that is known from elsewhere
Demand = Callable[[Way], bool]


def moments(strokes: Iterable[Settled], limbs: Limbs, places: DrumSet, bound: Bound) -> Iterator[Moment]:
    """Every onset of the pair, in order, with the ways that are left.

    The author's letter goes before the foot that an instrument is known to need, and that before what is known from
    elsewhere; a demand that no way meets is passed over.
    """
    for _, together in groupby(strokes, key=lambda each: each[0].onset.as_integer_ratio()):
        settled = tuple(together)
        onset = settled[0][0].onset
        letter = bound.letters.get(onset) if bound.letters else None
        ways = tuple(_ways(tuple(stroke for stroke, _ in settled), limbs, letter))
        for demand in _demands(settled, letter, limbs, places, bound):
            ways = tuple(filter(demand, ways)) or ways
        yield Moment(onset, ways)


def _ways(together: tuple[Stroke, ...], limbs: Limbs, letter: Side | None) -> Iterator[Way]:
    """Those that leave the fewest strokes unplayed come first, and ties go to the right."""
    first, alone = together[0], len(together) == 1
    if alone and letter is not Side.BOTH and not first.ornament:
        yield Way(first, None)
        yield Way(None, first)
        return
    graced = limbs is Limbs.HANDS and bool(first.ornament and first.ornament.graces)
    if alone and (graced or letter is Side.BOTH):
        yield Way(first, first, Side.LEFT)
        yield Way(first, first, Side.RIGHT)
        return
    for right, left in permutations(together, 2):
        rest = tuple(stroke for stroke in together if stroke is not right and stroke is not left)
        yield Way(right, left, unplayed=rest)
    for stroke in together if alone or limbs is Limbs.FEET else ():
        rest = tuple(other for other in together if other is not stroke)
        yield Way(stroke, None, unplayed=rest)
        yield Way(None, stroke, unplayed=rest)


def _demands(
    settled: tuple[Settled, ...], letter: Side | None, limbs: Limbs, places: DrumSet, bound: Bound
) -> Iterator[Demand]:
    if letter:
        yield lambda way: _obeys(way, letter)
    if limbs is Limbs.FEET:
        yield lambda way: all(_is_at_home(side, stroke, places, bound) for side, stroke in way.played)
    known = [(stroke, side) for stroke, side in settled if side]
    if known:
        yield lambda way: _keeps(way, known)


def _keeps(way: Way, known: Iterable[Settled]) -> bool:
    """No stroke changes the side that it is known to have."""
    return not any(side is not own and stroke is struck for side, stroke in way.mains for struck, own in known)


def _obeys(way: Way, letter: Side) -> bool:
    """R and L name who strikes; where two instruments sound, the other side may strike as well."""
    if letter is Side.BOTH:
        return len(way.played) == 2
    return not way.unplayed and letter in {side for side, _ in way.mains}


def _is_at_home(side: Side, stroke: Stroke, places: DrumSet, bound: Bound) -> bool:
    foot = places.get(stroke.instrument, NOWHERE).foot
    return foot in (None, side) or (foot is Side.RIGHT and bound.two_pedals)
