"""Layer after layer, each with all that came before it. Fills are practised in and out instead."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import cut, shortest_loop, sounding_part


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say = lesson.words
    names: list[str] = []
    for layer in lesson.steady.layers:
        names.append(layer.name)
        part = sounding_part(lesson.steady, layer.strokes)
        together = shortest_loop(cut(lesson.steady.keep(names), part))
        first = len(names) == 1
        title = say("exercise first" if first else "exercise added", layer=layer.name)
        task = say("exercise first task" if first else "exercise added task", layer=layer.name)
        yield Draft(title, task, together, lesson.place(part.start))
