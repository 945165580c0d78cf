"""Sheaves: engraved PDFs before they are bound.

In: the PDF of a chapter. Out: how many pages it has and which spots are marked on them.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from operator import attrgetter
from pathlib import Path
from typing import Any

from engraver.binding.engraved import EngravedFile, EngravedPage
from engraver.binding.spots import SCHEME, Spot, read_mark
from engraver.errors import EngravingError, Problem

AGAIN = "engrave the chapter again"
WEB = ("http://", "https://", "mailto:")

Rectangle = tuple[float, float, float, float]  # x0, y0, x1, y1 in points

Descriptions = Mapping[tuple[Path, str], str]  # by the PDF of a sheaf and the name of a score in it


@dataclass(frozen=True, slots=True)
class WebLink:
    """``page`` counts from 0; the rectangle is as on the page as engraved."""

    page: int
    address: str
    rectangle: Rectangle


@dataclass(frozen=True, slots=True)
class Sheaf:
    """One engraved PDF. ``spots`` are in the order of its pages, as are its links to the web, ``web``."""

    pdf: Path
    pages: int
    spots: tuple[Spot, ...]
    web: tuple[WebLink, ...] = ()

    def spots_on(self, page: int) -> tuple[Spot, ...]:
        """The spots on one page, counted from 0."""
        of_page = attrgetter("page")
        return self.spots[bisect_left(self.spots, page, key=of_page) : bisect_right(self.spots, page, key=of_page)]

    def web_on(self, page: int) -> tuple[WebLink, ...]:
        """The links to the web on one page. Other addresses (a file of the engraver's, say) have no place in a book."""
        return tuple(link for link in self.web if link.page == page)


def open_sheaf(pdf: Path) -> Sheaf:
    """Count the pages and read the spots. Raises EngravingError for a file that is missing, damaged or badly marked."""
    pages = read_pages(pdf)
    spots: list[Spot] = []
    web: list[WebLink] = []
    with legible(pdf):
        for number, page in enumerate(pages):
            height = page.mediabox.top
            for turn, (address, rectangle) in enumerate(_addresses(page)):
                if address.startswith(SCHEME):
                    spots.append(Spot(*_kind_and_name(pdf, number, address), number, *rectangle, height, turn))
                elif address.startswith(WEB):
                    web.append(WebLink(number, address, rectangle))
    return Sheaf(pdf, len(pages), tuple(spots), tuple(web))


def read_pages(pdf: Path) -> list[EngravedPage]:
    """All pages of a PDF that the engraver made."""
    with legible(pdf):
        pages = EngravedFile(pdf).pages()
    if not pages:
        raise EngravingError(Problem(None, f'"{pdf}" has no pages', AGAIN))
    return pages


@contextmanager
def legible(pdf: Path) -> Iterator[None]:
    """Around whatever reads from an engraved PDF: damage is found only where the reader comes upon it."""
    try:
        yield
    except EngravingError:
        raise
    except FileNotFoundError as error:
        raise EngravingError(Problem(None, f'"{pdf}" is not there', AGAIN)) from error
    except Exception as error:  # a damaged PDF fails in any way its reader can
        raise EngravingError(Problem(None, f'"{pdf}" cannot be read as a PDF: {error}', AGAIN)) from error


def _kind_and_name(pdf: Path, number: int, address: str) -> tuple[str, str]:
    kind_and_name = read_mark(address)
    if kind_and_name is None:
        message = f'"{address}" on page {number + 1} of "{pdf}" marks nothing that binding knows'
        raise EngravingError(Problem(None, message, "marks are anchor/NAME, link/NAME and place/KIND/NAME"))
    return kind_and_name


def _addresses(page: EngravedPage) -> Iterator[tuple[str, Rectangle]]:
    """The links of a page that carry an address, and their rectangles, in the order of the file."""
    for fields in page.annotations:
        action = page.file.value(fields.get("/A", {}))
        address = page.file.value(action.get("/URI"))
        if address is not None:
            yield address.decode("utf-8", "replace"), _rectangle(fields)


def _rectangle(fields: dict[str, Any]) -> Rectangle:
    """The exact rectangle: Cairo rounds /Rect outwards to whole points, but not its corners in /QuadPoints."""
    corners = [float(number) for number in fields.get("/QuadPoints", fields["/Rect"])]
    across, up = corners[::2], corners[1::2]
    return min(across), min(up), max(across), max(up)
