"""The schemas for editors: valid by the standard's own meta-schema, and of one mind with the reader about form."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator  # a reference implementation of JSON Schema draft 2020-12

from engraver.definition import json_schema, parse_groove
from engraver.definition.book_file import BookFile
from engraver.definition.keys import keys_of
from engraver.definition.schema import GrooveDefinition
from engraver.definition.style_file import StyleFile
from engraver.errors import DefinitionError
from tests.definition.test_checks import ROWS
from tests.definition.test_slate_stairs import SLATE_STAIRS

LONG = """\
title: 1984
origin: a friend
meter:
  bars 1-3: 4/4
  bar 4: (2+2+3)/8
tempo: {beat: dotted quarter, bpm: 60}
bars: 4
phrase: 2
pickup: 2
swing: sixteenth
layers:
  - name: All
    role: figure
    replace: true
    silence: all
    step: eighth
    strokes:
      snare:
        pickup: {step: sixteenth, pattern: "x-"}
        bar 1: "xxxx xxx (xxx)1 |"
        bars 2,3: as bar 1
        bar 4: {cycle: "x--", start: 2, restart: 2 bars}
sticking: {hands: {step: eighth, bar 1: "RLRL RLR-", bars 2-3: as bar 1}}
sections: [{name: Verse, bars: 1-2}]
repeats: [{bars: 1-4, times: 3, endings: [3, 4]}]
cells: {length: 3}
exercises: [{title: One, layers: [All], bars: 1, beats: 1-2, instruments: [snare], silence: before, repeats: 8}]
listen: [{title: Listen}]
questions: [{question: "Why?", answer: Because.}]
"""


def errors(name: str, text: str) -> list[str]:
    """What the schema says of a text, as an editor reads it: with the types that YAML gives plain words."""
    content: Any = yaml.load(text, Loader=yaml.SafeLoader)
    return [error.message for error in Draft202012Validator(json_schema(name)).iter_errors(content)]


@pytest.mark.parametrize("name", ["book", "style", "groove"])
def test_the_schema_is_a_schema(name: str) -> None:
    Draft202012Validator.check_schema(json_schema(name))


@pytest.mark.parametrize(("name", "record"), [("book", BookFile), ("style", StyleFile), ("groove", GrooveDefinition)])
def test_the_schema_names_every_key_the_reader_knows(name: str, record: type) -> None:
    assert set(json_schema(name)["properties"]) == {key.name for key in keys_of(record)}


@pytest.mark.parametrize("text", [SLATE_STAIRS, LONG])
def test_what_the_reader_accepts_the_schema_accepts(text: str) -> None:
    assert parse_groove(text)
    assert errors("groove", text) == []


def test_a_book_and_a_style_are_valid() -> None:
    assert (
        errors("book", 'title: T\ndate: "2026-01-31"\nparts: [{title: P, chapters: [a, b]}]\nfront: [contents]\n') == []
    )
    assert errors("style", "paper: Letter\ncolours: no\nstaff size: 20\nkit: {snare: {head: x, position: -1}}\n") == []


# Faults of form, which a schema can see; rules between values (a pattern too long, a layer not there) it cannot.
FORM = """
    list as file, missing, misspelt key, unknown key, meter, bars, bars half, tempo range, role, replace, list wanted,
    scalar wanted, no layers, listen, list as pattern, mark, capital ghost, repeat times, exercise silence, as what,
    range key, section gap, misspelt lane key, sticking letter
"""
FORM_ROWS = [row for row in ROWS if row.id in " ".join(FORM.split()).split(", ")]


@pytest.mark.parametrize("source", [pytest.param(row.values[0], id=row.id) for row in FORM_ROWS])
def test_the_schema_sees_a_fault_of_form(source: str) -> None:
    with pytest.raises(DefinitionError):
        parse_groove(source)
    assert errors("groove", source)


def test_every_fault_of_form_was_looked_at() -> None:
    assert len(FORM_ROWS) == FORM.count(",") + 1


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("book", "title: T\n"),
        ("book", 'title: T\ndate: "31 January 2026"\n'),
        ("book", 'title: T\ndate: "2026-01-31"\nfront: [cover]\n'),
        ("book", 'title: T\ndate: "2026-01-31"\nchapters: []\n'),
        ("style", "paper: A3\n"),
        ("style", "staff: 20\n"),
        ("style", "kit: {snare: {head: square}}\n"),
        ("style", "kit: {snare: {position: 40}}\n"),
    ],
)
def test_wrong_books_and_styles_are_refused(name: str, text: str) -> None:
    assert errors(name, text)
