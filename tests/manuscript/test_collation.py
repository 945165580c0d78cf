"""Running heads: which pages wear one, and what it says. In: pages of pieces with marked spots."""

from __future__ import annotations

from pathlib import Path

from engraver.binding import Bookmark, Numbering, Section, Sheaf, Spot, paginate
from engraver.manuscript.collation import Piece, page_furniture
from engraver.style import words

SAY = words("en")


def heads(piece: Piece, *anchors: str) -> list[tuple[str, str] | None]:
    """The heads of a piece's pages; each page has one anchor, or none where it is empty."""
    spots = tuple(Spot("anchor", name, page, 0, 0, 1, 1, 842) for page, name in enumerate(anchors) if name)
    pagination = paginate([Section(Sheaf(Path("one.pdf"), len(anchors), spots), piece.numbering)])
    return [worn.head for worn in page_furniture(pagination, [piece], SAY)]


def test_a_chapter_says_from_where_on_there_are_exercises() -> None:
    piece = Piece("gate", Numbering.ARABIC, (), ("Chapter 3", "Gate"), "3", opens=True)
    assert heads(piece, "chapter:gate", "", "exercise:gate:1", "") == [
        None,
        ("Chapter 3", "Gate"),
        ("Chapter 3", "Gate  ·  Exercises"),
        ("Chapter 3", "Gate  ·  Exercises"),
    ]


def test_a_section_that_opens_within_a_sheaf_wears_no_head() -> None:
    marks = (Bookmark("Index", 0, "index"), Bookmark("Exercises by grade", 0, "grades"))
    piece = Piece("book/index", Numbering.ARABIC, marks, ("", "Index"), opens=True)
    assert heads(piece, "index", "", "grades", "") == [None, ("", "Index"), None, ("", "Exercises by grade")]


def test_a_page_that_opens_nothing_wears_its_head_at_once() -> None:
    piece = Piece("book/log", Numbering.ARABIC, (Bookmark("Practice log", 0, "log"),), ("", "Practice log"))
    assert heads(piece, "log", "") == [("", "Practice log")] * 2


def test_a_place_that_leads_nowhere_is_left_empty() -> None:
    """Where answers are left out of a book, nothing tells on which page they are."""
    spots = (
        Spot("answer-page", "answer:gate:1", 0, 0, 0, 1, 1, 842),
        Spot("anchor", "chapter:gate", 0, 0, 0, 1, 1, 842),
    )
    pagination = paginate([Section(Sheaf(Path("one.pdf"), 1, spots), Numbering.ARABIC)])
    (worn,) = page_furniture(pagination, [Piece("gate", Numbering.ARABIC)], SAY)
    assert worn.fills == ()
