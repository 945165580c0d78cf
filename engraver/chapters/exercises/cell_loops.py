"""Each cell as a loop of its own, the commonest first."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.cell_window import Placed, cell_window
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson


def drafts(lesson: Lesson) -> Iterable[Draft]:
    cells, say = lesson.facts.cells, lesson.words
    if cells is None or len(cells.cells) < 2:
        return
    for cell in sorted(cells.cells, key=lambda cell: -cell.count):
        window = cell_window(lesson, [Placed(cell.letter, cell.first)])
        yield Draft(
            say("exercise cell", letter=cell.letter),
            say("exercise cell task"),
            window.groove,
            cell.first,
            window.ribbons,
            window.scale,
        )
