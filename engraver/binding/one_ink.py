"""One ink: a document whose pages are bound in, every colour of it a grey out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pypdf import PageObject, PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, StreamObject

from engraver.binding.inks import Tone, turned_to
from engraver.errors import EngravingError, Problem

_OTHER_COLOURS = ("/ColorSpace", "/Shading", "/Pattern")


def in_one_ink(writer: PdfWriter, tone: Tone) -> None:
    """Turn every colour of every page into a grey. Raises EngravingError for what it could not turn."""
    seen: set[int] = set()
    for page in writer.pages:
        for part in _drawn(page):
            _turn(part, tone, seen)
        for form in _forms(page.get("/Resources", DictionaryObject()).get_object()):
            _turn(form, tone, seen)


def _drawn(page: PageObject) -> Iterator[StreamObject]:
    """The streams of a page's contents."""
    held: Any = page["/Contents"].get_object() if "/Contents" in page else ArrayObject()
    for part in held if isinstance(held, ArrayObject) else [held]:
        yield part.get_object()


def _forms(resources: Any) -> Iterator[StreamObject]:
    """The forms of a page, and those that they draw."""
    for name in _OTHER_COLOURS:
        if resources.get(name):
            _refuse(f"a page has a {name[1:]}")
    for reference in resources.get("/XObject", DictionaryObject()).get_object().values():
        form = reference.get_object()
        if form.get("/Subtype") != "/Form":
            _refuse("a page has an image")
        yield form
        yield from _forms(form.get("/Resources", DictionaryObject()).get_object())


def _refuse(what: str) -> None:
    raise EngravingError(Problem(None, f"{what}, which cannot be turned into one ink", "leave it out, or use colour"))


def _turn(stream: StreamObject, tone: Tone, seen: set[int]) -> None:
    if id(stream) not in seen:
        seen.add(id(stream))
        drawn = stream.get_data()
        turned = turned_to(drawn, tone)
        if turned != drawn:
            stream.set_data(turned)
