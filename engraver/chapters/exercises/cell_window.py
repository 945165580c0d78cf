"""Some cells in a row as a loop: the figure barred by the cell, or every stroke where the cell fills bars."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from engraver.chapters.cells import figure_of, is_barwise, meter_of, plain_step
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import LONGEST, is_steady, rounds
from engraver.chapters.plan import Ribbon
from engraver.rhythm import Groove, Span


@dataclass(frozen=True, slots=True)
class CellWindow:
    """``scale``: its times are those of the groove multiplied by this."""

    groove: Groove
    ribbons: tuple[Ribbon, ...]
    scale: Fraction


@dataclass(frozen=True, slots=True)
class Placed:
    """A cell that begins at ``start`` of the author's groove."""

    letter: str
    start: Fraction


def cell_window(lesson: Lesson, cells_in_a_row: Sequence[Placed]) -> CellWindow:
    """These cells one after another, over again until it is a loop."""
    cells = lesson.facts.cells
    assert cells
    letters = [cell.letter for cell in cells_in_a_row]
    length = cells.length * lesson.facts.step
    steps = len(letters) * cells.length
    times = rounds(steps, int(lesson.groove.bars[-1].meter.length / lesson.facts.step))
    window = _joined(_strokes(lesson), cells_in_a_row, length).repeat(times)
    if is_barwise(lesson.groove, lesson.facts):
        return CellWindow(window, _row(letters, length) * times, Fraction(1))
    factor, unit = plain_step(lesson.facts.step)
    a_bar = next(n for n in (len(letters) * times, len(letters), 1) if n == 1 or n * cells.length <= LONGEST)
    meters = (meter_of(cells.length, unit, a_bar),) * (len(letters) * times // a_bar)
    barred = window.regroup(meters) if factor == 1 else window.scale(factor, meters)
    return CellWindow(barred, _row(letters, length * factor) * times, factor)


def _joined(groove: Groove, row: Sequence[Placed], length: Fraction) -> Groove:
    whole, *others = (groove.slice(Span(cell.start, cell.start + length)) for cell in row)
    for other in others:
        whole = whole.then(other)
    return whole


def _row(letters: Sequence[str], length: Fraction) -> tuple[Ribbon, ...]:
    return tuple(Ribbon(letter, length) for letter in letters)


def _strokes(lesson: Lesson) -> Groove:
    """Without fills: they hide where the cells are."""
    steady = lesson.groove.keep([layer.name for layer in lesson.groove.layers if is_steady(layer, lesson.facts.fills)])
    return steady if is_barwise(lesson.groove, lesson.facts) else figure_of(steady, lesson.facts)
