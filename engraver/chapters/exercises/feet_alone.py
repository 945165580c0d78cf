"""The feet alone, all of them but the second bass drum."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.analysis import Lane
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import turn
from engraver.chapters.lanes import of_lanes

LEAST = 2  # strokes worth an exercise


def drafts(lesson: Lesson) -> Iterable[Draft]:
    lanes = {Lane(layer.name, foot) for layer in lesson.steady.layers for foot in lesson.feet}
    feet, scale = turn(of_lanes(lesson.steady, lanes - set(lesson.doubling)), lesson.facts.step)
    if len(feet.strokes) >= LEAST:
        say = lesson.words
        yield Draft(say("exercise feet"), say("exercise feet task"), feet, lesson.start, scale=scale)
