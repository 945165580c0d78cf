"""The soft strokes: the ghost notes in their place, without the accents of the drum that has both."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import cut, shortest_loop, sounding_part


def drafts(lesson: Lesson) -> Iterable[Draft]:
    known = lesson.with_ghosts
    ghosts = tuple(stroke for stroke in known.strokes if stroke.is_ghost)
    drums = {stroke.instrument for stroke in ghosts}
    loud = [s for s in known.strokes if s.is_accent and s.instrument in drums]
    if ghosts and loud:
        part = sounding_part(known, ghosts)
        soft = known.only(lambda stroke: not (stroke.is_accent and stroke.instrument in drums))
        say = lesson.words
        title, task = say("exercise ghosts"), say("exercise ghosts task")
        yield Draft(title, task, shortest_loop(cut(soft, part)), lesson.place(part.start))
