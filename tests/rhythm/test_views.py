"""Views of a groove: other layers, other bars, other bar lines, and the order in which repeats are played."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from music21 import bar, note, repeat, spanner, stream  # a reference library of music notation, for tests only

from engraver.definition import parse_groove, to_groove
from engraver.rhythm import Groove, Meter, Repeat, Section, Span
from tests.properties.strategies import grooves


def groove(*lanes: str, head: str = "bars: 2\n") -> Groove:
    """Layers A, B ... of one lane each, in quarters of 4/4 unless the head says otherwise."""
    layers = "".join(f"  - name: {name}\n    strokes: {{{lane}}}\n" for name, lane in zip("ABC", lanes, strict=False))
    return to_groove(parse_groove(f"title: T\ntempo: 96\nstep: quarter\n{head}layers:\n{layers}"))


def onsets(found: Groove) -> list[F]:
    return [stroke.onset for stroke in found.strokes]


@settings(max_examples=60, deadline=None)
@given(grooves(), st.data())
def test_regrouping_moves_no_stroke(found: Groove, data: st.DataObject) -> None:
    sixteenths = found.length * 16
    lengths = []
    while sum(lengths) < sixteenths:
        lengths.append(data.draw(st.integers(1, int(sixteenths) - sum(lengths))))
    regrouped = found.regroup(Meter.of(length, 16) for length in lengths)
    assert regrouped.strokes == found.strokes
    assert sum(each.length for each in regrouped.bars) == found.length


@settings(max_examples=60, deadline=None)
@given(grooves(), st.fractions(0, 1, max_denominator=24))
def test_two_slices_hold_every_stroke_once(found: Groove, share: F) -> None:
    cut = found.length * share
    parts = [span for span in (Span(F(0), cut), Span(cut, found.length)) if span.length]
    moved = [(stroke.onset + span.start, stroke.instrument) for span in parts for stroke in found.slice(span).strokes]
    assert moved == [(stroke.onset, stroke.instrument) for stroke in found.strokes]
    assert sum(found.slice(span).length for span in parts) == found.length


@settings(max_examples=30, deadline=None)
@given(grooves(most_bars=2), st.integers(1, 4))
def test_a_groove_repeated_is_itself_again_after_its_length(found: Groove, times: int) -> None:
    whole = found.repeat(times)
    expected = [stroke.onset + turn * found.length for turn in range(times) for stroke in found.strokes]
    assert onsets(whole) == expected
    assert whole.length == found.length * times
    assert [layer.name for layer in whole.layers] == [layer.name for layer in found.layers]


@settings(max_examples=30, deadline=None)
@given(grooves())
def test_views_leave_the_groove_as_it_was(found: Groove) -> None:
    before = (found.bars, found.layers, found.strokes)
    found.slice(Span(F(0), found.length / 2))
    found.keep([]).only(lambda stroke: False)
    found.repeat(2).performed()
    assert (found.bars, found.layers, found.strokes) == before


def test_a_bar_that_is_cut_is_shorter_and_keeps_its_meter() -> None:
    part = groove('snare: "xxxx"').slice(Span(F(1, 2), F(5, 4)))
    assert [(each.start, each.length, str(each.meter), each.is_whole) for each in part.bars] == [
        (0, F(1, 2), "4/4", False),
        (F(1, 2), F(1, 4), "4/4", False),
    ]
    assert onsets(part) == [0, F(1, 4), F(1, 2)]


def test_a_layer_that_is_left_out_silences_nothing() -> None:
    text = 'title: T\ntempo: 9O\nlayers:\n  - {name: A, strokes: {snare: {cycle: "x---"}}}\n'.replace("9O", "90")
    text += '  - {name: Fill, beats: 4, silence: [snare], strokes: {floor tom: "xxxx"}}\n'
    found = to_groove(parse_groove(text))
    assert len(found.strokes) == 3 + 4
    assert onsets(found.keep(["A"])) == [0, F(1, 4), F(1, 2), F(3, 4)]
    assert onsets(found.keep(["Fill"])) == [F(step, 16) for step in (12, 13, 14, 15)]


def test_a_silence_that_a_slice_cuts_still_silences() -> None:
    text = 'title: T\ntempo: 90\nlayers:\n  - {name: A, strokes: {snare: {cycle: "x"}}}\n'
    text += "  - {name: Gap, beats: 3-4, silence: [snare]}\n"
    part = to_groove(parse_groove(text)).slice(Span(F(1, 4), F(3, 4)))
    assert onsets(part) == [F(step, 16) for step in range(4)]


def test_a_bar_is_found_by_its_onsets() -> None:
    found = groove('snare: "xxxx"')
    assert [found.bar_at(onset) for onset in (F(0), F(15, 16), F(1), F(31, 16))] == [0, 0, 1, 1]


def order(found: Groove) -> list[int]:
    """Which bars are played, told by the one stroke on beat n of bar n."""
    played = found.performed()
    return [int((stroke.onset % 1) * 4) + 1 for stroke in played.strokes]


FOUR = 'snare: "x--- | -x-- | --x- | ---x"'


@pytest.mark.parametrize(
    ("repeats", "played"),
    [
        ("{bars: 1-4, times: 2}", [1, 2, 3, 4, 1, 2, 3, 4]),
        ("{bars: 2-3, times: 3}", [1, 2, 3, 2, 3, 2, 3, 4]),
        ("{bars: 1, times: 2}, {bars: 3, times: 2}", [1, 1, 2, 3, 3, 4]),
        ("{bars: 1-4, times: 2, endings: [3, 4]}", [1, 2, 3, 1, 2, 4]),
        ("{bars: 1-4, times: 2, endings: [2-3, 4]}", [1, 2, 3, 1, 4]),
        # with more times than endings the first ending serves the early ones: common practice, no source
        ("{bars: 1-4, times: 3, endings: [3, 4]}", [1, 2, 3, 1, 2, 3, 1, 2, 4]),
    ],
)
def test_repeats_are_played_in_order(repeats: str, played: list[int]) -> None:
    assert order(groove(FOUR, head=f"bars: 4\nrepeats: [{repeats}]\n")) == played


@pytest.mark.parametrize(("times", "endings"), [(2, ()), (3, ()), (2, (2, 3)), (2, (1, 2)), (3, (1, 2, 3))])
def test_repeats_are_expanded_as_a_reference_library_does(times: int, endings: tuple[int, ...]) -> None:
    """music21.repeat.Expander on four bars, repeated whole, with endings from these bars on (counted from 0)."""
    part = stream.Part([stream.Measure(number=number) for number in range(1, 5)])
    measures = list(part.getElementsByClass(stream.Measure))
    for number, measure in enumerate(measures):
        before = [note.Rest(quarterLength=number)] if number else []
        measure.append([*before, note.Note(quarterLength=4 - number)])
    bounds = [*endings, 4]
    for number, (first, end) in enumerate(pairwise(bounds), 1):
        part.insert(0, spanner.RepeatBracket(measures[first:end], number=number))
        if number < len(endings):
            measures[end - 1].rightBarline = bar.Repeat(direction="end")
    if not endings:
        measures[3].rightBarline = bar.Repeat(direction="end", times=times)
    expanded = repeat.Expander(part).process()
    expected = [int(each.notes.first().offset) + 1 for each in expanded.getElementsByClass(stream.Measure)]

    found = groove(FOUR, head="bars: 4\n")
    assert order(replace(found, repeats=(Repeat(0, 3, times, endings),))) == expected


def test_a_performance_keeps_the_pickup_before_the_first_time_only() -> None:
    found = groove('snare: {pickup: "x", pattern: "x---"}', head="bars: 1\npickup: 1\nrepeats: [{bars: 1, times: 2}]\n")
    assert onsets(found.performed()) == [0, F(1, 4), F(5, 4)]


def test_sections_belong_to_the_whole() -> None:
    found = groove('snare: "xxxx"', head="bars: 2\nsections: [{name: Verse, bars: 1-2}]\n")
    assert found.sections == (Section("Verse", 0, 1),)
    assert found.slice(Span(F(0), F(1))).sections == ()
