"""All of it."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft, Lesson, without_pickup


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say = lesson.words
    yield Draft(say("exercise whole"), say("exercise whole task"), without_pickup(lesson.groove), lesson.groove.pickup)
