"""Sheaves: engraved PDFs before they are bound.

In: the PDF of a chapter. Out: how many pages it has and which spots are marked on them.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from operator import attrgetter
from pathlib import Path
from typing import Any

from pypdf import PageObject, PdfReader

from engraver.binding.spots import SCHEME, Spot, read_mark
from engraver.errors import EngravingError, Problem

AGAIN = "engrave the chapter again"


@dataclass(frozen=True, slots=True)
class Sheaf:
    """One engraved PDF. ``spots`` are in the order of its pages."""

    pdf: Path
    pages: int
    spots: tuple[Spot, ...]

    def spots_on(self, page: int) -> tuple[Spot, ...]:
        """The spots on one page, counted from 0."""
        of_page = attrgetter("page")
        return self.spots[bisect_left(self.spots, page, key=of_page) : bisect_right(self.spots, page, key=of_page)]


@dataclass(frozen=True, slots=True)
class Annotation:
    """A link as it stands in an engraved PDF: its address and its rectangle (x0, y0, x1, y1)."""

    address: str
    rectangle: tuple[float, float, float, float]


def open_sheaf(pdf: Path) -> Sheaf:
    """Count the pages and read the spots. Raises EngravingError for a file that is missing, damaged or badly marked."""
    pages = read_pages(pdf)
    with legible(pdf):
        spots = tuple(spot for number, page in enumerate(pages) for spot in _spots(pdf, number, page))
    return Sheaf(pdf, len(pages), spots)


def read_pages(pdf: Path) -> list[PageObject]:
    """All pages of a PDF that the engraver made."""
    with legible(pdf):
        pages = list(PdfReader(pdf, strict=True).pages)
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


def _spots(pdf: Path, number: int, page: PageObject) -> Iterator[Spot]:
    for turn, annotation in enumerate(addressed_links(page)):
        if not annotation.address.startswith(SCHEME):
            continue
        kind_and_name = read_mark(annotation.address)
        if kind_and_name is None:
            message = f'"{annotation.address}" on page {number + 1} of "{pdf}" marks nothing that binding knows'
            raise EngravingError(Problem(None, message, "marks are anchor/NAME, link/NAME and place/KIND/NAME"))
        kind, name = kind_and_name
        yield Spot(kind, name, number, *annotation.rectangle, float(page.mediabox.top), turn)


def addressed_links(page: PageObject) -> Iterator[Annotation]:
    """The links of a page that carry an address, in the order of the file."""
    for reference in page.get("/Annots", ()):
        fields = reference.get_object()
        address = fields.get("/A", {}).get("/URI")
        if address is not None:
            yield Annotation(str(address), _rectangle(fields))


def _rectangle(fields: Any) -> tuple[float, float, float, float]:
    """The exact rectangle: Cairo rounds /Rect outwards to whole points, but not its corners in /QuadPoints."""
    corners = [float(number) for number in fields.get("/QuadPoints", fields["/Rect"])]
    across, up = corners[::2], corners[1::2]
    return min(across), min(up), max(across), max(up)
