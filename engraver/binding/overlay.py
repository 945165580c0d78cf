"""Overlay: engraved pages and their furniture laid onto the paper.

In: a page as engraved and a page of the furniture sheet. Out: one page of the book. The ink of both is kept as it was
drawn; only a move is put before it, and the furniture becomes a form of its own so that resources cannot clash.
"""

from __future__ import annotations

from typing import Any, cast

from pypdf import PageObject, PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject, NameObject, NumberObject, RectangleObject

from engraver.binding.boxes import Shift, TrimSize
from engraver.binding.engraved import EngravedPage, Stream
from engraver.binding.graft import Graft, Grafts
from engraver.binding.page_boxes import set_boxes
from engraver.binding.syntax import Reference

FURNITURE = "/Furniture"


def add_engraved_page(writer: PdfWriter, grafts: Grafts, engraved: EngravedPage, move: Shift, trim: TrimSize) -> None:
    """Add a page of a sheaf, moved onto the paper. Of the page as engraved the ink is taken and nothing else."""
    graft = grafts.file(engraved.file)
    page = PageObject(writer)
    page[NameObject("/Type")] = NameObject("/Page")
    page[NameObject("/Resources")] = graft.resources(engraved.entries.get("/Resources"))
    if "/Group" in engraved.entries:
        page[NameObject("/Group")] = graft.value(engraved.file.value(engraved.entries["/Group"]))
    before, after = grafts.operators(b"q\n" + move.operator() + b"\n"), grafts.operators(b"\nQ\n")
    drawn = [graft.stream(cast(Stream, engraved.file.value(part))) for part in _contents(engraved)]
    page[NameObject("/Contents")] = ArrayObject([before, *drawn, after])
    set_boxes(page, trim)
    _append(writer, page)


def add_blank_page(writer: PdfWriter, trim: TrimSize) -> None:
    page = PageObject(writer)
    page[NameObject("/Type")] = NameObject("/Page")
    page[NameObject("/Resources")] = DictionaryObject()
    page[NameObject("/Contents")] = ArrayObject()
    set_boxes(page, trim)
    _append(writer, page)


def lay_furniture(page: PageObject, grafts: Grafts, furniture: EngravedPage, move: Shift) -> None:
    """Print a page of the furniture sheet over a page of the book."""
    graft = grafts.file(furniture.file)
    resources = cast(DictionaryObject, page["/Resources"])
    forms = cast(DictionaryObject, resources.setdefault(NameObject("/XObject"), DictionaryObject()))
    forms[NameObject(FURNITURE)] = _form(graft, furniture)
    drawing = b"\nq\n" + move.operator() + f"\n{FURNITURE} Do\nQ\n".encode()
    cast(ArrayObject, page["/Contents"]).append(grafts.operators(drawing))


def _append(writer: PdfWriter, page: PageObject) -> None:
    """As the writer's own method does, which would copy the page first."""
    tree, known = cast(DictionaryObject, writer._pages.get_object()), writer.flattened_pages
    assert known is not None, "a new document knows its pages"
    page[NameObject("/Parent")] = writer._pages
    cast(ArrayObject, tree["/Kids"]).append(writer._add_object(page))
    known.append(page)
    tree[NameObject("/Count")] = NumberObject(len(known))


def _contents(page: EngravedPage) -> list[Reference]:
    """The streams that draw a page, in order."""
    contents: Any = page.entries.get("/Contents", [])
    if isinstance(contents, Reference) and isinstance(held := page.file.value(contents), list):
        contents = held
    return [contents] if isinstance(contents, Reference) else list(contents)


def _form(graft: Graft, furniture: EngravedPage) -> IndirectObject:
    """The furniture page as a form (ISO 32000-1, 8.10)."""
    [drawn] = _contents(furniture)  # a form is one stream, as a page of Cairo's is
    stream = furniture.file.value(drawn)
    assert isinstance(stream, Stream), "contents are streams"
    box = furniture.mediabox
    return graft.stream(
        stream,
        Type=NameObject("/XObject"),
        Subtype=NameObject("/Form"),
        BBox=RectangleObject((box.left, box.bottom, box.right, box.top)),
        Resources=graft.resources(furniture.entries.get("/Resources")),
    )
