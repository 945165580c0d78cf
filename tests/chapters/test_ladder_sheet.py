"""What `engraver facts` says of each exercise."""

from __future__ import annotations

from fractions import Fraction

import pytest

from engraver.chapters.ladder_sheet import ladder_object, ladder_rows
from engraver.style import words
from tests.chapters.test_plan import PLANS


@pytest.mark.parametrize("name", PLANS)
def test_the_parts_of_an_exercise_add_up_to_its_points(name: str) -> None:
    for exercise, plain in zip(PLANS[name].exercises, ladder_object(PLANS[name].exercises), strict=True):
        parts = plain["parts"]
        assert isinstance(parts, dict)
        assert sum(map(Fraction, parts.values())) == Fraction(str(plain["points"])) == exercise.difficulty.total


def test_a_row_has_number_title_points_and_grade() -> None:
    exercises = PLANS["side-gate"].exercises
    label, text = next(iter(ladder_rows(exercises, words("en"))))
    assert label == "1 Count and pulse"
    assert text.startswith(f"{float(exercises[0].difficulty.total):.1f} points, grade {exercises[0].grade}: rates ")
