"""A plan of days for the exercises of a chapter: exercises in, what is new and what comes again on each day out.

A suggestion. Short turns that alternate between tasks: Carter and Grahn 2016, with turns of three minutes. A night
between meeting a thing and coming back to it: Simmons 2012. No second pattern of the same kind on one evening: an
experiment of 2012 with sixty people (all three read in their abstracts). Days, counts and rounds are ours.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from engraver.chapters.plan import Exercise

NEW = 2  # exercises a day, if they are not of one kind
COMES_BACK = (1, 3)  # days after it was new
MINUTES = 3  # a turn
ROUNDS = 2  # of the turns of a day


@dataclass(frozen=True, slots=True)
class PracticeDay:
    """``new`` and ``again``: numbers of exercises, from 1."""

    number: int
    new: tuple[int, ...]
    again: tuple[int, ...]

    @property
    def turns(self) -> tuple[int, ...]:
        """New and known take turns, so that no two new ones follow each other while there are others."""
        pairs = zip_longest(self.new, self.again)
        return tuple(number for pair in pairs for number in pair if number is not None)

    @property
    def minutes(self) -> int:
        return len(self.turns) * ROUNDS * MINUTES


@dataclass(frozen=True, slots=True)
class PracticePlan:
    days: tuple[PracticeDay, ...]


def practice_plan(exercises: Sequence[Exercise]) -> PracticePlan:
    """Exercises in their order, until the last has come back once."""
    starts = list(_new_by_day(exercises))
    days = []
    for day in range(len(starts) + (COMES_BACK[0] if starts else 0)):
        new = starts[day] if day < len(starts) else ()
        again = [number for back in COMES_BACK if 0 <= day - back < len(starts) for number in starts[day - back]]
        days.append(PracticeDay(day + 1, new, tuple(sorted(again, reverse=True))))
    return PracticePlan(tuple(days))


def _new_by_day(exercises: Sequence[Exercise]) -> Iterator[tuple[int, ...]]:
    numbers = list(range(1, len(exercises) + 1))
    while numbers:
        first, *others = numbers
        kind = exercises[first - 1].kind
        second = others[: NEW - 1] if others and (kind is None or exercises[others[0] - 1].kind is not kind) else []
        yield (first, *second)
        numbers = numbers[1 + len(second) :]
