"""Passages in words: what is counted and struck, worked out by hand for each pattern."""

from __future__ import annotations

from fractions import Fraction

from engraver import definition
from engraver.chapters.spoken import sentence, spoken
from engraver.style import Style


def told(text: str, style: Style | None = None) -> list[str]:
    style = style or Style()
    groove = definition.to_groove(definition.parse_groove(f"title: T\ntempo: 90\n{text}"))
    return [sentence(bar, style.say) for bar in spoken(groove, style, style.say)]


def lane(instrument: str, pattern: str) -> str:
    return f"layers: [{{name: A, strokes: {{{instrument}: '{pattern}'}}}}]"


def test_every_mark_is_said_on_its_count() -> None:
    """Four sixteenths to a beat are counted 1 e & a (common practice, no source)."""
    assert told(lane("snare", "xX-g f-dR zZ=- ---x")) == [
        "Bar 1: 1 snare; 1 e snare accent; 1 a snare ghost note; 2 snare flam; 2 & snare drag; "
        "2 a snare accented ruff; 3 snare buzz; 3 e snare accented buzz; 3 & snare double; 4 a snare"
    ]


def test_what_sounds_together_is_told_together() -> None:
    text = "step: eighth\nlayers: [{name: A, strokes: {snare: '--X---X-', crash: 'c-------', bass drum: 'x---x---'}}]"
    assert told(text) == ["Bar 1: 1 bass drum, crash choked; 2 snare accent; 3 bass drum; 4 snare accent"]


def test_bars_that_are_alike_are_told_once() -> None:
    lines = "bars: 4\nstep: quarter\nlayers: [{name: A, strokes: {snare: {'bars 1,2': 'x---', bar 4: '---x'}}}]"
    assert told(lines) == ["Bars 1 to 2: 1 snare", "Bar 3: silence", "Bar 4: 4 snare"]


def test_triplets_have_their_own_syllables() -> None:
    assert told("step: eighth triplet\n" + lane("snare", "xxx --- --- ---")) == [
        "Bar 1: 1 snare; 1 trip snare; 1 let snare"
    ]


def test_a_stroke_between_counts_is_told_by_its_distance_from_the_last() -> None:
    assert told("step: eighth\n" + lane("snare", "(xxx)2 ------")) == [
        "Bar 1: 1 snare; 2/3 of eighth after 1 snare; 1/3 of eighth after 1 & snare"
    ]


def test_a_pickup_is_counted_as_the_end_of_a_bar() -> None:
    text = "pickup: 2\nstep: eighth\nlayers: [{name: A, strokes: {snare: {pickup: 'xx', bar 1: 'x-------'}}}]"
    assert told(text) == ["Pickup: 4 snare; 4 & snare", "Bar 1: 1 snare"]


def test_both_hands_are_said_where_both_strike() -> None:
    text = "step: quarter\nlayers: [{name: A, strokes: {ride: 'xxxx', snare: '-x-x'}}]\nsticking: {hands: 'RBRB'}"
    assert told(text) == [
        "Bar 1: 1 ride right hand; 2 ride, snare, both hands; 3 ride right hand; 4 ride, snare, both hands"
    ]


def test_a_word_that_is_said_stands_with_its_count() -> None:
    style = Style()
    groove = definition.to_groove(
        definition.parse_groove("title: T\ntempo: 90\nstep: quarter\n" + lane("snare", "x-x-"))
    )
    [bar] = spoken(groove, style, style.say, ((Fraction(0), "hand"), (Fraction(1, 2), "both")))
    assert sentence(bar, style.say) == "Bar 1: 1, say “hand”: snare; 3, say “both”: snare"


def test_sides_are_said_and_turn_with_a_left_handed_reading() -> None:
    text = "step: quarter\n" + lane("snare", "xxxx") + "\nsticking: {hands: 'RLRL'}"
    assert told(text)[0].startswith("Bar 1: 1 snare right hand; 2 snare left hand")
    assert told(text, Style(left_handed=True))[0].startswith("Bar 1: 1 snare left hand; 2 snare right hand")
