"""Writing a groove as YAML and reading it back keeps every onset."""

from __future__ import annotations

from hypothesis import given, settings

from engraver.definition import origin, parse_groove, to_groove
from engraver.definition.pattern import STROKES
from engraver.rhythm import Instrument, Span
from tests.properties.strategies import WrittenGroove, written_grooves


@settings(max_examples=150, deadline=None)
@given(written_grooves())
def test_every_written_mark_is_a_stroke_at_its_onset_and_nothing_else_is(written: WrittenGroove) -> None:
    strokes = to_groove(parse_groove(written.source)).strokes
    expected = [(onset, name, *STROKES[mark]) for onset, name, mark in written.strokes]
    assert [(s.onset, s.instrument.name, s.touch, s.ornament) for s in strokes] == expected


@settings(max_examples=50, deadline=None)
@given(written_grooves())
def test_every_stroke_leads_back_to_the_mark_of_its_own_lane(written: WrittenGroove) -> None:
    definition = parse_groove(written.source)
    groove = to_groove(definition)
    lines = written.source.splitlines()
    marks = {(onset, name): mark for onset, name, mark in written.strokes}
    for stroke in groove.strokes[:10]:
        place = origin(definition, Span(stroke.onset, stroke.onset + stroke.step), [stroke.instrument])
        head = next(line for line in reversed(lines[: place.line]) if line.startswith("      ") and line[6] != " ")
        assert head.strip().startswith(f"{stroke.instrument}:")
        assert place.text[place.column - 1] == marks[stroke.onset, stroke.instrument.name]


@settings(max_examples=50, deadline=None)
@given(written_grooves())
def test_bars_add_up_to_the_groove(written: WrittenGroove) -> None:
    groove = to_groove(parse_groove(written.source))
    assert sum((bar.length for bar in groove.bars), start=groove.pickup) == groove.length
    assert all(a.span.end == b.start for a, b in zip(groove.bars, groove.bars[1:], strict=False))
    assert all(stroke.onset in groove.span and Instrument(stroke.instrument.name) for stroke in groove.strokes)
