"""The loud strokes first: everything but the ghost notes, where layers do not keep them apart already."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import cut, has_ghosts, shortest_loop, sounding_part


def drafts(lesson: Lesson) -> Iterable[Draft]:
    known = lesson.with_ghosts
    ghosts = tuple(stroke for stroke in known.strokes if stroke.is_ghost)
    if any(not stroke.is_ghost for layer in known.layers if has_ghosts(layer) for stroke in layer.strokes):
        part = sounding_part(known, ghosts)
        loud = shortest_loop(cut(known.only(lambda stroke: not stroke.is_ghost), part))
        say = lesson.words
        yield Draft(say("exercise accents"), say("exercise accents task"), loud, lesson.place(part.start))
