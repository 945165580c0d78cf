"""Overlay: engraved pages and their furniture laid onto the paper.

In: a page as engraved and a page of the furniture sheet. Out: one page of the book. The ink of both is kept as it was
drawn; only a move is put before it, and the furniture becomes a form of its own so that resources cannot clash.
"""

from __future__ import annotations

from typing import cast

from pypdf import PageObject, PdfWriter
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    IndirectObject,
    NameObject,
    PdfObject,
    RectangleObject,
    StreamObject,
)

from engraver.binding.boxes import Shift, TrimSize, set_boxes

FURNITURE = "/Furniture"
# What belongs to the engraved file and not to the ink: annotations are made anew, tags would point nowhere.
LEFT_OUT = ("/Annots", "/StructParents", "/Tabs", "/Metadata", "/PieceInfo", "/LastModified", "/AA", "/B", "/Thumb")


def add_engraved_page(writer: PdfWriter, engraved: PageObject, move: Shift, trim: TrimSize) -> None:
    """Add a page of a sheaf, moved onto the paper."""
    page = writer.add_page(engraved, excluded_keys=LEFT_OUT)
    _wrap(writer, page, b"q\n" + move.operator() + b"\n", b"\nQ\n")
    set_boxes(page, trim)


def add_blank_page(writer: PdfWriter, trim: TrimSize) -> None:
    width, height = trim.points
    set_boxes(writer.add_blank_page(width, height), trim)


def lay_furniture(writer: PdfWriter, number: int, furniture: PageObject, move: Shift) -> None:
    """Print a page of the furniture sheet over page ``number`` of the book."""
    page = writer.pages[number]
    _own_forms(page)[NameObject(FURNITURE)] = _form(writer, furniture)
    _wrap(writer, page, b"", b"\nq\n" + move.operator() + f"\n{FURNITURE} Do\nQ\n".encode())


def _form(writer: PdfWriter, furniture: PageObject) -> IndirectObject:
    """The furniture page as a form (ISO 32000-1, 8.10)."""
    drawn = furniture.get_contents()
    form = DecodedStreamObject()
    form.set_data(drawn.get_data() if drawn is not None else b"")
    encoded = cast(StreamObject, form.flate_encode())
    encoded[NameObject("/Type")] = NameObject("/XObject")
    encoded[NameObject("/Subtype")] = NameObject("/Form")
    encoded[NameObject("/BBox")] = RectangleObject(furniture.mediabox)
    encoded[NameObject("/Resources")] = _resources(furniture).clone(writer)
    return writer._add_object(encoded)


def _resources(page: PageObject) -> DictionaryObject:
    return cast(DictionaryObject, page.get("/Resources", DictionaryObject()).get_object())


def _own_forms(page: PageObject) -> DictionaryObject:
    """The page's forms, in dictionaries that no other page shares."""
    resources = DictionaryObject(_resources(page))
    forms = DictionaryObject(cast(DictionaryObject, resources.get("/XObject", DictionaryObject()).get_object()))
    resources[NameObject("/XObject")] = forms
    page[NameObject("/Resources")] = resources
    return forms


def _wrap(writer: PdfWriter, page: PageObject, before: bytes, after: bytes) -> None:
    drawn = page.get("/Contents")
    inside = drawn.get_object() if drawn is not None else ArrayObject()
    middle = list(inside) if isinstance(inside, ArrayObject) else [page.raw_get("/Contents")]
    parts = [*_stream(writer, before), *middle, *_stream(writer, after)]
    page[NameObject("/Contents")] = ArrayObject(parts)


def _stream(writer: PdfWriter, operators: bytes) -> list[PdfObject]:
    if not operators:
        return []
    stream = DecodedStreamObject()
    stream.set_data(operators)
    return [writer._add_object(stream)]
