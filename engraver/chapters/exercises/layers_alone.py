"""Each layer but the first by itself, where it is enough to be played alone."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.analysis import Lane
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import cut, shortest_loop, sounding_part

LEAST = 3  # strokes a bar


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say = lesson.words
    for layer in lesson.steady.layers[1:]:
        if all(Lane(layer.name, stroke.instrument) in lesson.pulse for stroke in layer.strokes):
            continue  # it was counted to
        part = sounding_part(lesson.steady, layer.strokes)
        alone = shortest_loop(cut(lesson.steady.keep([layer.name]), part))
        if len(alone.strokes) >= LEAST * len(alone.bars):
            title, task = say("exercise alone", layer=layer.name), say("exercise alone task")
            yield Draft(title, task, alone, lesson.place(part.start))
