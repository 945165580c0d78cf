"""The last bar and the first: the cycle is cut off and begins again."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.cells import ribbons, ribbons_in
from engraver.chapters.exercises.draft import Draft, Lesson, bars
from engraver.rhythm import Role


def drafts(lesson: Lesson) -> Iterable[Draft]:
    cells, say = lesson.facts.cells, lesson.words
    if cells is None or not cells.remainder or len(lesson.groove.bars) < 2:
        return
    steady = lesson.groove.keep(
        [layer.name for layer in lesson.groove.layers if _is_steady(layer.role, layer.silences)]
    )
    last, first = steady.bars[-1], steady.bars[1 if steady.pickup else 0]
    row = ribbons(lesson.groove, lesson.facts)
    groove = bars(steady, len(steady.bars) - 1, len(steady.bars) - 1).then(steady.slice(first.span))
    marks = ribbons_in(row, last.span) + ribbons_in(row, first.span)
    yield Draft(say("exercise restart"), say("exercise restart task"), groove, last.start, marks)


def _is_steady(role: Role | None, silences: tuple[object, ...]) -> bool:
    return role is not Role.FILL and not silences
