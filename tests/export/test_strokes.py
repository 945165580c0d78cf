"""Every stroke sounds at its moment, on its key, as hard as it is written."""

from __future__ import annotations

import csv
from collections.abc import Callable
from fractions import Fraction
from io import BytesIO
from pathlib import Path

import pretty_midi
import pytest
from hypothesis import given, settings

from engraver.chapters import Passage
from engraver.export import Click, Piece, midi_file, pieces
from engraver.rhythm import Groove, Touch
from engraver.style import Style, standard_kit
from tests.export.conftest import Performed, lanes, performed, piece, plan_of
from tests.properties.strategies import grooves

F = Fraction
Play = Callable[..., Performed]
PLACES = Path(__file__).parents[1] / "sources" / "drumset_positions.csv"
TABLE = {Touch.GHOST: 32, Touch.PLAIN: 80, Touch.ACCENT: 112}  # ours: MIDI gives no numbers for them


def due(groove: Groove, times: int) -> list[tuple[Fraction, int, int]]:
    """What must sound where nothing has an ornament; repeats are written out by the groove itself."""
    keys = {row.instrument: row.key for row in standard_kit().rows}
    whole = groove.performed()
    return sorted(
        (stroke.onset + turn * whole.length, keys[stroke.instrument], TABLE[stroke.touch])
        for turn in range(times)
        for stroke in whole.strokes
    )


@settings(max_examples=60, deadline=None)
@given(grooves())
def test_every_stroke_is_at_its_moment_with_its_key_and_velocity(groove: Groove) -> None:
    plain = groove.only(lambda stroke: stroke.ornament is None)
    made = midi_file(Piece("Drawn", Passage("drawn", plain, repeats=3), plain.tempo, plain), Style())
    assert [(note.onset, note.key, note.velocity) for note in performed(made).drums] == due(plain, 3)


REPEATS = """
bars: 4
repeats:
  - {bars: 1-3, times: 3, endings: [2, 3]}
layers:
  - name: Lane
    strokes:
      snare:
        bar 1: "x---x---X---g---"
        bar 2: "xx--------------"
        bar 3: "--xx------------"
        bar 4: "---------xx-----"
"""


def test_repeats_and_endings_are_written_out(play: Play) -> None:
    heard = play(REPEATS)
    assert [(note.onset, note.key, note.velocity) for note in heard.drums] == due(plan_of(REPEATS).groove, 1)
    assert [text for _, text in heard.signs if text.startswith("bar")] == [f"bar {n}" for n in (1, 2, 1, 2, 1, 3, 4)]


def test_the_bars_played_are_those_of_the_groove_performed() -> None:
    groove = plan_of(REPEATS).groove
    lengths = [groove.bars[index].length for index in groove.played_bars]
    assert lengths == [bar.length for bar in groove.performed().bars]


def test_what_a_layer_silences_is_not_heard(play: Play) -> None:
    heard = play(
        'layers:\n  - {name: One, strokes: {snare: "x---x---x---x---"}}\n'
        '  - {name: Fill, beats: 3-4, silence: [snare], strokes: {floor tom: "x-x-x-x-"}}\n'
    )
    assert [note.onset for note in heard.drums if note.key == 38] == [F(0), F(1, 4)]
    assert [note.onset for note in heard.drums if note.key == 43] == [F(n, 8) for n in range(4, 8)]


def test_an_exercise_is_played_as_often_as_its_repeat_says(play: Play) -> None:
    text = lanes(snare="x---x---x---xx--") + "exercises:\n  - {title: Loop, repeats: 3, tempo: {from: 60, to: 90}}\n"
    heard = play(text, 1)
    assert heard.onsets == [turn + F(n, 16) for turn in range(3) for n in (0, 4, 8, 12, 13)]
    assert [text for _, text in heard.signs] == ["count-in", "bar 1", "bar 1", "bar 1"]


@pytest.mark.parametrize(("pattern", "onsets"), [
    ("(xxxxx)4 (xxxxxxx)4 (xxx)4 x---", [F(n, 20) for n in range(5)] + [F(1, 4) + F(n, 28) for n in range(7)]
     + [F(1, 2) + F(n, 12) for n in range(3)] + [F(3, 4)]),
    ("(xxxxxxxxx)8 x-------", [F(n, 18) for n in range(9)] + [F(1, 2)]),
    ("(fdrzf)4 ----- -------", None),
])  # fmt: skip
def test_tuplets_stand_on_whole_ticks(play: Play, pattern: str, onsets: list[Fraction] | None) -> None:
    heard = play(lanes(snare=pattern))
    assert heard.file.ticks_per_beat <= 0x7FFF  # SMF 1.0: bits 14 to 0 of the division
    if onsets:
        assert heard.onsets == onsets
    else:
        assert {F(n, 20) for n in range(5)} <= set(heard.onsets)


@pytest.mark.parametrize(("counts", "is_exact"), [((11, 13, 7, 5), True), ((11, 13, 17, 19), False)])
def test_what_no_division_can_hold_is_right_to_half_a_tick(play: Play, counts: tuple[int, ...], is_exact: bool) -> None:
    """11 x 13 x 7 x 5 ticks fit into 15 bits, 11 x 13 x 17 x 19 do not."""
    heard = play("title: Slow\ntempo: 50\n" + lanes(snare=" ".join(f"({'x' * count})4" for count in counts)))
    exact = [F(n, 4) + F(k, 4 * count) for n, count in enumerate(counts) for k in range(count)]
    assert len(heard.onsets) == len(exact)
    furthest = max(abs(a - b) for a, b in zip(heard.onsets, exact, strict=True))
    assert (furthest == 0) is is_exact
    assert furthest <= F(1, 2) / (4 * heard.file.ticks_per_beat)


def rows() -> list[dict[str, str]]:
    lines = [line for line in PLACES.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["instrument"])
def test_instruments_have_their_general_midi_key(play: Play, row: dict[str, str]) -> None:
    """Source: the General MIDI Level 1 names of the table, and pretty_midi 0.2.11, which knows their keys."""
    (note,) = play(lanes(**{row["instrument"]: "x" + "-" * 15})).drums
    assert pretty_midi.note_number_to_drum_name(note.key) == row["sound"]


def test_another_reader_hears_the_drums_in_seconds() -> None:
    """Source: pretty_midi 0.2.11 reads tempo and ticks; 90 eighths' worth of beat worked out by hand."""
    text = "title: Slow\nmeter: 6/8\ntempo: {beat: dotted quarter, bpm: 60}\nstep: eighth\n" + lanes(snare="x--xx-")
    heard = pretty_midi.PrettyMIDI(BytesIO(midi_file(piece(text), Style())))
    drums = next(instrument for instrument in heard.instruments if instrument.name == "Slow")
    assert drums.is_drum
    bar = 2.0  # two dotted quarters at 60; the count-in is a bar
    assert [note.start for note in drums.notes] == pytest.approx([bar, bar + 1, bar + 4 / 3], abs=1e-4)
    assert heard.get_end_time() == pytest.approx(2 * bar - 1 / 3, abs=1e-3)


def test_a_note_ends_before_its_key_sounds_again() -> None:
    made = performed(midi_file(piece(lanes(snare="xxr-zzf-==g-x-xd")), Style()))
    for note, following in zip(made.drums, made.drums[1:], strict=False):
        assert note.length > 0 and note.onset + note.length <= following.onset


def test_equal_grooves_give_equal_bytes_and_a_stroke_more_gives_others() -> None:
    text = lanes(snare="x-g-X-f-", bass_drum="x---x---").replace("Lane", "One") + "step: eighth\n"
    once, again = ([midi_file(p, Style(), Click.BEAT) for p in pieces(plan_of(text))] for _ in range(2))
    assert once == again
    more = [midi_file(p, Style(), Click.BEAT) for p in pieces(plan_of(text.replace("x---x---", "x--xx---")))]
    assert once[0] != more[0]
