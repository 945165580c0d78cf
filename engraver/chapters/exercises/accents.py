"""The loud strokes first: everything but the ghost notes, where layers do not keep them apart already."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import cut, shortest_loop, sounding_part


def drafts(lesson: Lesson) -> Iterable[Draft]:
    ghosts = tuple(stroke for stroke in lesson.steady.strokes if stroke.is_ghost)
    if ghosts:
        part = sounding_part(lesson.steady, ghosts)
        loud = shortest_loop(cut(lesson.steady.only(lambda stroke: not stroke.is_ghost), part))
        say = lesson.words
        yield Draft(say("exercise accents"), say("exercise accents task"), loud, lesson.place(part.start))
