"""What the index lists of a book, read from its source."""

from __future__ import annotations

import re
from collections import defaultdict
from pathlib import Path

import pytest

from engraver import definition
from engraver.manuscript.book_matter import page_text
from engraver.manuscript.book_pages import index_page
from engraver.manuscript.planning import plan_book

OWN = "kit: {left stomp: {position: -7, limbs: feet, foot: left, key: 77, head: triangle, label: Left stomp box}}\n"
GROOVE = "title: Odd Stairs\ntempo: 90\nlayers:\n  - name: All\n    strokes:\n"


def index(folder: Path, lanes: str) -> str:
    """The index of a book of one groove; every page of it is called 1."""
    (folder / "grooves").mkdir()
    (folder / "book.yaml").write_text("title: Odd Stairs\ndate: 2026-01-31\n", "utf-8")
    (folder / "style.yaml").write_text(OWN, "utf-8")
    (folder / "grooves" / "odd.yaml").write_text(GROOVE + lanes, "utf-8")
    book = definition.read(folder)
    told = {chapter.plan.name: chapter.told(book.style) for chapter in plan_book(book)}
    return str(page_text(index_page(book, "index", ["index"], defaultdict(lambda: "1")), book, book.style, told))


@pytest.mark.parametrize(
    ("instrument", "listed"),
    [
        ("foot hi-hat", True),
        ("hi-hat splash", True),
        ("left bass drum", True),
        ("left stomp", True),
        ("open hi-hat", True),
        ("half-open hi-hat", True),
        ("hi-hat", False),
        ("ride", False),
        ("bass drum", False),
    ],
)
def test_what_the_left_foot_plays_or_opens_is_a_technique(tmp_path: Path, instrument: str, listed: bool) -> None:
    """Common practice, no source: readers look for what not every groove asks of them. An author's own drum counts."""
    found = index(tmp_path, f'      snare: "---- x--- ---- x---"\n      {instrument}: "x--- ---- x--- ----"\n')
    assert bool(re.search(rf'"{instrument}"', found)) is listed
