"""Swing as it is heard. Source of two to one: the sign that equates two eighths with a triplet's quarter and eighth."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from engraver.export import Click
from engraver.export.swing import Feel
from tests.export.conftest import Performed, lanes, plan_of

F = Fraction
Play = Callable[..., Performed]
EIGHTHS = "step: eighth\nswing: eighth\n"


def test_the_second_eighth_of_a_beat_is_the_third_of_a_triplet(play: Play) -> None:
    assert play(EIGHTHS + lanes(snare="xxxxxxxx")).onsets == [F(n, 12) for n in (0, 2, 3, 5, 6, 8, 9, 11)]


def test_without_swing_they_are_even(play: Play) -> None:
    assert play("step: eighth\n" + lanes(snare="xxxxxxxx")).onsets == [F(n, 8) for n in range(8)]


def test_sixteenths_are_swung_where_the_author_says_so(play: Play) -> None:
    heard = play("swing: sixteenth\n" + lanes(snare="xxxx----x-------"))
    assert heard.onsets == [F(0), F(1, 12), F(1, 8), F(5, 24), F(1, 2)]


def test_sixteenths_within_swung_eighths_share_their_long_and_short_halves(play: Play) -> None:
    heard = play("swing: eighth\n" + lanes(snare="xxxxx-----------"))
    assert heard.onsets == [F(0), F(1, 12), F(2, 12), F(5, 24), F(3, 12)]


def test_triplets_are_triplets_whether_in_brackets_or_a_grid(play: Play) -> None:
    third = [F(0), F(1, 12), F(2, 12)]
    assert play("swing: eighth\n" + lanes(snare="(xxx)4 ---- ---- ----")).onsets == third
    assert play("swing: eighth\nstep: eighth triplet\n" + lanes(snare="xxx---------")).onsets == third
    sixes = play("swing: eighth\nstep: sixteenth triplet\n" + lanes(snare="xxxxxx" + "-" * 18)).onsets
    assert sixes == [F(n, 24) for n in range(6)]


def test_a_tuplet_in_the_time_of_a_swung_eighth_swings_with_it(play: Play) -> None:
    heard = play("swing: eighth\n" + lanes(snare="--(xxx)2 x--- ---- ----"))
    assert heard.onsets == [F(6, 36), F(7, 36), F(8, 36), F(9, 36)]


def test_the_odd_eighth_of_a_beat_of_three_is_straight(play: Play) -> None:
    heard = play("meter: (2+3)/8\n" + EIGHTHS + lanes(snare="xxxxx"))
    assert heard.onsets == [F(0), F(1, 6), F(2, 8), F(2, 8) + F(1, 6), F(4, 8)]


def test_a_pickup_is_swung_as_the_end_of_its_bar(play: Play) -> None:
    lane = '      snare: {pickup: "x", bar 1: "xx------"}\n'
    heard = play(EIGHTHS + "pickup: 1\nlayers:\n  - name: Lane\n    strokes:\n" + lane)
    assert heard.onsets == [F(1, 24), F(1, 8), F(1, 8) + F(1, 6)]


def test_a_double_is_swung_inside(play: Play) -> None:
    assert play(EIGHTHS + lanes(snare="==------")).onsets == [F(0), F(1, 12), F(2, 12), F(5, 24)]


def test_an_exercise_of_the_second_half_of_a_bar_swings_as_in_the_bar(play: Play) -> None:
    own = "exercises:\n  - {title: Half, beats: 3-4, repeats: 2}\n"
    heard = play(EIGHTHS + lanes(snare="----xxxx") + own, 1)
    assert heard.onsets == [F(n, 12) for n in (0, 2, 3, 5, 6, 8, 9, 11)]


def test_the_beat_is_not_swung(play: Play) -> None:
    heard = play(EIGHTHS + lanes(snare="xxxxxxxx"), click=Click.BEAT)
    assert [note.onset for note in heard.click] == [F(n, 4) for n in range(-4, 4)]


PICKUP = EIGHTHS + "pickup: 1\nlayers: [{name: One, strokes: {snare: {pickup: x, bar 1: xxxxxxxx}}}]"


def test_a_window_that_begins_in_the_middle_of_a_beat_keeps_the_place_of_its_strokes() -> None:
    feel = Feel(plan_of(EIGHTHS + lanes(snare="xxxxxxxx")).groove, offset=F(1, 8))
    assert [feel.sounds(F(n, 8)) for n in range(3)] == [F(1, 24), F(1, 8), F(2, 8) + F(1, 24)]


def test_after_the_last_bar_comes_the_first_not_the_pickup() -> None:
    feel = Feel(plan_of(PICKUP).groove, offset=F(1, 8) + F(6, 8))  # beat 4
    assert [feel.sounds(F(n, 8)) for n in range(4)] == [F(0), F(1, 6), F(2, 8), F(2, 8) + F(1, 6)]


def test_what_is_written_in_longer_notes_is_later_by_as_much() -> None:
    feel = Feel(plan_of(EIGHTHS + lanes(snare="xxxxxxxx")).groove, scale=F(2))
    assert [feel.sounds(F(n, 4)) for n in range(3)] == [F(0), F(2, 6), F(2, 4)]
