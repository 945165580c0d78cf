"""Links: from the spots of a page to the anchors of the book.

In: the spots and web links of a page as engraved. Out: link annotations of the bound page. Links within the book carry
an explicit destination (ISO 32000-1, 12.3.2.2: page, /XYZ, left, top, zoom as it is) and no border.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pypdf import PdfWriter
from pypdf.generic import (
    ArrayObject,
    DictionaryObject,
    FloatObject,
    NameObject,
    NullObject,
    NumberObject,
    TextStringObject,
)

from engraver.binding.boxes import Shift
from engraver.binding.pagination import Landing, Pagination
from engraver.binding.sheaf import Rectangle, WebLink
from engraver.binding.spots import Spot

PRINTED = 4  # annotation flag: ISO 32000-1, Table 165, bit 3


def add_links(writer: PdfWriter, number: int, links: Sequence[DictionaryObject]) -> None:
    """Hang annotations onto a page of the book, in order."""
    if links:
        page = writer.pages[number]
        held = page.setdefault(NameObject("/Annots"), ArrayObject())
        held.extend(writer._add_object(link) for link in links)


def book_links(
    writer: PdfWriter, spots: Sequence[Spot], pagination: Pagination, here: Shift, shifts: Sequence[Shift]
) -> Iterator[DictionaryObject]:
    """A link for every spot that names an anchor of the book, but for the anchors themselves."""
    for spot in spots:
        landing = None if spot.is_anchor or spot.is_fill else pagination.anchors.get(spot.name)
        if landing is not None:
            link = _link((spot.x0, spot.y0, spot.x1, spot.y1), here)
            link[NameObject("/Dest")] = _destination(writer, landing, shifts[landing.page.index])
            yield link


def web_link(found: WebLink, here: Shift) -> DictionaryObject:
    link = _link(found.rectangle, here)
    action = {NameObject("/S"): NameObject("/URI"), NameObject("/URI"): TextStringObject(found.address)}
    link[NameObject("/A")] = DictionaryObject(action)
    return link


def _link(rectangle: Rectangle, here: Shift) -> DictionaryObject:
    x0, y0, x1, y1 = rectangle
    moved = (x0 + here.right, y0 + here.up, x1 + here.right, y1 + here.up)
    return DictionaryObject(
        {
            NameObject("/Type"): NameObject("/Annot"),
            NameObject("/Subtype"): NameObject("/Link"),
            NameObject("/Rect"): _points(*moved),
            NameObject("/Border"): ArrayObject(NumberObject(0) for _ in range(3)),
            NameObject("/F"): NumberObject(PRINTED),
        }
    )


def _destination(writer: PdfWriter, landing: Landing, there: Shift) -> ArrayObject:
    page = writer.pages[landing.page.index].indirect_reference
    assert page is not None, "pages are added before links"
    left, top = _points(landing.spot.x0 + there.right, landing.spot.y1 + there.up)
    return ArrayObject((page, NameObject("/XYZ"), left, top, NullObject()))


def _points(*lengths: float) -> ArrayObject:
    return ArrayObject(FloatObject(round(length, 3)) for length in lengths)
