"""The hand that leads, alone."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import turn
from engraver.chapters.lanes import of_lanes


def drafts(lesson: Lesson) -> Iterable[Draft]:
    hand, scale = turn(of_lanes(lesson.steady, lesson.leading), lesson.facts.step)
    say, hands = lesson.words, 1 if all(map(lesson.is_led, lesson.leading)) else 2
    title, task = say("exercise hand", n=hands), say("exercise hand task")
    yield Draft(title, task, hand, lesson.start, scale=scale)
