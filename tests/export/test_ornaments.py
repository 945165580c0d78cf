"""Flams, drags, ruffs, doubles, buzzes and chokes as they are played. The lengths are ours; so are the velocities."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from engraver.export.hits import hits
from engraver.rhythm import Instrument, Ornament, Stroke, Touch
from engraver.style import VELOCITIES
from tests.export.conftest import Performed, lanes

F = Fraction
Play = Callable[..., Performed]


def struck(play: Play, mark: str, step: str = "sixteenth", length: int = 16) -> list[tuple[Fraction, int]]:
    """Onsets from the marked stroke on, which is the second step, and velocities."""
    heard = play(f"step: {step}\n" + lanes(snare="-" + mark + "-" * (length - 2)))
    return [(note.onset - F(1, length), note.velocity) for note in heard.drums]


@pytest.mark.parametrize(
    ("mark", "expected"),
    [
        ("f", [(F(-1, 64), 48), (F(0), 80)]),
        ("F", [(F(-1, 64), 48), (F(0), 112)]),
        ("d", [(F(-2, 64), 48), (F(-1, 64), 48), (F(0), 80)]),
        ("r", [(F(-3, 64), 48), (F(-2, 64), 48), (F(-1, 64), 48), (F(0), 80)]),
        ("=", [(F(0), 80), (F(1, 32), 80)]),
        ("z", [(F(0), 80), (F(1, 64), 40), (F(2, 64), 40), (F(3, 64), 40)]),
        ("Z", [(F(0), 112), (F(1, 64), 40), (F(2, 64), 40), (F(3, 64), 40)]),
    ],
)
def test_ornaments_of_a_sixteenth(play: Play, mark: str, expected: list[tuple[Fraction, int]]) -> None:
    assert struck(play, mark) == expected


def test_graces_stay_within_the_step_before_where_steps_are_short(play: Play) -> None:
    assert struck(play, "r", "thirty-second", 32) == [
        (F(-3, 128), 48), (F(-2, 128), 48), (F(-1, 128), 48), (F(0), 80)
    ]  # fmt: skip


def test_a_buzz_fills_an_eighth_triplet_evenly(play: Play) -> None:
    assert [onset for onset, _ in struck(play, "z", "eighth triplet", 12)] == [F(n, 72) for n in range(6)]


def test_a_flam_on_the_first_beat_begins_in_the_count_in(play: Play) -> None:
    assert play(lanes(snare="f---------------")).onsets == [F(-1, 64), F(0)]


def test_a_choked_cymbal_is_a_quarter_as_long(play: Play) -> None:
    free, choked = play(lanes(crash="x-------c-------")).drums
    assert (free.length, choked.length) == (F(1, 16), F(1, 64))


@pytest.mark.parametrize("ornament", list(Ornament))
def test_nothing_around_a_ghost_note_is_louder_than_it_is(ornament: Ornament) -> None:
    stroke = Stroke(F(0), Instrument("snare"), Touch.GHOST, ornament)
    assert {hit.velocity for hit in hits(stroke, 38, VELOCITIES)} == {32}


def test_the_rebound_of_an_accented_double_is_no_accent() -> None:
    stroke = Stroke(F(0), Instrument("snare"), Touch.ACCENT, Ornament.DOUBLE)
    assert [hit.velocity for hit in hits(stroke, 38, VELOCITIES)] == [112, 80]


def test_of_two_sounds_with_one_key_at_one_moment_the_harder_is_heard(play: Play) -> None:
    """General MIDI has one key for the open hi-hat, however far it is open."""
    silence = "-" * 15
    both = play(lanes(**{"half-open hi-hat": "X" + silence, "open hi-hat": "g" + silence}))
    assert [(note.key, note.velocity) for note in both.drums] == [(46, 112)]
    other = play(lanes(**{"half-open hi-hat": "g" + silence, "open hi-hat": "X" + silence}))
    assert other.drums == both.drums
