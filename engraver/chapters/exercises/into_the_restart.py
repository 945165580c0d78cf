"""The last bar and the first: the cycle is cut off and begins again."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.cells import ribbons, ribbons_in
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import bars, is_steady


def drafts(lesson: Lesson) -> Iterable[Draft]:
    """Of the groove as it is written: fills left out, for they hide where the cells are."""
    cells, say = lesson.facts.cells, lesson.words
    if cells is None or not cells.remainder or len(lesson.loop.bars) < 2:
        return
    steady = lesson.groove.keep([each.name for each in lesson.groove.layers if is_steady(each, lesson.facts.fills)])
    last, first = steady.bars[-1], steady.bars[1 if steady.pickup else 0]
    row = ribbons(lesson.groove, lesson.facts)
    groove = bars(steady, len(steady.bars) - 1, len(steady.bars) - 1).then(steady.slice(first.span))
    marks = ribbons_in(row, last.span) + ribbons_in(row, first.span)
    yield Draft(say("exercise restart"), say("exercise restart task"), groove, last.start, marks)
