"""The notation key prints a sign for all that the book uses and for nothing else, as the style in force draws it."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from engraver import definition, lilypond
from engraver.manuscript.planning import plan_book
from engraver.style import Style

BOOK = Path(__file__).parent / "varied"
USED = {
    *("hi-hat, closed", "snare drum", "bass drum", "ride cymbal", "crash cymbal", "hi-hat, foot"),
    *("snare drum, ghost note", "accent", "flam"),
    *("play 8 times", "tempo; a box to tick", "cells; a changed form is hollow", "grade, from 1 to 5"),
}


def key(tmp_path: Path, rows: str = "", *more: str) -> str:
    """The source of the key; ``more`` are layers of a fifth groove."""
    (tmp_path / "style.yaml").write_text(rows, "utf-8")
    style = definition.read_style(tmp_path)
    book = replace(definition.read(BOOK), style=style)
    made = [*plan_book(book)]
    for layer in more:
        text = f"title: More\ntempo: 90\nlayers: [{{name: All, strokes: {{{layer}}}}}]\n"
        fifth = definition.ChapterDefinition(definition.parse_groove(text, Path("more.yaml"), style))
        made += plan_book(replace(book, chapters=(fifth,)))
    matter = lilypond.Matter(book, style, style.say)
    return lilypond.reading(matter, [chapter.told(style)["to read"] for chapter in made], ["key"], has_log=False)


def boxes(text: str) -> list[str]:
    """Their captions; where a design may choose between two, that of the workbook."""
    return re.findall(r'\\key-box #(?:\(if hollow-changes\? )?"([^"]*)"', text)


def test_it_has_what_the_book_uses_and_nothing_else(tmp_path: Path) -> None:
    assert sorted(boxes(key(tmp_path))) == sorted(USED)


MORE = [
    ('cowbell: "x--- ---- ---- ----"', {"cowbell"}),
    ('snare: "z--- ---- ---- ----"', {"buzz roll"}),
    ('snare: "d--- ---- ---- ----"', {"drag"}),
    ('crash: "c--- ---- ---- ----"', {"cymbal choked"}),
    ('snare: "(xxx)2-- ---- ---- ----"', {"three in the time of two"}),
    ('snare: "(xxxxx)4 ---- ---- ----"', {"five in the time of four"}),
]


@pytest.mark.parametrize(("layer", "new"), MORE)
def test_what_a_groove_adds_comes_into_it(layer: str, new: set[str], tmp_path: Path) -> None:
    assert set(boxes(key(tmp_path, "", layer))) - USED == new


def test_repeated_bars_are_in_it_where_the_style_writes_them(tmp_path: Path) -> None:
    assert set(boxes(key(tmp_path, "repeat bars: yes\n"))) - USED == {"the bar before, once more"}


def test_it_is_in_the_words_of_the_style(tmp_path: Path) -> None:
    found = boxes(key(tmp_path, "kit: {snare: {label: side drum}}\nwords: {accent key: loud}\n"))
    assert {"side drum", "side drum, ghost note", "loud"} <= set(found)
    assert "snare drum" not in found
    rows = "words: {instrument snare: {name: drum, label: drum at the side, said: the drum}}\n"
    assert "drum at the side" in boxes(key(tmp_path, rows))


def upper(text: str, label: str) -> str:
    """The upper voice of a sign."""
    match = re.search(rf'\\key-box #"{label}" \\sign #\S+ \\drummode {{ (.*?) }} \\drummode', text)
    assert match, label
    return match[1]


def test_its_stems_go_as_those_of_the_style(tmp_path: Path) -> None:
    assert upper(key(tmp_path), "bass drum") == "s4"
    assert upper(key(tmp_path, "voices: one\n"), "bass drum").startswith("bassDrum")
    assert upper(key(tmp_path, "kit: {bass drum: {stem: up}}\n"), "bass drum").startswith("bassDrum")


def test_its_heads_are_those_of_the_style(tmp_path: Path) -> None:
    assert '("snare" "diamond" "" 1 38)' in key(tmp_path, "kit: {snare: {head: diamond}}\n")
    assert '("snare" "normal" "" 1 38)' in key(tmp_path)


def test_the_standard_style_is_what_is_tested(tmp_path: Path) -> None:
    (tmp_path / "style.yaml").write_text("", "utf-8")
    assert definition.read_style(tmp_path) == Style()
