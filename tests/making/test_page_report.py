"""Which pages a report calls poor: marks on the pages of sheaves in, lines out."""

from __future__ import annotations

from pathlib import Path

import pytest

from engraver.binding import Numbering, Pagination, Section, Sheaf, Spot, paginate
from engraver.making.page_report import page_fills, told
from engraver.manuscript.collation import Piece


def book_of(*sheaves: tuple[int | None, ...]) -> tuple[Pagination, list[Piece]]:
    """A sheaf for each tuple, a page for each number: thousandths of its room, None for a page without a mark."""
    sections, pieces = [], []
    for number, fills in enumerate(sheaves):
        spots = tuple(
            Spot("fill", str(full), page, 0, 0, 1, 1, 842) for page, full in enumerate(fills) if full is not None
        )
        sections.append(Section(Sheaf(Path(f"{number}.pdf"), len(fills), spots), Numbering.ARABIC))
        pieces.append(Piece(f"sheaf {number}", Numbering.ARABIC))
    return paginate(sections), pieces


@pytest.mark.parametrize(
    ("sheaves", "poor"),
    [
        ([(900, 500, 250)], []),
        ([(900, 499, 900)], ["2"]),
        ([(900, 249)], ["2"]),
        ([(249,), (250,), (900, 400, 100)], ["1", "4", "5"]),
        ([(None, 100)], ["2"]),
    ],
)
def test_pages_are_poor_under_a_half_and_last_pages_under_a_quarter(
    sheaves: list[tuple[int | None, ...]], poor: list[str]
) -> None:
    assert [fill.label for fill in page_fills(*book_of(*sheaves)) if fill.is_poor] == poor


def test_a_report_tells_the_average_and_every_poor_page() -> None:
    assert list(told(page_fills(*book_of((900, 300, 600))))) == [
        "pages are 60 % full on average",
        "page 2 is 30 % full (sheaf 0)",
    ]


def test_a_book_whose_pages_say_nothing_has_no_report() -> None:
    assert list(told(page_fills(*book_of((None,))))) == []
