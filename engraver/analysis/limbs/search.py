"""The way of playing that is least work: moments of one pair of limbs in, one way for each out.

Dynamic programming over the moments in time order. What counts is where each side is and since when; a side that has
rested for a second is as good as new, so few states are alive at a time. All costs are whole numbers, ours and
without a source; what they aim at is common practice: the leading hand keeps time, hands take turns where one would
tire, nobody goes farther than needed, and hands cross only where another way would be more work.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import lcm

from engraver.analysis.limbs.assignment import DrumSet
from engraver.analysis.limbs.bands import limit
from engraver.analysis.limbs.moments import NOWHERE, Moment, Way
from engraver.rhythm import ZERO, Limb, Limbs, Place, Side, tick_of

REST = Fraction(1)  # second
WORK = 10  # times the strokes a second to the fourth power: going on twice as fast tires far more than twice as much
WAY = 150  # for a decimetre, times the strokes a second squared: a way is harder the less time there is for it
CROSSED = 150  # for each decimetre that the right hand is to the left of the left one

# For a stroke of the side that does not lead. Where n strokes a second are to be shared, two sides in turn each work at
# n / 2: turns cost less above 2.5 strokes a second on drums, 6.2 where the leading hand keeps time, 5 with the feet
# (15/8 of the work at that rate).
SECOND_HAND, SECOND_ON_LEAD, SECOND_FOOT = 730, 27700, 11700
SECOND_ON_BEAT = 500  # besides: in turns the leading hand takes the beats

TOO_FAST = 10**9  # weighs more than all else together, a stroke that nobody plays more than that
UNPLAYED = 10**12

Hand = tuple[int, int | None]  # ticks since its last stroke, as many as a rest at most; decimetres, None not known
State = tuple[Hand, Hand]  # right, left
Move = tuple[int | None] | None  # where a side strikes, in decimetres; None: it does not
Option = tuple[int, Move, Move]  # what a way costs whatever was before, and what the right and the left do
Unrolled = tuple[int, Moment, tuple[Option, ...]]  # with its tick in this time round, the one before or after
Stand = tuple[tuple[int | None], int]  # decimetres; what it costs that the side which does not lead plays there
Path = tuple[Way, "Path | None"]  # the ways so far, the last first
Turn = tuple[State, int, int]  # the state after an option, its cost, its number


@dataclass(frozen=True, slots=True)
class Time:
    """``second``: whole notes in a second; ``length`` of the whole, which goes round; ``beats``: where they begin."""

    second: Fraction
    length: Fraction
    beats: frozenset[Fraction]

    @property
    def last_beats(self) -> Fraction:
        """From where on whole beats last as long as a rest; whole, so that hands in turn come out even."""
        latest = self.length - REST * self.second
        return max((beat for beat in self.beats if beat <= latest), default=ZERO)

    @property
    def first_beats(self) -> Fraction:
        earliest = REST * self.second
        return min((beat for beat in self.beats if beat >= earliest), default=self.length)


def search(moments: Sequence[Moment], limbs: Limbs, places: DrumSet, time: Time) -> tuple[Way, ...]:
    """What comes at the end goes before the beginning, and the beginning comes after it.

    Of ways that are as good, the first in the order of `Moment.ways`.
    """
    if all(len(moment.ways) == 1 for moment in moments):
        return tuple(moment.ways[0] for moment in moments)
    ticks = lcm(time.length.denominator, *(moment.onset.denominator for moment in moments))
    effort = Effort.of(limbs, 1 / (ticks * time.second))
    stands = _stands(moments, limbs, places)
    whole = int(time.length * ticks)
    ours = [(tick_of(moment.onset, ticks), moment, _options(moment, stands, time.beats)) for moment in moments]
    last, first = time.last_beats * ticks, time.first_beats * ticks
    before = [(tick - whole, moment, options) for tick, moment, options in ours if tick >= last]
    after = [(tick + whole, moment, options) for tick, moment, options in ours if tick < first]
    return _least([*before, *ours, *after], effort)[len(before) : len(before) + len(ours)]


def _least(unrolled: Sequence[Unrolled], effort: Effort) -> tuple[Way, ...]:
    alive: dict[State, tuple[int, Path | None]] = {((effort.rest, None), (effort.rest, None)): (0, None)}
    turns: dict[tuple[int, tuple[Option, ...]], dict[State, tuple[Turn, ...]]] = {}
    last = unrolled[0][0]
    for tick, moment, options in unrolled:
        known = turns.setdefault((tick - last, options), {})
        alive = _advance(alive, moment.ways, options, tick - last, effort, known)
        last = tick
    _, path = min(alive.values(), key=lambda each: each[0])
    return _unwound(path)


def _stands(moments: Sequence[Moment], limbs: Limbs, places: DrumSet) -> Mapping[str, Stand]:
    """By the name of each instrument."""
    instruments = {stroke.instrument for moment in moments for way in moment.ways[:1] for stroke in way.strokes}
    found = ((instrument.name, places.get(instrument, NOWHERE)) for instrument in instruments)
    return {name: ((place.across,), _second(limbs, place)) for name, place in found}


def _second(limbs: Limbs, place: Place) -> int:
    """What it costs that the side which does not lead plays there."""
    if limbs is Limbs.FEET:
        return SECOND_FOOT
    return SECOND_ON_LEAD if place.lead else SECOND_HAND


def _options(moment: Moment, stands: Mapping[str, Stand], beats: frozenset[Fraction]) -> tuple[Option, ...]:
    on_beat = SECOND_ON_BEAT if moment.onset in beats else 0
    return tuple(_option(way, stands, on_beat) for way in moment.ways)


def _option(way: Way, stands: Mapping[str, Stand], on_beat: int) -> Option:
    cost = UNPLAYED * len(way.unplayed)
    right = stands[way.right.instrument.name][0] if way.right else None
    if way.left is None:
        return cost, right, None
    left, second = stands[way.left.instrument.name]
    return cost + second + on_beat, right, left


@dataclass(frozen=True, slots=True)
class Effort:
    """The cost of striking again after so many ticks, and of a decimetre on the way; the last is that of a rest."""

    again: tuple[int, ...]
    decimetre: tuple[int, ...]

    @property
    def rest(self) -> int:
        """In ticks."""
        return len(self.again) - 1

    @classmethod
    @lru_cache(maxsize=64)
    def of(cls, limbs: Limbs, tick_seconds: Fraction) -> Effort:
        top = limit(Limb.of(limbs, Side.RIGHT))
        rates = [1 / (ticks * tick_seconds) for ticks in range(1, int(REST / tick_seconds))]
        again = [int(WORK * rate**4 + (TOO_FAST * rate / top if rate > top else 0)) for rate in rates]
        ways = [int(WAY * rate**2) for rate in rates]
        return cls((0, *again, 0), (0, *ways, int(WAY / REST**2)))

    def move(self, hand: Hand, move: tuple[int | None]) -> tuple[int, Hand]:
        (ticks, place), (across,) = hand, move
        if across is None or place is None:
            return self.again[ticks], (0, place if across is None else across)
        return self.again[ticks] + self.decimetre[ticks] * abs(across - place), (0, across)


def _advance(
    alive: dict[State, tuple[int, Path | None]],
    ways: tuple[Way, ...],
    options: tuple[Option, ...],
    gap: int,
    effort: Effort,
    known: dict[State, tuple[Turn, ...]],
) -> dict[State, tuple[int, Path | None]]:
    """``known``: turns that were worked out where the same was struck after the same time, and are the same again."""
    best: dict[State, tuple[int, Path | None, int]] = {}
    for state, (spent, path) in alive.items():
        if state not in known:
            known[state] = tuple(_turns(state, options, gap, effort))
        for after, cost, number in known[state]:
            if after not in best or spent + cost < best[after][0]:
                best[after] = spent + cost, path, number
    return {state: (spent, (ways[number], path)) for state, (spent, path, number) in best.items()}


def _turns(state: State, options: Iterable[Option], gap: int, effort: Effort) -> Iterable[Turn]:
    ready = [(min(ticks + gap, effort.rest), place) for ticks, place in state]
    for number, (cost, *moves) in enumerate(options):
        hands: list[Hand] = []
        for hand, move in zip(ready, moves, strict=True):
            spent, after = effort.move(hand, move) if move else (0, hand)
            cost += spent
            hands.append(after)
        right, left = hands
        if right[1] is not None and left[1] is not None:
            cost += CROSSED * max(0, left[1] - right[1])
        yield (right, left), cost, number


def _unwound(path: Path | None) -> tuple[Way, ...]:
    ways: list[Way] = []
    while path:
        way, path = path
        ways.append(way)
    return tuple(reversed(ways))
