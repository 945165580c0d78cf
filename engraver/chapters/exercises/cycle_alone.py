"""The figure's first layer, barred by the cell, so that it is learnt before it has to be counted against the beat."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.cells import figure_of, is_barwise, regroup
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson


def drafts(lesson: Lesson) -> Iterable[Draft]:
    cells = lesson.facts.cells
    if cells is None or cells.start or lesson.groove.pickup or is_barwise(lesson.groove, lesson.facts):
        return
    first = next((layer.name for layer in lesson.groove.layers if layer.cycles), None)
    passage = regroup(figure_of(lesson.groove, lesson.facts), lesson.facts)
    if first is None or passage is None:
        return
    bar = passage.groove.bars[0].span
    groove = passage.groove.keep([first]).slice(bar)
    say = lesson.words
    yield Draft(say("exercise cycle"), say("exercise cycle task"), groove, scale=passage.scale)
