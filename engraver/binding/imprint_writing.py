"""Writing the imprint: what the finished file says of itself, and how a reader opens it."""

from __future__ import annotations

from pypdf import PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    DictionaryObject,
    NameObject,
    NullObject,
    StreamObject,
    TextStringObject,
)

from engraver.binding.imprint import Imprint, information, packet, plain


def write_imprint(writer: PdfWriter, imprint: Imprint) -> None:
    """Document information, XMP packet, language, and how a reader opens the book."""
    writer.metadata = None
    writer.add_metadata(information(imprint))
    catalog = writer.root_object
    catalog[NameObject("/Metadata")] = writer._add_object(_metadata(imprint))
    catalog[NameObject("/Lang")] = TextStringObject(plain(imprint.language))
    preferences = {NameObject("/DisplayDocTitle"): BooleanObject(True)}
    catalog[NameObject("/ViewerPreferences")] = DictionaryObject(preferences)
    first = writer.pages[0].indirect_reference or NullObject()
    catalog[NameObject("/OpenAction")] = ArrayObject((first, NameObject("/Fit")))
    catalog[NameObject("/PageMode")] = NameObject("/UseOutlines" if "/Outlines" in catalog else "/UseNone")


def _metadata(imprint: Imprint) -> StreamObject:
    stream = StreamObject()
    stream[NameObject("/Type")] = NameObject("/Metadata")
    stream[NameObject("/Subtype")] = NameObject("/XML")
    stream.set_data(packet(imprint))
    return stream
