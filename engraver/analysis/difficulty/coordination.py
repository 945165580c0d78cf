"""What limbs have to do with one another: an Assignment in, numbers out that never fall as strokes are added."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache
from itertools import combinations
from math import log2

from engraver.analysis.limbs.assignment import Assignment
from engraver.rhythm import Limb, Limbs

Pair = tuple[Limb, Limb]


@cache
def bits(choices: int) -> Fraction:
    """log2, to a thousandth: the one place where a difficulty is rounded."""
    return Fraction(round(1000 * log2(choices)), 1000)


def together(assignment: Assignment) -> int:
    """How many different sets of two limbs or more strike together, or would if some of them were silent.

    A set counts with all that it holds: three limbs at once are three pairs and a trio. So a stroke that joins others
    adds sets and takes none away.
    """
    struck: dict[int, list[Limb]] = {}
    for limb, ticks in assignment.in_ticks.struck.items():
        for tick in ticks:
            struck.setdefault(tick, []).append(limb)
    met = {tuple(limbs) for limbs in struck.values()}
    return len({part for limbs in met for size in range(2, len(limbs) + 1) for part in combinations(limbs, size)})


def offsets(assignment: Assignment, pair: Pair) -> int:
    """How many different times there are from a stroke of the one limb to a stroke of the other, before it or after.

    Within a beat, and round and round. Every two strokes count, not neighbours only, so a stroke that is laid between
    others takes no time away.
    """
    ticks, rows = assignment.in_ticks, assignment.once(_rows)
    within = min(ticks.shortest_beat, ticks.length)
    one, other = (rows[limb] for limb in pair)
    if not one or not other:
        return 0
    after, before = (row | row << ticks.length for row in (other, one))  # the next time round as well
    gaps = sum(1 for gap in range(within) if one & (after >> gap))
    return gaps + sum(1 for gap in range(1, within) if other & (before >> gap))


def _rows(assignment: Assignment) -> Mapping[Limb, int]:
    return {limb: _row(ticks) for limb, ticks in assignment.in_ticks.struck.items()}


def _row(ticks: Iterable[int]) -> int:
    """A bit for each tick."""
    row = 0
    for tick in ticks:
        row |= 1 << tick
    return row


def uncertainty(assignment: Assignment, pairs: Iterable[Pair]) -> Fraction:
    """Bits: for each pair, how uncertain the one leaves where the other strikes.

    Hartley's measure of the conditional choice, log2 of the number of different times: the entropy that it has if all
    are as likely, and so the most that the conditional entropy can be. The entropy itself falls when a pattern is
    filled up to a steady row, which an ordering by containment must not do.
    """
    numbers = (offsets(assignment, pair) for pair in pairs)
    return sum((bits(number) for number in numbers if number > 1), Fraction(0))  # one time leaves no doubt: 0 bits


def leading_and_feet(assignment: Assignment) -> tuple[Pair, ...]:
    lead = Limb.of(Limbs.HANDS, assignment.leading)
    return tuple((lead, foot) for foot in (Limb.RIGHT_FOOT, Limb.LEFT_FOOT))


def other_pairs(assignment: Assignment) -> tuple[Pair, ...]:
    known = {frozenset(pair) for pair in leading_and_feet(assignment)}
    return tuple(pair for pair in combinations(Limb, 2) if frozenset(pair) not in known)
