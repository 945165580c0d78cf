"""What stands over the first time signature: an equation of two notes with a triplet figure, or words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from engraver.chapters import Passage
from engraver.lilypond.tempo import Mark, staff_mark
from engraver.rhythm import Groove, Meter, Span
from engraver.style import Style, TempoLook
from tests.analysis.patterns import groove, layer

EIGHTH = Fraction(1, 8)
PLAIN = groove([layer("All", {"snare": "x-x-x-x-x-x-x-x-" * 2})], bars=2)
SWUNG = replace(PLAIN, swing=EIGHTH)


def mark(
    made: Groove, offset: Fraction = Fraction(0), scale: Fraction = Fraction(1), style: Style | None = None
) -> Mark:
    return staff_mark(Passage("", made, offset, scale=scale), SWUNG, style or Style())


def test_a_straight_groove_has_a_mark_only_for_its_tempo() -> None:
    passage = Passage("", PLAIN)
    assert not staff_mark(passage, PLAIN, Style())
    assert staff_mark(passage, PLAIN, Style(), with_tempo=True).tempo[:2] == (2, 0)


def test_bars_that_begin_with_a_pair_have_the_equation() -> None:
    assert mark(SWUNG) == Mark(swung=8)
    second_half = SWUNG.slice(Span(Fraction(1, 2), Fraction(1)))
    assert mark(second_half, offset=Fraction(1, 2)) == Mark(swung=8)


def test_bar_lines_that_part_pairs_have_words() -> None:
    """Bars of five eighths: the second begins in the middle of a pair of the groove."""
    fives = SWUNG.slice(Span(Fraction(0), Fraction(10, 8))).regroup([Meter.of(5, 8)] * 2)
    assert mark(fives) == Mark(feel="swung eighths, paired as in the whole groove")


def test_a_passage_that_begins_between_two_swung_notes_has_words() -> None:
    offbeat = SWUNG.slice(Span(EIGHTH, Fraction(5, 8)))
    assert mark(offbeat, offset=EIGHTH).swung == 0 and mark(offbeat, offset=EIGHTH).feel


def test_a_grid_that_was_respelled_is_not_swung() -> None:
    assert not mark(SWUNG, scale=Fraction(3, 2))


def test_a_style_of_words_has_no_equation() -> None:
    assert mark(SWUNG, style=Style(tempo=TempoLook.BPM)) == Mark(feel="swung eighths")
