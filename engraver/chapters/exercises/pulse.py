"""The count and the pulse: what keeps the time, while the beats are counted aloud."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import shortest_loop
from engraver.chapters.lanes import of_lanes

LEAST = 2  # strokes a bar that make a pulse


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say = lesson.words
    task = "exercise pulse task" if lesson.facts.timekeepers else "exercise pulse backbeat task"
    pulse = shortest_loop(of_lanes(lesson.steady, lesson.pulse))
    if len(pulse.strokes) < LEAST * len(pulse.bars):
        return
    yield Draft(say("exercise pulse"), say(task), pulse, lesson.start, counted=True)
