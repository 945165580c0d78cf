"""Each change from one cell to another that occurs, as a loop of the two. A loop of A and B has the change back too."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise

from engraver.chapters.exercises.cell_window import Placed, cell_window
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.rhythm import ZERO


def drafts(lesson: Lesson) -> Iterable[Draft]:
    say = lesson.words
    for first, second in _changes(lesson):
        window = cell_window(lesson, (first, second))
        yield Draft(
            say("exercise change", first=first.letter, second=second.letter),
            say("exercise change task"),
            window.groove,
            first.start,
            window.ribbons,
            window.scale,
        )


def _changes(lesson: Lesson) -> list[tuple[Placed, Placed]]:
    """Each pair of different letters where it is first played side by side, in either order; the commonest first."""
    found: dict[frozenset[str], tuple[Placed, Placed]] = {}
    often: Counter[frozenset[str]] = Counter()
    length = lesson.facts.cells.length * lesson.facts.step if lesson.facts.cells else ZERO
    for (one, begins), (other, follows) in pairwise(_played(lesson)):
        if one.letter != other.letter and follows - begins == length:
            pair = frozenset((one.letter, other.letter))
            often[pair] += 1
            found.setdefault(pair, (one, other))
    return sorted(found.values(), key=lambda pair: -often[frozenset(cell.letter for cell in pair)])


def _played(lesson: Lesson) -> Iterator[tuple[Placed, Fraction]]:
    """The cells in the order in which they are played, each with the moment when it begins."""
    cells, groove, moment = lesson.facts.cells, lesson.groove, ZERO
    if cells is None:
        return
    written = [Placed(letter, n * lesson.facts.step) for n, letter in zip(cells.places, cells.full, strict=True)]
    for index in groove.played_bars:
        bar = groove.bars[index]
        yield from ((cell, moment + cell.start - bar.start) for cell in written if cell.start in bar.span)
        moment += bar.length
