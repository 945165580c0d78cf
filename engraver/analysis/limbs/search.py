"""The way of playing that is least work: moments of one pair of limbs in, one way for each out.

Dynamic programming over the moments in time order. What counts is where each side is and since when; a side that has
rested for half a second is as good as new, so few states are alive at a time. All costs are whole numbers, ours and
without a source; what they aim at is common practice: the leading hand keeps time, hands take turns where one would
tire, nobody goes farther than needed, and hands cross only where another way would be more work.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import reduce
from math import lcm

from engraver.analysis.limbs.assignment import DrumSet
from engraver.analysis.limbs.bands import limit
from engraver.analysis.limbs.moments import NOWHERE, SIDES, Moment, Way
from engraver.rhythm import Limb, Limbs, Side, Stroke

REST = Fraction(1, 2)  # seconds
UNIT = 100  # of one stroke a second, squared: the work of going on at that rate
PER_DECIMETRE = 50  # times the strokes a second: the way from place to place
CROSSED = 200  # for each decimetre that the right hand is to the left of the left one

# For a stroke of the side that does not lead. With n strokes a second to share, one side alone works n squared for
# each, two that take turns a quarter of that: turns are taken above 2.5 strokes a second on drums, 6.5 where the
# leading hand keeps time, 5 with the feet.
SECOND_HAND, SECOND_ON_LEAD, SECOND_FOOT = 900, 6300, 3700

TOO_FAST = 10**9  # weighs more than all else together, a stroke that nobody plays more than that
UNPLAYED = 10**12

Where = tuple[int | None, int | None]  # the tick of the last stroke, None at rest; decimetres, None not known
State = tuple[Where, Where]


@dataclass(frozen=True)  # without slots: costs of intervals are kept
class Effort:
    """What a stroke costs one pair of limbs, in ticks of ``tick_seconds``."""

    limbs: Limbs
    places: DrumSet
    tick_seconds: Fraction
    _intervals: dict[int, tuple[int, int]] = field(default_factory=dict, compare=False)

    def interval(self, ticks: int) -> tuple[int, int]:
        """The cost of striking again after so many ticks, and that of a decimetre on the way."""
        if ticks not in self._intervals:
            rate = 1 / (ticks * self.tick_seconds)
            top = limit(Limb.of(self.limbs, Side.RIGHT))
            excess = TOO_FAST * (rate / top) if rate > top else 0
            self._intervals[ticks] = int(UNIT * rate * rate + excess), int(PER_DECIMETRE * rate)
        return self._intervals[ticks]

    def second(self, stroke: Stroke) -> int:
        """What it costs that the side which does not lead plays this."""
        if self.limbs is Limbs.FEET:
            return SECOND_FOOT
        return SECOND_ON_LEAD if self.places.get(stroke.instrument, NOWHERE).lead else SECOND_HAND

    def move(self, where: Where, stroke: Stroke, tick: int) -> tuple[int, Where]:
        last, place = where
        across = self.places.get(stroke.instrument, NOWHERE).across
        cost, decimetre = (0, int(PER_DECIMETRE / REST)) if last is None else self.interval(tick - last)
        if across is None or place is None:
            return cost, (tick, place if across is None else across)
        return cost + decimetre * abs(across - place), (tick, across)


def search(moments: Sequence[Moment], limbs: Limbs, places: DrumSet, second: Fraction) -> tuple[Way, ...]:
    """``second``: whole notes in a second. Of ways that are as good, the first in the order of `Moment.ways`."""
    ticks = reduce(lcm, (moment.onset.denominator for moment in moments), 1)
    effort = Effort(limbs, places, 1 / (ticks * second))
    rest = int(REST * second * ticks)
    alive: dict[State, tuple[int, _Path | None]] = {((None, None), (None, None)): (0, None)}
    for moment in moments:
        tick = int(moment.onset * ticks)
        alive = _advance(alive, moment, tick, effort, rest)
    _, path = min(alive.values(), key=lambda each: each[0])
    return _unwound(path)


@dataclass(frozen=True, slots=True)
class _Path:
    """The ways so far, the last first."""

    way: Way
    before: _Path | None


def _advance(
    alive: dict[State, tuple[int, _Path | None]], moment: Moment, tick: int, effort: Effort, rest: int
) -> dict[State, tuple[int, _Path | None]]:
    reached: dict[State, tuple[int, _Path | None]] = {}
    for state, (spent, path) in alive.items():
        ready = tuple((None if last is not None and tick - last >= rest else last, at) for last, at in state)
        for way in moment.ways:
            cost, after = _play(way, (ready[0], ready[1]), tick, effort)
            total = spent + cost
            if after not in reached or total < reached[after][0]:
                reached[after] = total, _Path(way, path)
    return reached


def _play(way: Way, state: State, tick: int, effort: Effort) -> tuple[int, State]:
    cost = UNPLAYED * len(way.unplayed)
    hands = list(state)
    for side, stroke in way.played:
        spent, hands[SIDES.index(side)] = effort.move(hands[SIDES.index(side)], stroke, tick)
        cost += spent + (effort.second(stroke) if side is Side.LEFT else 0)
    right, left = hands
    if right[1] is not None and left[1] is not None:
        cost += CROSSED * max(0, left[1] - right[1])
    return cost, (right, left)


def _unwound(path: _Path | None) -> tuple[Way, ...]:
    ways: list[Way] = []
    while path:
        ways.append(path.way)
        path = path.before
    return tuple(reversed(ways))
