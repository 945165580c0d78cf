"""How full the pages are: the pages of a bound book in; out, the poor ones, which a publisher would look at twice.

The engraver marks on every page how much of its room for text and music is used.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from engraver.binding import BookPage, Pagination
from engraver.manuscript.collation import Piece

POOR = Fraction(1, 2)  # less than this on a page that others of its sheaf follow
POOR_AT_THE_END = Fraction(1, 4)  # less than this on the last page


@dataclass(frozen=True, slots=True)
class PageFill:
    """``label``: the number printed on the page; ``of``: the chapter's or the page's name; ``full``: from 0 to 1."""

    label: str
    of: str
    full: Fraction
    is_poor: bool


def page_fills(pagination: Pagination, pieces: Sequence[Piece]) -> tuple[PageFill, ...]:
    """Of every page that says how full it is: blanks say nothing."""
    return tuple(_fills(pagination, pieces))


def _fills(pagination: Pagination, pieces: Sequence[Piece]) -> Iterator[PageFill]:
    for page in pagination.pages:
        full = pagination.fullness(page)
        if full is not None:
            least = POOR_AT_THE_END if _is_last(page, pagination) else POOR
            yield PageFill(page.label, pieces[page.section].name, full, full < least)


def _is_last(page: BookPage, pagination: Pagination) -> bool:
    return page.page == pagination.sections[page.section].sheaf.pages - 1


def told(fills: Sequence[PageFill]) -> Iterator[str]:
    """A line for the whole book, and one for each poor page."""
    if fills:
        average = sum(fill.full for fill in fills) / len(fills)
        yield f"pages are {round(average * 100)} % full on average"
    for fill in fills:
        if fill.is_poor:
            yield f"page {fill.label} is {round(fill.full * 100)} % full ({fill.of})"
