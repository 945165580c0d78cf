"""One ink: a document whose pages are bound in, every colour of it a grey out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from engraver.binding.document import Document, Stream, packed, stream_of
from engraver.binding.inks import Tone, turned_to
from engraver.binding.syntax import Reference
from engraver.errors import EngravingError, Problem

_OTHER_COLOURS = ("/ColorSpace", "/Shading", "/Pattern")


def in_one_ink(document: Document, tone: Tone) -> None:
    """Turn every colour of every page into a grey. Raises EngravingError for what it could not turn."""
    drawn = (part for page in document.pages for part in (*page["/Contents"], *_forms(document, page["/Resources"])))
    for part in dict.fromkeys(drawn):
        stream = document.value(part)
        coloured = stream.drawn
        turned = turned_to(coloured, tone)
        if turned != coloured:
            document.objects[part.number - 1] = _again(document.value(stream.entries), turned)


def _again(entries: dict[str, Any], drawn: bytes) -> Stream:
    """A stream that is drawn like another, packed if that was."""
    return packed(drawn, entries) if "/Filter" in entries else stream_of(drawn, entries)


def _forms(document: Document, resources: Any) -> Iterator[Reference]:
    """The forms of a page, and those that they draw."""
    held = document.value(resources)
    for name in _OTHER_COLOURS:
        if document.value(held.get(name)):
            _refuse(f"a page has a {name[1:]}")
    for reference in document.value(held.get("/XObject", {})).values():
        form = document.value(document.value(reference).entries)
        if form.get("/Subtype") != "/Form":
            _refuse("a page has an image")
        yield reference
        yield from _forms(document, form.get("/Resources", {}))


def _refuse(what: str) -> None:
    raise EngravingError(Problem(None, f"{what}, which cannot be turned into one ink", "leave it out, or use colour"))
