"""What makes the grade of each exercise: exercises in; rows for a person and plain values for a program out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from engraver.chapters.plan import Exercise
from engraver.style import Words


def ladder_rows(exercises: Sequence[Exercise], say: Words) -> Iterator[tuple[str, str]]:
    """For each exercise its number and title; its points, its grade, and the parts that the points are the sum of."""
    for number, exercise in enumerate(exercises, start=1):
        parts = ", ".join(
            f"{say(f'difficulty {name}')} {say.decimal(value)}" for name, value in exercise.difficulty.parts if value
        )
        total = say("facts points", total=say.decimal(exercise.difficulty.total), grade=exercise.grade)
        yield f"{number} {exercise.title.rstrip('.')}", f"{total}: {parts}"


def ladder_object(exercises: Sequence[Exercise]) -> list[Mapping[str, object]]:
    """Points are fractions as text, such as "14/5", so that they add up exactly."""
    return [
        {
            "title": exercise.title,
            "stage": exercise.stage.name.lower() if exercise.stage else None,
            "kind": exercise.kind.value if exercise.kind else None,
            "grade": exercise.grade,
            "points": str(exercise.difficulty.total),
            "parts": {name: str(value) for name, value in exercise.difficulty.parts},
            "tempos": list(exercise.tempi),
            "repeats": exercise.repeats,
        }
        for exercise in exercises
    ]
