"""The master of the buyers' copies: the bytes that all of them share.

In: an edition. Out: the same pages, each with an empty nameplate at its foot. The nameplate is one form that every page
draws, so that a copy replaces three objects however many pages it has: the form, the document information and the XMP
packet. The font stands in the master, whole, so that it tells nothing of any buyer.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import Any, cast

from pypdf import PageObject, PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    IndirectObject,
    NameObject,
    NullObject,
    NumberObject,
)

from engraver.binding.syntax import Reference
from engraver.binding.writing import write_objects
from engraver.release.copying.embedding import FONT, embedded
from engraver.release.copying.nameplate import NameplateFont
from engraver.release.copying.pdf_update import Trailer

NAMEPLATE = "/Nameplate"
BASE_LINE = 17.0  # points over the lower edge of the paper: 6 mm, which printers still reach
SIDE = 36.0  # points that stay free on either side
_FOOTER = "/Artifact << /Type /Pagination /Subtype /Footer >> BDC"  # ISO 32000-1, 14.8.2.2.2


@dataclass(frozen=True, slots=True)
class Master:
    """``nameplate`` and ``packet`` are the numbers of the objects that a copy replaces, ``font`` of one that it uses.

    ``room`` is how wide the nameplate can be, in points.
    """

    pdf: Path
    trailer: Trailer
    nameplate: int
    packet: int
    font: int
    room: float
    sha256: Any  # of all its bytes; copied and carried on for each copy


def make_master(edition: Path, out: Path, font: NameplateFont) -> Master:
    """Write the master of an edition to ``out``. Raises EngravingError if it cannot be written."""
    writer = PdfWriter(clone_from=edition)
    face = embedded(writer, font)
    plate = writer._add_object(_empty_form(face))
    drawn: dict[str, IndirectObject] = {}
    rooms = []
    for page in writer.pages:
        rooms.append(room(float(page.trimbox.width)))
        move = _drawing(page)
        drawn.setdefault(move, writer._add_object(_stream(move)))
        _hang(page, plate, drawn[move])
    write_objects(_objects(writer), _place(writer.root_object), _place(writer._info), out)
    return _read_back(out, min(rooms))


def _objects(writer: PdfWriter) -> Iterator[bytes]:
    """As they are written; one that was taken out stands as null."""
    for made in writer._objects:
        buffer = BytesIO()
        (NullObject() if made is None else made).write_to_stream(buffer)
        yield buffer.getvalue()


def _place(item: DictionaryObject | None) -> Reference:
    assert item is not None, "every edition has an imprint"
    return Reference(_number(item.indirect_reference))


def room(width: float) -> float:
    """How wide a nameplate can be on a page of so many points."""
    return width - 2 * SIDE


def _empty_form(face: IndirectObject) -> DecodedStreamObject:
    form = _stream("")
    form[NameObject("/Type")] = NameObject("/XObject")
    form[NameObject("/Subtype")] = NameObject("/Form")
    form[NameObject("/BBox")] = ArrayObject(NumberObject(0) for _ in range(4))
    form[NameObject("/Resources")] = DictionaryObject({NameObject("/Font"): DictionaryObject({NameObject(FONT): face})})
    return form


def _stream(operators: str) -> DecodedStreamObject:
    stream = DecodedStreamObject()
    stream.set_data(operators.encode())
    return stream


def _drawing(page: PageObject) -> str:
    box = page.trimbox
    across, up = float(box.left + box.right) / 2, float(box.bottom) + BASE_LINE
    return f"\nq {_FOOTER} 1 0 0 1 {across:.3f} {up:.3f} cm {NAMEPLATE} Do EMC Q\n"


def _hang(page: PageObject, plate: IndirectObject, drawing: IndirectObject) -> None:
    """The nameplate among the page's resources and at the end of its contents; neither may be another page's too."""
    resources = DictionaryObject(cast(DictionaryObject, page.get("/Resources", DictionaryObject()).get_object()))
    forms = DictionaryObject(cast(DictionaryObject, resources.get("/XObject", DictionaryObject()).get_object()))
    forms[NameObject(NAMEPLATE)] = plate
    resources[NameObject("/XObject")] = forms
    page[NameObject("/Resources")] = resources
    page[NameObject("/Contents")] = ArrayObject([*_contents(page), drawing])


def _contents(page: PageObject) -> Iterator[Any]:
    if "/Contents" in page:
        held = page["/Contents"].get_object()
        yield from held if isinstance(held, ArrayObject) else [page.raw_get("/Contents")]


def _read_back(pdf: Path, room: float) -> Master:
    """The numbers under which the written file has its objects, and the hash that copies go on from."""
    reader = PdfReader(pdf)
    root = cast(DictionaryObject, reader.trailer["/Root"])
    plate = cast(IndirectObject, reader.pages[0]["/Resources"]["/XObject"].raw_get(NAMEPLATE))  # type: ignore[index]
    face = cast(DictionaryObject, plate.get_object())["/Resources"]["/Font"].raw_get(FONT)  # type: ignore[index]
    raw = pdf.read_bytes()
    starts = re.findall(rb"startxref\s+(\d+)\s+%%EOF", raw)
    identifier = cast(ArrayObject, reader.trailer["/ID"])[0]
    trailer = Trailer(
        length=len(raw),
        start=int(starts[-1]),
        size=int(str(reader.trailer["/Size"])),
        root=_number(reader.trailer.raw_get("/Root")),
        information=_number(reader.trailer.raw_get("/Info")),
        identifier=bytes(identifier.original_bytes).hex(),
    )
    return Master(pdf, trailer, plate.idnum, _number(root.raw_get("/Metadata")), face.idnum, room, hashlib.sha256(raw))


def _number(reference: Any) -> int:
    assert isinstance(reference, IndirectObject), "what a copy replaces stands as an object of its own"
    return reference.idnum
