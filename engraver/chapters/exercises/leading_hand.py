"""The hand that leads, alone."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import of_lanes, turn


def drafts(lesson: Lesson) -> Iterable[Draft]:
    hand, scale = turn(of_lanes(lesson.steady, lesson.leading), lesson.facts.step)
    say = lesson.words
    yield Draft(say("exercise hand"), say("exercise hand task"), hand, lesson.start, scale=scale)
