"""The text edition: whole, well formed, and nobody's text runs in it."""

from __future__ import annotations

import re
from datetime import date
from html.parser import HTMLParser
from itertools import pairwise

from engraver import definition
from engraver.book_words import BookWords
from engraver.definition import ChapterDefinition
from engraver.export.text_edition import text_edition
from engraver.manuscript.planning import plan_chapter
from engraver.style import Style

VOID = {"meta"}
GROOVE = """title: "<b>Gate & Ladder</b>"
text: "First *soft*, then 1 < 2 & 3 > 2."
tempo: 88
bars: 2
step: eighth
layers:
  - name: Cycle
    strokes: {bass drum: {cycle: "x--"}}
  - name: Backbeat
    strokes: {snare: "--X---X-"}
"""


class Reader(HTMLParser):
    """Notes the headings, and fails where a tag is not closed in its place."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.headings: list[tuple[int, str]] = []
        self.items: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, text: str) -> None:
        if self.open and re.fullmatch("h[1-6]", self.open[-1]):
            self.headings.append((int(self.open[-1][1]), text))
        if self.open and self.open[-1] == "li":
            self.items.append(text)


def page() -> tuple[str, Reader]:
    style = Style()
    groove = definition.parse_groove(GROOVE)
    plan = plan_chapter(ChapterDefinition(groove), style, style.say).plan
    book = BookWords(
        title="Odd Stairs", author="A. Teacher", rights="© A. Teacher", date=date(2026, 1, 31), language="en"
    )
    text = text_edition(book, [plan], style)
    reader = Reader()
    reader.feed(text)
    return text, reader


def test_the_page_is_well_formed_and_its_headings_skip_no_level() -> None:
    """WCAG 2.2, technique H42 and G141: headings by their levels."""
    _, reader = page()
    assert reader.open == []
    levels = [level for level, _ in reader.headings]
    assert levels[:4] == [1, 2, 3, 4]
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_every_stroke_of_the_groove_is_in_it() -> None:
    _, reader = page()
    # a bass drum on every third of sixteen eighths, a backbeat on 2 and 4 of both bars
    first, second = reader.items[:4], reader.items[4:9]
    assert first == ["1: bass drum", "2: snare accent", "2 &: bass drum", "4: bass drum, snare accent"]
    assert second == ["1 &: bass drum", "2: snare accent", "3: bass drum", "4: snare accent", "4 &: bass drum"]


def test_an_authors_text_stays_text() -> None:
    text, _ = page()
    assert "then 1 &lt; 2 &amp; 3 &gt; 2." in text
    assert "&lt;b&gt;Gate &amp; Ladder&lt;/b&gt;" in text
    assert "<em>soft</em>" in text
    assert '<html lang="en">' in text


def test_the_words_that_an_exercise_has_said_stand_with_their_counts() -> None:
    """The hand strikes every beat, the foot on 1 and on the eighth after 2."""
    groove = definition.parse_groove(
        "title: T\ntempo: 88\nstep: eighth\nlayers:\n"
        '  - {name: Hand, role: time, strokes: {ride: "x-x-x-x-"}}\n'
        '  - {name: Foot, strokes: {bass drum: "x--x----"}}\n'
        "exercises: [{kind: hand and feet}]\n"
    )
    style = Style()
    plan = plan_chapter(ChapterDefinition(groove), style, style.say).plan
    book = BookWords(title="T", author="", rights="", date=date(2026, 1, 31), language="en")
    reader = Reader()
    reader.feed(text_edition(book, [plan], style))
    said = [item for item in reader.items if "say" in item]
    assert said == [
        "1, say “both”: bass drum, ride",
        "2, say “hand”: ride",
        "2 &, say “foot”: bass drum",
        "3, say “hand”: ride",
        "4, say “hand”: ride",
    ]
