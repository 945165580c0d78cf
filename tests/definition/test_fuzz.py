"""No text of any kind makes anything but a groove or a DefinitionError whose problems have places."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engraver.definition import check, parse_groove, read_groove, to_groove
from engraver.errors import DefinitionError, Problem
from engraver.style import Style, font_folders
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


STYLE_FILE = """\
preset: large print
design: edition
paper: {width: 190, height: 250}
margins: {inner: 4, outer: 2.5}
staff size: 19
fonts: {text: Source Sans Pro, labels: {regular: mine.otf}}
language: de
words: {bar n: "Takt {n}", n bars: {one: "{n} Takt", other: "{n} Takte"}, log columns: [a, b, c, d, e]}
voices: one
accents: head side
bars per line: 2
kit:
  snare: {head: diamond, label: Side drum}
  log drum: {position: 2, limbs: hands, key: 77, head: triangle, aliases: [log], across: -3, small: yes, lead: yes}
"""
BOOK_FILE = """\
title: Odd Stairs
rights: "© A. Teacher"
date: 2026-01-31
parts:
  - {title: One, chapters: [slate], text: Begin *here*.}
cover: slate
front: [rights, {page: cautions, text: Softly.}, {title: Thanks, text: To all.}]
back: [answers, index]
licence: licence.txt
editions:
  - screen
  - {kind: print, bleed: 3, gutter: 4, ink: grey, recto: no}
  - {kind: sample, chapters: [slate], pages: "i-iv, 1-3", paper: Letter}
"""
HOSTILE = (
    "{n.__class__} {0} {n!r} {n:9} {{ }} {} «say» «%_if_%» #(exit) \\\\include ../../etc/passwd /dev/null fonts/ "
    "a/b.txt ..\\\\x.txt .txt 1e400 nan -0 ٣ 2026-02-30 0000-00-00 9999-12-31 iv-i i-3 999-1 0"
)


def faults_of(files: Mapping[str, str]) -> tuple[Problem, ...]:
    """Of a book of these files, beside which lie a groove, a licence and a font."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "grooves").mkdir()
        (folder / "grooves" / "slate.yaml").write_text(SLATE_STAIRS, "utf-8")
        (folder / "licence.txt").write_text("Play it to anybody.\n", "utf-8")
        (folder / "mine.otf").symlink_to(font_folders()[0] / "SourceSansPro-Regular.otf")
        for file, text in files.items():
            (folder / file).write_bytes(text.encode("utf-8", "surrogatepass"))
        return check(folder)


def test_what_is_damaged_below_was_whole() -> None:
    assert faults_of({"book.yaml": BOOK_FILE, "style.yaml": STYLE_FILE}) == ()


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_a_damaged_style_or_book_is_read_or_refused(data: st.DataObject) -> None:
    """A value in the place of another, or a piece of text, in files that have every kind of key."""
    files = {"book.yaml": BOOK_FILE, "style.yaml": STYLE_FILE}
    for _ in range(data.draw(st.integers(1, 3))):
        name = data.draw(st.sampled_from(sorted(files)))
        values = [match.span(1) for match in re.finditer(r"[\[{:,] *([^\s,:\[\]{}]+)", files[name])]
        start, end = data.draw(st.sampled_from(values)) if values else (0, 0)
        piece = data.draw(st.sampled_from(HOSTILE.split()) | PIECES | st.text(max_size=4))
        files[name] = files[name][:start] + piece + files[name][end:]
    for problem in faults_of(files):
        assert problem.position is not None and problem.message


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
