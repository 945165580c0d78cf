"""Overlay: engraved pages and their furniture laid onto the paper.

In: a page as engraved and a page of the furniture sheet. Out: one page of the book. The ink of both is kept as it was
drawn; only a move is put before it, and the furniture becomes a form of its own so that resources cannot clash.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from engraver.binding.boxes import Shift, TrimSize
from engraver.binding.cuttings import CutPage
from engraver.binding.document import Document
from engraver.binding.graft import Graft
from engraver.binding.page_boxes import page_boxes
from engraver.binding.syntax import Reference, Verbatim, written

FURNITURE = "/Furniture"


@dataclass(frozen=True, slots=True)
class Laid:
    """What is printed over a page: the form that draws it, and how far it moves."""

    form: Reference
    move: Shift


def add_engraved_page(graft: Graft, page: CutPage, move: Shift, trim: TrimSize, over: Laid | None) -> None:
    """Add a page of a sheaf, moved onto the paper. Of the page as engraved the ink is taken and nothing else."""
    document = graft.document
    before, after = document.operators(b"q\n" + move.operator() + b"\n"), document.operators(b"\nQ\n")
    entries: dict[str, Any] = {"/Type": "/Page", "/Resources": _resources(graft, page, over)}
    if page.group is not None:
        entries["/Group"] = graft.filled(page.group)
    entries["/Contents"] = [before, *map(graft.planted, page.drawn), after, *_printed(document, over)]
    document.add_page({**entries, **page_boxes(trim)})


def add_blank_page(document: Document, trim: TrimSize, over: Laid | None) -> None:
    forms = {"/XObject": {FURNITURE: over.form}} if over else {}
    entries = {"/Type": "/Page", "/Resources": forms, "/Contents": _printed(document, over)}
    document.add_page({**entries, **page_boxes(trim)})


def laid(graft: Graft, furniture: CutPage, move: Shift) -> Laid:
    """A page of the furniture sheet as a form (ISO 32000-1, 8.10)."""
    [drawn] = furniture.drawn  # a form is one stream, as a page of Cairo's is
    entries = {"/Type": "/XObject", "/Subtype": "/Form", "/BBox": furniture.box.corners}
    more = written({**entries, "/Resources": _resources(graft, furniture, None)})
    text = Verbatim(graft.filled(drawn).removesuffix(b">>") + more.removeprefix(b"<< "))
    return Laid(graft.document.once((drawn.digest, text), lambda: graft.stream(drawn, text)), move)


def _resources(graft: Graft, page: CutPage, over: Laid | None) -> Verbatim:
    forms = {name: graft.reference(place) for name, place in page.forms}
    if over is not None:
        forms[FURNITURE] = over.form
    drawn = b" /XObject " + written(forms) if forms else b""
    return Verbatim(b"<< %b%b >>" % (graft.filled(page.resources), drawn))


def _printed(document: Document, over: Laid | None) -> list[Reference]:
    if over is None:
        return []
    return [document.operators(b"\nq\n" + over.move.operator() + f"\n{FURNITURE} Do\nQ\n".encode())]
