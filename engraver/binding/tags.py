"""Tags: the structure by which a screen reader goes through the book, and a description in words for each score.

In: a document whose pages are bound, and descriptions by sheaf and score. Out: its structure tree (ISO 32000-1, 14.7
and 14.8): a section for each sheaf, in it paragraphs with their words, figures with their descriptions, and links. Page
furniture is left to the page labels and the outline, which say the same. Headings are paragraphs here, and links have
no description of their own: nothing claims conformance to PDF/UA.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from pathlib import Path
from typing import Any

from engraver.binding.document import Document, packed
from engraver.binding.letters import Face, faces
from engraver.binding.pagination import BookPage, Pagination
from engraver.binding.reading_order import FIGURE, Read, in_reading_order
from engraver.binding.sheaf import Descriptions
from engraver.binding.spots import Spot
from engraver.binding.syntax import Reference, text_string


def add_tags(document: Document, pagination: Pagination, descriptions: Descriptions) -> None:
    """To be called when pages and links are complete: what is drawn on the pages later has to mark itself."""
    tree = _Tree(document)
    for page in pagination.pages:
        if page.is_blank:
            _mark(document, document.pages[page.index], {}, ())  # its furniture is an artifact
        else:
            tree.add_page(page, pagination, descriptions)
    tree.finish()


class _Tree:
    """Elements are known by their references; their entries stand in the document."""

    def __init__(self, document: Document) -> None:
        self._book = document
        self._root_entries: dict[str, Any] = {"/Type": "/StructTreeRoot"}
        self._root = document.add(self._root_entries)
        self._document = self._element("/Document", self._root)
        self._root_entries["/K"] = [self._document]
        self._sections: dict[int, Reference] = {}
        self._figures: dict[tuple[Path, str], Reference] = {}
        self._faces: dict[Reference, Face] = {}
        self._parents: list[Any] = []  # what the parent tree holds under each number

    def add_page(self, bound: BookPage, pagination: Pagination, descriptions: Descriptions) -> None:
        page, place = self._book.pages[bound.index], self._book.places[bound.index]
        sheaf = pagination.sections[bound.section].sheaf
        scores = {spot.turn: spot for spot in pagination.spots_on(bound) if spot.is_score}
        described = {turn for turn, spot in scores.items() if (sheaf.pdf, spot.name) in descriptions}
        read = _mark(self._book, page, faces(self._book, page["/Resources"], self._faces), described)
        section = self._section(bound.section)
        elements = [self._read(one, place, section, sheaf.pdf, scores, descriptions) for one in read]
        sequences = {n: element for one, element in zip(read, elements, strict=True) for n in one.sequences}
        page["/StructParents"] = self._parent([sequences[n] for n in sorted(sequences)])
        page["/Tabs"] = "/S"
        for link in page.get("/Annots", ()):
            self._link(link, place, section)

    def finish(self) -> None:
        numbers = [part for number, held in enumerate(self._parents) for part in (number, held)]
        self._root_entries["/ParentTree"] = self._book.add({"/Nums": numbers})
        self._root_entries["/ParentTreeNextKey"] = len(self._parents)
        self._book.catalog["/StructTreeRoot"] = self._root
        self._book.catalog["/MarkInfo"] = {"/Marked": True}

    def _section(self, number: int) -> Reference:
        if number not in self._sections:
            self._sections[number] = self._child("/Sect", self._document)
        return self._sections[number]

    def _read(
        self,
        one: Read,
        page: Reference,
        section: Reference,
        pdf: Path,
        scores: Mapping[int, Spot],
        descriptions: Descriptions,
    ) -> Reference:
        """The element of what is read; the lines of one score are one figure, wherever they stand."""
        if one.role != FIGURE:
            said = {"/Pg": page, "/K": list(one.sequences), "/ActualText": text_string(one.text)}
            return self._child(one.role, section, said)
        name = (pdf, scores[one.turn].name)
        if name not in self._figures:
            self._figures[name] = self._child(FIGURE, section, {"/Alt": text_string(descriptions[name])})
        self._fill(self._figures[name], one.sequences, page)
        return self._figures[name]

    def _fill(self, element: Reference, sequences: Iterable[int], page: Reference) -> None:
        self._below(element).extend({"/Type": "/MCR", "/Pg": page, "/MCID": number} for number in sequences)

    def _link(self, link: Reference, page: Reference, section: Reference) -> None:
        element = self._child("/Link", section)
        self._below(element).append({"/Type": "/OBJR", "/Obj": link, "/Pg": page})
        self._book.value(link)["/StructParent"] = self._parent(element)

    def _parent(self, held: Any) -> int:
        self._parents.append(held)
        return len(self._parents) - 1

    def _child(self, role: str, parent: Reference, more: Mapping[str, Any] | None = None) -> Reference:
        element = self._element(role, parent, more)
        self._below(parent).append(element)
        return element

    def _element(self, role: str, parent: Reference, more: Mapping[str, Any] | None = None) -> Reference:
        return self._book.add({"/Type": "/StructElem", "/S": role, "/P": parent, "/K": [], **(more or {})})

    def _below(self, element: Reference) -> list[Any]:
        held: list[Any] = self._book.value(element)["/K"]
        return held


def _mark(
    document: Document, page: dict[str, Any], of_page: Mapping[str, Face], figures: Collection[int]
) -> tuple[Read, ...]:
    """Cut a page's contents; they become one stream, which no other page draws."""
    drawn = b"\n".join(document.value(part).drawn for part in page["/Contents"])
    marked, read = in_reading_order(drawn, of_page, figures)
    page["/Contents"] = document.add(packed(marked, {}))
    return read
