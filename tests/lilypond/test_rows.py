"""Words under the staff: syllables, sticking, and where the author's bars begin. Expected rows are counted by hand."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest

from engraver.analysis.limbs import assign, carry
from engraver.definition import parse_groove, to_groove
from engraver.lilypond.rows import bar_starts, counting, sticking, words_at
from engraver.rhythm import Groove
from engraver.style import Style, syllable_sets, words

SAY = words("en")
KIT = Style().kit


def groove(layer: str = 'snare: {cycle: "x"}', **keys: str) -> Groove:
    lines = "".join(f"{key}: {value}\n" for key, value in {"title": "T", "tempo": "90", **keys}.items())
    return to_groove(parse_groove(f"{lines}layers: [{{name: A, strokes: {{{layer}}}}}]\n"))


def said(text: str) -> list[tuple[str, str]]:
    """Each word of a row of lyrics with its length, a skip as an empty one."""
    return [(word or "", length) for word, length in re.findall(r'(?:"([^"]*)"|\\skip )1\*(\S+)', text)]


def test_a_word_lasts_until_the_next_and_the_last_to_the_end() -> None:
    row = words_at({Fraction(1, 8): "a", Fraction(1, 2): 'b"'}, Fraction(1))
    assert row.split() == ["\\skip", "1*1/8", '"a"1*3/8', '"b\\""1*1/2']


# Counting aloud by e & a, & and trip-let is common practice, no source.
COUNTS = [
    ("4/4", "sixteenth", "1 e & a 2 e & a 3 e & a 4 e & a"),
    ("4/4", "eighth", "1 & 2 & 3 & 4 &"),
    ("3/4", "quarter", "1 2 3"),
    ("4/4", "eighth triplet", "1 trip let 2 trip let 3 trip let 4 trip let"),
    ("7/8", "eighth", "1 2 3 4 5 6 7"),
    ("7/8", "sixteenth", "1 & 2 & 3 & 4 & 5 & 6 & 7 &"),
    ("6/8", "eighth", "1 2 3 4 5 6"),
]


@pytest.mark.parametrize(("meter", "step", "expected"), COUNTS, ids=lambda value: value if len(value) < 15 else "")
def test_a_bar_is_counted(meter: str, step: str, expected: str) -> None:
    made = groove(meter=meter, step=step)
    row = counting(made, made.bars, Style(), SAY)
    assert row is not None
    assert [word for word, _ in said(row.text)] == expected.split()
    assert sum(Fraction(length) for _, length in said(row.text)) == made.length


# Sets of three public teaching pages, which differ among themselves; the German ones are common practice, no source.
SETS = [
    ("1 e + a", "sixteenth", "1 e + a"),
    ("1 e + a", "eighth triplet", "1 la li"),
    ("1 & a", "eighth triplet", "1 & a"),
    ("1 e und e", "sixteenth", "1 e und e"),
    ("1 e + te", "eighth", "1 +"),
]


@pytest.mark.parametrize(("name", "step", "expected"), SETS)
def test_a_beat_is_counted_in_the_syllables_of_the_style(name: str, step: str, expected: str) -> None:
    made = groove(meter="1/4", step=step)
    row = counting(made, made.bars, replace(Style(), syllables=syllable_sets()[name]), SAY)
    assert row is not None
    assert [word for word, _ in said(row.text)] == expected.split()


def test_sticking_stands_where_that_limb_strikes_and_turns_round_for_the_left_handed() -> None:
    made = groove('snare: "x-xx", bass drum: "x---"', step="quarter", sticking='{hands: "R-LR", feet: "R---"}')
    hands, feet = sticking(made, lambda: assign(made, KIT.places()), Style(), SAY)
    assert [(hands.name, said(hands.text)), (feet.name, said(feet.text))] == [
        ("hands", [("R", "1/2"), ("L", "1/4"), ("R", "1/4")]),
        ("feet", [("R", "1")]),
    ]
    left, _ = sticking(made, lambda: assign(made, KIT.places()), replace(Style(), left_handed=True), SAY)
    assert [word for word, _ in said(left.text)] == ["L", "R", "L"]


def test_both_hands_stay_both_for_the_left_handed() -> None:
    made = groove('snare: "x---", ride: "x---"', step="quarter", sticking='{hands: "B---"}')
    [row] = sticking(made, lambda: assign(made, KIT.places()), replace(Style(), left_handed=True), SAY)
    assert [word for word, _ in said(row.text)] == ["B"]


def test_where_one_stroke_of_both_is_left_out_the_letter_is_of_the_other() -> None:
    whole = groove('ride: "x-x-", snare: "--x-"', step="quarter", sticking='{hands: "R-B-"}')
    played = assign(whole, KIT.places())
    for left_out, letters in (("snare", ["R", "R"]), ("ride", ["L"])):
        part = whole.only(lambda stroke, name=left_out: stroke.instrument.name != name)  # type: ignore[misc]
        [row] = sticking(part, lambda part=part: carry(played, part, Fraction(0)), Style(), SAY)  # type: ignore[misc]
        assert [word for word, _ in said(row.text) if word] == letters


def test_the_author_s_bars_are_marked_in_the_times_of_the_view() -> None:
    made = groove(bars="3", step="eighth triplet")
    row = bar_starts(made.bars, Fraction(3, 2), made.length * Fraction(3, 2), SAY)
    assert said(row.text) == [("bar 1", "3/2"), ("bar 2", "3/2"), ("bar 3", "3/2")]


def test_a_pickup_is_no_bar() -> None:
    made = groove('snare: {pickup: "x", bars 1-2: "x---x---"}', bars="2", step="eighth", pickup="1")
    row = bar_starts(made.bars, Fraction(1), made.length, SAY)
    assert said(row.text) == [("", "1/8"), ("bar 1", "1"), ("bar 2", "1")]
