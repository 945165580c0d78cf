"""Where both feet play bass drums: the feet alone, then with the leading layer, before everything else joins."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import cut, of_instruments, of_lanes, shortest_loop, sounding_part


def drafts(lesson: Lesson) -> Iterable[Draft]:
    second = of_lanes(lesson.steady, lesson.doubling).strokes
    if not second:
        return
    part = sounding_part(lesson.steady, second)
    feet = shortest_loop(cut(of_instruments(lesson.steady, lesson.feet), part))
    say = lesson.words
    yield Draft(say("exercise doubled"), say("exercise doubled task"), feet, lesson.place(part.start))
