"""All of it."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft, Lesson


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say = lesson.words
    yield Draft(say("exercise whole"), say("exercise whole task"), lesson.groove)
