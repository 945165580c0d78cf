"""Writing the imprint: what the finished file says of itself, and how a reader opens it."""

from __future__ import annotations

from engraver.binding.document import Document, stream_of
from engraver.binding.imprint import Imprint, information, packet, plain
from engraver.binding.syntax import text_string


def write_imprint(document: Document, imprint: Imprint) -> None:
    """Document information, XMP packet, language, and how a reader opens the book."""
    document.information |= {name: text_string(text) for name, text in information(imprint).items()}
    catalog = document.catalog
    catalog["/Metadata"] = document.add(stream_of(packet(imprint), {"/Type": "/Metadata", "/Subtype": "/XML"}))
    catalog["/Lang"] = text_string(plain(imprint.language))
    catalog["/ViewerPreferences"] = {"/DisplayDocTitle": True}
    catalog["/OpenAction"] = [document.places[0], "/Fit"]
    catalog["/PageMode"] = "/UseOutlines" if "/Outlines" in catalog else "/UseNone"
