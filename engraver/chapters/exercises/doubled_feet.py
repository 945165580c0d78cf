"""Where both feet play bass drums: all feet, without the hands, before everything else joins."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import cut, sounding_part, turn
from engraver.chapters.lanes import of_instruments, of_lanes


def drafts(lesson: Lesson) -> Iterable[Draft]:
    second = of_lanes(lesson.steady, lesson.doubling).strokes
    if not second:
        return
    part = sounding_part(lesson.steady, second)
    feet, scale = turn(cut(of_instruments(lesson.steady, lesson.feet), part), lesson.facts.step)
    say, place = lesson.words, lesson.place(part.start)
    yield Draft(say("exercise doubled"), say("exercise doubled task"), feet, place, scale=scale)
