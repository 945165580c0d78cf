"""What stands around the strokes: count-in, click, tempo, time signatures, markers."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from io import BytesIO

import mido
import pretty_midi
import pytest

from engraver.errors import NotationError
from engraver.export import Click, midi_file, pieces
from engraver.style import Style
from tests.export.conftest import Performed, lanes, performed, piece, plan_of, timed

F = Fraction
Play = Callable[..., Performed]
FIVES = """
bars: 2
layers:
  - name: Fives
    strokes:
      bass drum: {cycle: "xx---"}
      crash: {cycle: "X----"}
cells: {length: 5}
"""
TRIPLETS = """
step: eighth triplet
bars: 3
layers:
  - name: Fives
    strokes:
      bass drum: {cycle: "xx---"}
cells: {length: 5}
"""


def test_of_two_barlings_the_file_has_the_first_and_says_so() -> None:
    found = [piece for piece in pieces(plan_of(FIVES)) if piece.twice]
    assert [piece.title for piece in found] == ["One phrase, two bar lines"]
    texts = [m.text for m in mido.MidiFile(file=BytesIO(midi_file(found[0], Style()))).tracks[0] if m.type == "text"]
    assert texts[1] == "barred by the cell; as it is counted the strokes are the same"


def clicks(heard: Performed) -> list[tuple[Fraction, str]]:
    return [(note.onset, pretty_midi.note_number_to_drum_name(note.key)) for note in heard.click]


HIGH, LOW = "Hi Wood Block", "Low Wood Block"


def test_a_bar_is_counted_in_beat_by_beat(play: Play) -> None:
    heard = play(lanes(snare="x---------------"))
    assert clicks(heard) == [(F(-4, 4), HIGH), (F(-3, 4), LOW), (F(-2, 4), LOW), (F(-1, 4), LOW)]
    assert heard.signs[:2] == ((F(-1), "count-in"), (F(0), "bar 1"))


@pytest.mark.parametrize(
    ("meter", "beats"),
    [
        ("6/8", [F(-6, 8), F(-3, 8)]),
        ("(2+2+3)/8", [F(-7, 8), F(-5, 8), F(-3, 8)]),
        ("3/4", [F(-3, 4), F(-2, 4), F(-1, 4)]),
    ],
)
def test_the_beats_counted_are_those_of_the_meter(play: Play, meter: str, beats: list[Fraction]) -> None:
    heard = play(f'meter: {meter}\nstep: eighth\nlayers: [{{name: One, strokes: {{snare: {{cycle: "x"}}}}}}]')
    assert [onset for onset, _ in clicks(heard)] == beats


def test_before_a_pickup_the_count_goes_on_to_where_it_begins(play: Play) -> None:
    lane = '      snare: {pickup: "xx", bar 1: "x-------"}\n'
    heard = play("step: eighth\npickup: 2\nlayers:\n  - name: Lane\n    strokes:\n" + lane, click=Click.BEAT)
    assert heard.lead == F(7, 4)
    assert [onset for onset, _ in clicks(heard)] == [F(n, 4) for n in range(-7, 5)]
    assert [onset for onset, sound in clicks(heard) if sound == HIGH] == [F(-7, 4), F(-3, 4), F(1, 4)]
    assert heard.onsets == [F(0), F(1, 8), F(1, 4)]
    assert [text for _, text in heard.signs] == ["count-in", "pickup", "bar 1"]
    assert signatures(heard) == [(F(-7, 4), 4, 4, 24)]  # the pickup ends the second bar


def test_the_click_goes_on_with_the_beat_if_wanted(play: Play) -> None:
    heard = play("bars: 2\n" + lanes(snare="x---------------"), click=Click.BEAT)
    assert [onset for onset, _ in clicks(heard)] == [F(n, 4) for n in range(-4, 8)]
    assert [onset for onset, sound in clicks(heard) if sound == HIGH] == [F(-1), F(0), F(1)]


def test_the_click_falls_on_the_cells_if_wanted(play: Play) -> None:
    heard = play(FIVES, click=Click.CELL)
    cells = [F(5 * n, 16) for n in range(7)]  # the last is cut off after two of its five steps
    assert [onset for onset, _ in clicks(heard) if onset >= 0] == cells
    assert [(onset, text) for onset, text in heard.signs if text == "cell A"] == [(onset, "cell A") for onset in cells]


def test_a_window_has_the_cells_that_begin_in_it_without_their_letters(play: Play) -> None:
    """Cells begin on steps 0, 5 ... 30; 20, 25 and 30 lie in the second bar, which begins on step 16."""
    heard = play(FIVES + "exercises: [{title: Bar two, bars: 2, repeats: 2}]\n", 1, click=Click.CELL)
    once = [F(4, 16), F(9, 16), F(14, 16)]
    assert [onset for onset, text in heard.signs if text == "cell"] == [*once, *(onset + 1 for onset in once)]


def test_a_window_that_goes_on_after_the_end_has_the_cells_of_the_first_bar(play: Play) -> None:
    """The bar of the fill, then bar 1, whose cells begin on steps 0, 5, 10 and 15."""
    fill = "  - {name: Fill, role: fill, bars: 2, beats: 4, silence: all, strokes: {snare: xxxx}}\n"
    text = FIVES.replace("cells:", fill + "cells:") + "exercises: [{kind: fills, repeats: 1}]\n"
    heard = play(text, 1)
    steps = [onset * 16 for onset, sign in heard.signs if sign == "cell"]
    assert steps == [4, 9, 14, 16, 21, 26, 31]


def test_the_tempo_is_told_in_the_note_values_of_the_file(play: Play) -> None:
    """A cell of a triplet grid is written in eighths, three of which are a beat of the groove."""
    plain, respelled = (
        next(m.text for m in play(TRIPLETS + exercises, 1).file.tracks[0] if m.type == "text")
        for exercises in ("exercises: [{title: All, tempo: {from: 120, to: 120}}]\n", "exercises: [{kind: cycle}]\n")
    )
    assert plain == "quarter = 120" and respelled.startswith("dotted quarter = 120, after ")


def test_cells_of_a_triplet_grid_stand_in_the_time_of_the_groove(play: Play) -> None:
    heard = play(TRIPLETS, click=Click.CELL)
    assert [onset for onset, _ in clicks(heard) if onset >= 0] == [F(5 * n, 12) for n in range(8)]


def test_where_no_cells_are_known_the_click_falls_on_the_beat(play: Play) -> None:
    text = lanes(snare="x---------------")
    assert clicks(play(text, click=Click.CELL)) == clicks(play(text, click=Click.BEAT))


@pytest.mark.parametrize(
    ("beat", "bpm", "microseconds"),
    [("quarter", 120, 500_000), ("dotted quarter", 60, 666_667), ("eighth", 120, 1_000_000), ("half", 60, 500_000)],
)
def test_the_tempo_is_that_of_its_beat(play: Play, beat: str, bpm: int, microseconds: int) -> None:
    """A minute is 60,000,000 microseconds; the file counts quarters, to the nearest microsecond."""
    text = f"title: Timed\ntempo: {{beat: {beat}, bpm: {bpm}}}\n" + lanes(snare="x---------------")
    tempos = [message.tempo for message in play(text).file.tracks[0] if message.type == "set_tempo"]
    assert tempos == [microseconds]


def test_an_exercise_is_at_its_goal_and_names_the_tempos_before_it(play: Play) -> None:
    own = "exercises:\n  - {title: Loop, tempo: {from: 60, to: 100, by: 20}}\n"
    conductor = play(lanes(snare="x---------------") + own, 1).file.tracks[0]
    assert [message.text for message in conductor if message.type == "text"] == ["quarter = 100, after 60, 80"]
    assert [message.tempo for message in conductor if message.type == "set_tempo"] == [600_000]


def test_a_pickup_is_played_once_and_what_comes_after_it_again_and_again(play: Play) -> None:
    """The last exercise: two sixteenths, then eight times one bar of 4/4."""
    text = """
pickup: 2
layers:
  - name: Hand
    strokes:
      snare: {pickup: "xx", bar 1: "x---x---x---x---"}
"""
    heard = play(text, -1)
    beats = [F(2, 16) + F(n, 4) for n in range(32)]
    assert heard.onsets == [F(0), F(1, 16), *beats]
    assert [sign for _, sign in heard.signs] == ["count-in", "pickup", *["bar 1"] * 8]


def test_a_tempo_that_three_bytes_cannot_hold_is_refused() -> None:
    text = "title: Crawl\ntempo: {beat: thirty-second, bpm: 20}\n" + lanes(snare="x---------------")
    with pytest.raises(NotationError, match=r"Crawl: thirty-second = 20 is slower than a MIDI file can say"):
        midi_file(piece(text), Style())


def test_a_triplet_grid_that_is_respelled_keeps_its_speed() -> None:
    """The loops of cells have plain eighths for the triplet's; an eighth triplet at 120 lasts a sixth of a second."""
    loop = next(piece for piece in pieces(plan_of(TRIPLETS)) if piece.passage.scale != 1)
    heard = performed(midi_file(loop, Style()))
    tempo = next(message.tempo for message in heard.file.tracks[0] if message.type == "set_tempo")
    first, second = heard.drums[:2]
    assert second.onset - first.onset == F(1, 8)
    assert (second.onset - first.onset) * 4 * tempo == pytest.approx(1_000_000 / 6, abs=1)


def signatures(heard: Performed) -> list[tuple[Fraction, int, int, int]]:
    whole = 4 * heard.file.ticks_per_beat
    return [
        (F(tick, whole) - heard.lead, m.numerator, m.denominator, m.clocks_per_click)
        for tick, m in timed(heard.file.tracks[0])
        if m.type == "time_signature"
    ]


def test_time_signatures_stand_where_the_meter_changes(play: Play) -> None:
    """24 clocks a quarter (SMF 1.0): 36 a dotted quarter; 12, the eighth, where the beats of a bar are uneven."""
    text = """
step: eighth
bars: 4
meter: {bars 1-2: 4/4, bar 3: 6/8, bar 4: (2+3)/8}
layers: [{name: One, strokes: {snare: {cycle: "x"}}}]
"""
    assert signatures(play(text)) == [(F(-1), 4, 4, 24), (F(2), 6, 8, 36), (F(11, 4), 5, 8, 12)]


def test_a_window_of_two_beats_is_a_bar_of_two_beats(play: Play) -> None:
    own = "exercises:\n  - {title: Half, beats: 3-4, repeats: 2}\n"
    heard = play(lanes(snare="--------x---x---") + own, 1)
    assert signatures(heard) == [(F(-1), 4, 4, 24), (F(0), 2, 4, 24)]
    assert heard.onsets == [F(0), F(1, 4), F(2, 4), F(3, 4)]


def test_the_tracks_are_named(play: Play) -> None:
    own = "exercises:\n  - {title: Loop}\n"
    assert [track.name for track in play(lanes(snare="x---------------") + own, 1).file.tracks] == [
        "Example", "Loop", "Click"
    ]  # fmt: skip


def test_all_tracks_are_as_long_as_the_music(play: Play) -> None:
    heard = play(FIVES, click=Click.CELL)
    assert [timed(track)[-1][0] for track in heard.file.tracks] == [3 * 4 * heard.file.ticks_per_beat] * 3


def test_a_file_speaks_the_language_of_its_book() -> None:
    """The words are ours; that no English one is left in a German file is the point."""
    found = next(piece for piece in pieces(plan_of(FIVES)) if piece.twice)
    conductor, _, click = mido.MidiFile(file=BytesIO(midi_file(found, Style(language="de"))), charset="utf-8").tracks
    said = [message.text for message in conductor if message.type in ("text", "marker")]
    assert said[0].startswith("Viertel = ") and ", nach " in said[0]
    assert said[1:5] == [
        "nach der Zelle in Takte gefasst; so, wie gezählt wird, sind die Schläge dieselben",
        "Vorzähler",
        "Takt 1",
        "Zelle A",
    ]
    assert click.name == "Klick"
