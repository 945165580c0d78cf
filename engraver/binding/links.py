"""Links: from the spots of a page to the anchors of the book.

In: the spots and web links of a page as engraved. Out: link annotations of the bound page. Links within the book carry
an explicit destination (ISO 32000-1, 12.3.2.2: page, /XYZ, left, top, zoom as it is) and no border.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from engraver.binding.boxes import Shift
from engraver.binding.document import Document
from engraver.binding.pagination import Landing, Pagination
from engraver.binding.sheaf import Rectangle, WebLink
from engraver.binding.spots import Spot

PRINTED = 4  # annotation flag: ISO 32000-1, Table 165, bit 3


def add_links(document: Document, number: int, links: Sequence[dict[str, Any]]) -> None:
    """Hang annotations onto a page of the book, in order."""
    if links:
        document.pages[number].setdefault("/Annots", []).extend(map(document.add, links))


def book_links(
    document: Document, spots: Sequence[Spot], pagination: Pagination, here: Shift, shifts: Sequence[Shift]
) -> Iterator[dict[str, Any]]:
    """A link for every spot that names an anchor of the book, but for the anchors themselves."""
    for spot in spots:
        landing = None if spot.is_anchor or spot.is_fill else pagination.anchors.get(spot.name)
        if landing is not None:
            destination = landing_place(document, landing, shifts[landing.page.index])
            yield {**_link((spot.x0, spot.y0, spot.x1, spot.y1), here), "/Dest": destination}


def web_link(found: WebLink, here: Shift) -> dict[str, Any]:
    return {**_link(found.rectangle, here), "/A": {"/S": "/URI", "/URI": found.address.encode()}}


def landing_place(document: Document, landing: Landing, there: Shift) -> list[Any]:
    """The destination of what leads to an anchor."""
    left, top = _points(landing.spot.x0 + there.right, landing.spot.y1 + there.up)
    return [document.places[landing.page.index], "/XYZ", left, top, None]


def _link(rectangle: Rectangle, here: Shift) -> dict[str, Any]:
    x0, y0, x1, y1 = rectangle
    moved = (x0 + here.right, y0 + here.up, x1 + here.right, y1 + here.up)
    return {
        "/Type": "/Annot",
        "/Subtype": "/Link",
        "/Rect": _points(*moved),
        "/Border": [0, 0, 0],
        "/F": PRINTED,
    }


def _points(*lengths: float) -> list[float]:
    return [round(float(length), 3) for length in lengths]
