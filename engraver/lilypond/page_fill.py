"""Which exercises begin a page. Millimetres.

LilyPond guesses how much a page holds before it has set the music, and its guess leaves out tuplet brackets, ribbons
and the rows of text; where its page would be too full, the break is written out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from engraver.lilypond.passage import Engravable

# measured on engraved pages of the workbook design, rounded up
HEAD, LINE, ROW, RIBBON, BRACKETS, TASK_LINE = 15.6, 23.0, 5.5, 6.0, 7.0, 5.0
MARGINS = 43.0
LETTERS_A_LINE = 78
TALL = 80.0


def first_on_page(exercises: Iterable[tuple[Engravable, int]], page_height: float) -> Iterator[bool]:
    """For each exercise, given with the number of letters of its sentence: does it begin a new page?"""
    room, used = page_height - MARGINS, 0.0
    for score, letters in exercises:
        height = _height(score, letters)
        breaks = used > 0 and used + height > room
        used = height if breaks else used + height
        yield breaks


def is_tall(score: Engravable) -> bool:
    """The groove fills so much of an opening page that the cards have to stand above it."""
    return _music(score) > TALL


def _height(score: Engravable, letters: int) -> float:
    return HEAD + TASK_LINE * (letters // LETTERS_A_LINE) + _music(score)


def _music(score: Engravable) -> float:
    line = LINE + ROW * len(score.rows) + RIBBON * bool(score.ribbons) + BRACKETS * score.has_tuplets
    return line * score.lines
