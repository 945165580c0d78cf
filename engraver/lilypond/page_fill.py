"""Which exercises begin a page, and whether the groove fits on its opening page. Millimetres.

LilyPond guesses how much a page holds before it has set the music, and its guess leaves out tuplet brackets, ribbons
and the rows of text; where its page would be too full, the break is written out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from engraver.lilypond.passage import Engravable

# measured on engraved pages of the workbook design, rounded up
HEAD, LINE, ROW, RIBBON, BRACKETS, TASK_LINE = 15.6, 23.0, 5.5, 6.0, 11.0, 5.0
MARGINS = 43.0
ENDINGS = 9.0
LETTERS_A_LINE = 78
TITLE, HEADING, RULER, LEGEND, CARDS, KEY_ROW = 30.0, 14.0, 18.0, 5.5, 30.0, 64.0
TEXT_LETTERS, FINDING_LETTERS = 66, 80


def first_on_page(exercises: Iterable[tuple[Engravable, int]], page_height: float) -> Iterator[bool]:
    """For each exercise, given with the number of letters of its sentence: does it begin a new page?"""
    room, used = page_height - MARGINS, 0.0
    for score, letters in exercises:
        height = _height(score, letters)
        breaks = used > 0 and used + height > room
        used = height if breaks else used + height
        yield breaks


@dataclass(frozen=True, slots=True)
class Opening:
    """What stands above the groove on an opening page: letters of each text, rows of the ruler, cards or none."""

    text: int
    rulers: int
    findings: tuple[int, ...]
    cards: bool


def groove_turns(opening: Opening, score: Engravable, page_height: float) -> bool:
    """The groove has no room on the opening page and begins the next one."""
    return _above(opening) + HEADING + _music(score) > page_height - MARGINS


def key_turns(opening: Opening, score: Engravable, key_rows: int, page_height: float) -> bool:
    """The cell key has no room under the groove, wherever that stands."""
    above = 0.0 if groove_turns(opening, score, page_height) else _above(opening)
    return above + 2 * HEADING + _music(score) + KEY_ROW * key_rows > page_height - MARGINS


def _above(opening: Opening) -> float:
    used = TITLE + _lines(opening.text, TEXT_LETTERS) + CARDS * opening.cards
    if opening.rulers:
        used += HEADING + RULER * opening.rulers + LEGEND
    if opening.findings:
        used += LEGEND * 2 + sum(_lines(letters, FINDING_LETTERS) for letters in opening.findings)
    return used


def _lines(letters: int, a_line: int) -> float:
    return TASK_LINE * -(-letters // a_line)


def _height(score: Engravable, letters: int) -> float:
    return HEAD + TASK_LINE * (letters // LETTERS_A_LINE) + _music(score)


def _music(score: Engravable) -> float:
    line = LINE + ROW * len(score.rows) + RIBBON * bool(score.ribbons) + BRACKETS * score.has_tuplets
    return line * score.lines + ENDINGS * score.has_endings
