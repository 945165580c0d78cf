"""Layer after layer, each with all that came before it. Fills are practised in and out instead."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import cut, shortest_loop, sounding_part
from engraver.chapters.phrasing import Phrasing


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say = lesson.words
    names: list[str] = []
    for layer in lesson.steady.layers:
        names.append(layer.name)
        part = sounding_part(lesson.steady, layer.strokes)
        together = shortest_loop(cut(lesson.steady.keep(names), part))
        known = [each.name for each in together.layers if each.strokes and each.name != layer.name]
        title = say("exercise added" if known else "exercise first", layer=layer.name)
        yield Draft(title, _task(known, lesson), together, lesson.place(part.start))


def _task(known: Sequence[str], lesson: Lesson) -> str:
    """What stays as it was is named: before the second layer feet and hands may have been practised alone."""
    say = lesson.words
    if not known:
        return say("exercise first task")
    named = Phrasing(lesson.facts.step, say).listed([say("exercise layer", layer=name) for name in known])
    return say("exercise added task", n=len(known), known=named)
