"""Note values, meters and their beats."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from music21 import duration, meter  # a reference library of music notation, for tests only

from engraver.rhythm import Meter, Span, parse_value, value_name

# Lengths by the names of notes: each half of the one before; dots and tuplets as music21.duration computes them.
WORDS = {
    "whole": ("whole", 0, None),
    "half": ("half", 0, None),
    "quarter": ("quarter", 0, None),
    "eighth": ("eighth", 0, None),
    "sixteenth": ("16th", 0, None),
    "thirty-second": ("32nd", 0, None),
    "dotted half": ("half", 1, None),
    "dotted quarter": ("quarter", 1, None),
    "dotted eighth": ("eighth", 1, None),
    "quarter triplet": ("quarter", 0, (3, 2)),
    "eighth triplet": ("eighth", 0, (3, 2)),
    "sixteenth triplet": ("16th", 0, (3, 2)),
    "sixteenth quintuplet": ("16th", 0, (5, 4)),
    "sixteenth septuplet": ("16th", 0, (7, 4)),
}


@pytest.mark.parametrize("words", WORDS)
def test_a_note_value_is_as_long_as_a_reference_library_says(words: str) -> None:
    kind, dots, tuplet = WORDS[words]
    reference = duration.Duration(type=kind, dots=dots)
    if tuplet:
        reference.appendTuplet(duration.Tuplet(*tuplet, kind))
    assert parse_value(words) == F(reference.quarterLength).limit_denominator(1000) / 4
    assert value_name(parse_value(words)) == words


@pytest.mark.parametrize(
    "text", ["", "crotchet", "dotted", "eighth triple", "eighth triplet note x", "3", "dotted dotted"]
)
def test_what_is_no_note_value_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is not a note value"):
        parse_value(text)


@pytest.mark.parametrize("signature", ["2/4", "3/4", "4/4", "5/4", "2/2", "6/8", "9/8", "12/8", "3/8", "6/16"])
def test_beats_are_those_of_a_reference_library(signature: str) -> None:
    reference = meter.TimeSignature(signature)
    spans = list(Meter.parse(signature).beat_spans())
    assert len(spans) == reference.beatCount
    assert {span.length * 4 for span in spans} == {F(reference.beatDuration.quarterLength)}


@pytest.mark.parametrize(
    ("signature", "beats"),
    [
        ("5/8", (3, 2)),  # LilyPond 2.24.3, scm/time-signature-settings.scm
        ("8/8", (3, 3, 2)),  # the same
        ("7/8", (2, 2, 3)),  # common practice, no source
        ("(2+2+3)/8", (2, 2, 3)),
        ("3+2/8", (3, 2)),
        ("( 4 + 3 ) / 4", (4, 3)),
    ],
)
def test_uneven_beats(signature: str, beats: tuple[int, ...]) -> None:
    assert Meter.parse(signature).beats == beats


@pytest.mark.parametrize("text", ["", "4", "4/3", "0/4", "(2+2/8", "65/4", "-3/4", "4/4/4", "2+0/8", "1/64"])
def test_what_is_no_meter_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is not a meter"):
        Meter.parse(text)


@pytest.mark.parametrize("text", ["4/4", "7/8", "(2+2+3)/8", "12/16"])
def test_a_meter_prints_as_it_is_written(text: str) -> None:
    assert str(Meter.parse(text)) == text


def test_beats_fill_the_bar_from_where_it_starts() -> None:
    spans = list(Meter.parse("(2+3)/8").beat_spans(F(1, 2)))
    assert spans == [Span(F(1, 2), F(3, 4)), Span(F(3, 4), F(9, 8))]


def test_a_span_holds_its_start_and_not_its_end() -> None:
    span = Span(F(1), F(2))
    assert F(1) in span and F(2) not in span
    assert span.clip(Span(F(3, 2), F(3))) == Span(F(3, 2), F(2))
    assert span.clip(Span(F(2), F(3))) is None
    assert not span.overlaps(Span(F(2), F(3)))
