"""A groove with everything a first chapter has: read, laid, and counted by hand."""

from __future__ import annotations

from fractions import Fraction

from engraver.definition import parse_groove, to_groove
from engraver.definition.build import origin
from engraver.rhythm import Cycle, Instrument, Silence, Span, Touch

SLATE_STAIRS = """\
title: Slate Stairs
meter: 4/4
tempo: 96
step: sixteenth
bars: 4
text: |
  Climb in fives. No cell begins on a downbeat again until the phrase starts over.

layers:
  - name: Frame
    strokes:
      bass drum: {cycle: "xx---"}
      crash:     {cycle: "X----"}
  - name: Backbeat
    role: meter
    strokes:
      snare: "-------- X-------"
  - name: Ghost notes
    strokes:
      snare:
        bars 2,4: "---g--g- --------"
  - name: Fill
    bars: 4
    beats: 3-4
    silence: [snare, crash]
    strokes:
      high tom: "xxx- ----"
      floor tom: "---x x-x-"

cells: {length: 5}
exercises:
  - layers: [Frame]
    tempo: {from: 60, to: 96, by: 6}
"""


def steps(name: str, layer: str | None = None) -> list[Fraction]:
    groove = to_groove(parse_groove(SLATE_STAIRS))
    if layer:
        groove = groove.keep([layer])
    return [stroke.onset * 16 for stroke in groove.strokes if stroke.instrument.name == name]


def test_the_cycle_runs_across_bar_lines_and_is_cut_off_at_the_phrase_end() -> None:
    # 64 steps hold twelve cells of five and four steps: cells begin on 0, 5 ... 60
    assert steps("bass drum") == sorted([*range(0, 64, 5), *range(1, 64, 5)])
    assert steps("crash", "Frame") == list(range(0, 64, 5))


def test_one_bar_of_pattern_fills_all_four() -> None:
    assert steps("snare", "Backbeat") == [8, 24, 40, 56]


def test_a_range_places_its_pattern_in_its_bars_only() -> None:
    assert steps("snare", "Ghost notes") == [16 + 3, 16 + 6, 48 + 3, 48 + 6]


def test_the_fill_lies_in_its_beats_and_silences_what_sounded_there() -> None:
    assert steps("high tom") == [56, 57, 58]
    assert steps("floor tom") == [59, 60, 62]
    assert steps("snare") == [8, 19, 22, 24, 40, 51, 54]
    assert steps("crash") == list(range(0, 56, 5))


def test_layers_keep_what_was_written() -> None:
    groove = to_groove(parse_groove(SLATE_STAIRS))
    frame, fill = groove.layers[0], groove.layers[3]
    assert frame.cycles[0] == Cycle(Instrument("bass drum"), Fraction(5, 16))
    assert fill.silences == (
        Silence(Span(Fraction(56, 16), Fraction(4)), frozenset({Instrument("snare"), Instrument("crash")})),
    )
    assert {stroke.touch for stroke in groove.layers[2].strokes} == {Touch.GHOST}
    assert (groove.phrase, groove.tempo.beat, groove.tempo.bpm) == (4, Fraction(1, 4), 96)


def test_the_definition_keeps_the_author_s_words() -> None:
    definition = parse_groove(SLATE_STAIRS)
    assert definition.text[0].text.startswith("Climb in fives. No cell")
    assert definition.cells is not None and definition.cells.length == 5
    exercise = definition.exercises[0]
    assert exercise.layers == ("Frame",)
    assert exercise.tempo is not None
    assert (exercise.tempo.start, exercise.tempo.goal, exercise.tempo.by) == (60, 96, 6)


def test_strokes_lead_back_to_the_line_that_wrote_them() -> None:
    definition = parse_groove(SLATE_STAIRS)
    snare, bass_drum = Instrument("snare"), Instrument("bass drum")
    assert origin(definition, Span(Fraction(1), Fraction(5, 4)), [snare]).line == 21
    assert origin(definition, Span(Fraction(0), Fraction(1)), [snare]).line == 17
    where = origin(definition, Span(Fraction(0), Fraction(1)), [bass_drum])
    assert (where.line, where.text[where.column - 1 :][: where.width]) == (12, "x")
    assert origin(definition, Span(Fraction(0), Fraction(1)), [Instrument("china")]).line == 1
