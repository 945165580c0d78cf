"""All of it."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft, Lesson, as_loop


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say = lesson.words
    task = say("exercise whole task") if not lesson.groove.pickup else say("exercise whole pickup task")
    yield Draft(say("exercise whole"), task, as_loop(lesson.groove), lesson.groove.pickup)
