"""Each cell as a loop of its own."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.cells import cards, is_barwise, meter_of, plain_step
from engraver.chapters.exercises.draft import Draft, Lesson
from engraver.chapters.plan import CellCard, Ribbon

MOST = 4  # cells of a chapter that are practised so
BAR = 12  # steps that a loop should have at least, so that it is more than a blink


def drafts(lesson: Lesson) -> Iterable[Draft]:
    cells, say = lesson.facts.cells, lesson.words
    if cells is None or len(cells.cells) < 2 or is_barwise(lesson.groove, lesson.facts):
        return
    times = max(1, -(-BAR // cells.length))
    factor, unit = plain_step(lesson.facts.step)
    for card in cards(lesson.groove, lesson.facts)[:MOST]:
        if _is_the_cycle(lesson, card):
            continue
        loop = card.passage.groove.repeat(times).regroup((meter_of(cells.length, unit, times),))
        row = (Ribbon(card.cell.letter, cells.length * lesson.facts.step * factor),) * times
        yield Draft(
            say("exercise cell", letter=card.cell.letter),
            say("exercise cell task"),
            loop,
            card.passage.offset,
            row,
            factor,
        )


def _is_the_cycle(lesson: Lesson, card: CellCard) -> bool:
    """The cell holds no more than the cycle that has an exercise of its own."""
    first = next((layer.name for layer in lesson.groove.layers if layer.cycles), "")
    return card.passage.groove.keep([first]).strokes == card.passage.groove.strokes
