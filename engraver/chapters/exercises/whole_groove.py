"""All of it: the pickup once, then the groove again and again."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.rhythm import Groove


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say, groove = lesson.words, lesson.groove
    task = say("exercise whole pickup task") if groove.pickup else say("exercise whole task")
    yield Draft(say("exercise whole"), task, _played(groove))


def _played(groove: Groove) -> Groove:
    """Repeats written out; a pickup stays before bar 1."""
    if not groove.repeats:
        return groove
    return replace(groove.performed(), pickup=groove.pickup)
