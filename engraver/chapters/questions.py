"""Questions that the chapter asks of its own accord, each with an answer that follows from the analysis."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from engraver.analysis import Analysis
from engraver.chapters.plan import Question
from engraver.definition import GrooveDefinition
from engraver.prose import plain
from engraver.rhythm import Groove
from engraver.style import Words

LONGEST_ROW = 24  # places of a strip that a student still reads as one


def questions(definition: GrooveDefinition, groove: Groove, facts: Analysis, words: Words) -> tuple[Question, ...]:
    """The author's own come first; then how many cells twice the phrase holds; then what would make a mirror."""
    own = tuple(Question(asked.question, asked.answer) for asked in definition.questions)
    return own + tuple(_length(groove, facts, words)) + tuple(_mirror(facts, words))


def _length(groove: Groove, facts: Analysis, say: Words) -> Iterator[Question]:
    cells = facts.cells
    if (
        cells is None
        or not cells.sure
        or cells.start
        or not cells.remainder
        or len({b.length for b in groove.bars}) > 1
    ):
        return
    now = int(facts.phrase.length / groove.bars[0].length)
    bars = 2 * now
    total = 2 * cells.phrase_steps
    whole, rest = divmod(total, cells.length)
    end = say("answer rest", n=rest, count=say.number(rest).capitalize()) if rest else say("answer no rest")
    asked = say("question length", bars=say("n bars", n=bars), now=now)
    answer = say(
        "answer length",
        bars=say("n bars", n=bars),
        total=total,
        cell=say.number(cells.length),
        cells=whole,
        used=whole * cells.length,
        rest=end,
    )
    yield Question(plain(asked), plain(answer))


def _mirror(facts: Analysis, say: Words) -> Iterator[Question]:
    sequence, cells = facts.full_sequence, facts.cells
    if sequence is None or cells is None or not cells.sure or not sequence.mirror_continuation:
        return
    row = cells.full + sequence.mirror_continuation
    if len(row) > LONGEST_ROW or len(sequence.mirror_continuation) > len(cells.full) // 2:
        return
    centre = Fraction(len(row) - 1, 2)
    letters = ", ".join(sequence.mirror_continuation)
    answer = say("answer mirror", letters=letters, n=len(row), where=where(row, centre, say))
    yield Question(plain(say("question mirror", n=len(sequence.mirror_continuation))), plain(answer), row, centre)


def where(row: tuple[str, ...], centre: Fraction, say: Words) -> str:
    """On which place the axis stands, or between which two; places count from 1."""
    place = int(centre) + 1
    if centre.denominator == 1:
        return say("on place", place=place, letter=row[int(centre)])
    return say("between places", place=place, next=place + 1)
