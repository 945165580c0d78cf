"""The plan of days: what is new, what comes back, and in which order the turns go.

Facts behind it (read in abstracts): turns of three minutes that alternate (Carter and Grahn 2016); a night between
(Simmons 2012); no second pattern of one kind on one evening (2012, 60 people). The counts are ours.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from engraver.chapters.practice_plan import PracticeDay, practice_plan
from tests.chapters.test_plan import PLANS


@pytest.mark.parametrize("name", PLANS)
def test_every_exercise_is_new_once_in_order_and_comes_back_the_next_day(name: str) -> None:
    exercises = PLANS[name].exercises
    days = practice_plan(exercises).days
    assert [number for day in days for number in day.new] == list(range(1, len(exercises) + 1))
    for today, tomorrow in pairwise(days):
        assert set(today.new) <= set(tomorrow.again)
    assert not days[-1].new


@pytest.mark.parametrize("name", PLANS)
def test_no_two_of_one_kind_are_new_on_one_day(name: str) -> None:
    exercises = PLANS[name].exercises
    for day in practice_plan(exercises).days:
        kinds = [exercises[number - 1].kind for number in day.new]
        assert len(kinds) == len(set(kinds))


@pytest.mark.parametrize("name", PLANS)
def test_a_day_is_not_longer_than_a_strained_hand_can_take(name: str) -> None:
    """36 minutes: six exercises in two rounds of three minutes."""
    assert all(6 <= day.minutes <= 36 for day in practice_plan(PLANS[name].exercises).days)


def test_new_and_known_take_turns() -> None:
    assert PracticeDay(4, (7, 8), (6, 5, 2)).turns == (7, 6, 8, 5, 2)


def test_no_exercises_no_days() -> None:
    assert practice_plan(()).days == ()
