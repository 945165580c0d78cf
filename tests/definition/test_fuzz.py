"""No text of any kind makes anything but a groove or a DefinitionError whose problems have places."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engraver.definition import check, parse_groove, read_groove, to_groove
from engraver.errors import DefinitionError
from engraver.style import Style
from tests.definition.test_slate_stairs import SLATE_STAIRS

STYLE = Style()
SIGNS = ": |- | > [ ] { } , & * ! ? - # ' \" % @ ` << ~ ( ) = -- --- ... \\ \ufeff \u202e é 𝄢 <b> [a](b) 1. !["
WORDS = (
    'null 3:2 0x1F 1e9 title layers strokes snare bars: 1-4 bars 1,9: "x---" as bar 1 cycle {cycle: x} -1 0 999999999 '
    "(xx)2 (xxx)0 (((( 4/4 0/4 (1+2)/8 step: whole meter: 64/1 phrase: pickup: 255 restart: beats: 9 all q"
)
BLANKS = ["", " ", "\t", "\n", "\n\n", "\n  ", "\x85", "\u2028"]
PIECES = st.sampled_from([*SIGNS.split(), *WORDS.split(), *BLANKS])


def read_or_refuse(text: str) -> None:
    try:
        groove = to_groove(parse_groove(text, style=STYLE))
    except DefinitionError as error:
        lines = text.count("\n") + text.count("\r") + text.count("\x85") + text.count("\u2028") + text.count("\u2029")
        for problem in error.problems:
            assert problem.position is not None and problem.message
            assert 1 <= problem.position.line <= lines + 1 and problem.position.column >= 1
        return
    assert groove.strokes and groove.length > 0


@settings(max_examples=300, deadline=None)
@given(st.text() | st.lists(PIECES).map(" ".join) | st.lists(PIECES).map("".join))
def test_any_text_is_read_or_refused(text: str) -> None:
    read_or_refuse(text)


@settings(max_examples=500, deadline=None)
@given(st.data())
def test_a_damaged_groove_is_read_or_refused(data: st.DataObject) -> None:
    text = SLATE_STAIRS
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text)))
        length = data.draw(st.integers(0, 12))
        text = text[:start] + data.draw(PIECES | st.text(max_size=3)) + text[start + length :]
    read_or_refuse(text)


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_value_put_in_the_place_of_another_is_read_or_refused(data: st.DataObject) -> None:
    lines = SLATE_STAIRS.splitlines()
    for _ in range(data.draw(st.integers(1, 3))):
        number = data.draw(st.integers(0, len(lines) - 1))
        key, colon, _ = lines[number].partition(":")
        lines[number] = f"{key}{colon} {data.draw(PIECES)}"
    read_or_refuse("\n".join(lines) + "\n")


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "groove.yaml"
        path.write_bytes(content)
        with pytest.raises(DefinitionError):
            read_groove(path, STYLE)


@settings(max_examples=60, deadline=None)
@given(st.lists(PIECES).map(" ".join), st.lists(PIECES).map(" ".join))
def test_any_book_and_style_are_read_or_refused(book: str, style: str) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "book.yaml").write_text(book, "utf-8")
        (folder / "style.yaml").write_text(style, "utf-8")
        assert check(folder), "a book without grooves has a fault at least"


@pytest.mark.parametrize(
    "text", ["[" * 200_000, "{" * 200_000, "- " * 200_000, "a: " * 1000, "? " * 100_000, "*a " * 9]
)
def test_bottomless_nesting_is_refused_at_once(text: str) -> None:
    read_or_refuse(text)
