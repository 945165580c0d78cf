"""Tags: the structure by which a screen reader goes through the book, and a description in words for each score.

In: a document whose pages are bound, and descriptions by sheaf and score. Out: its structure tree (ISO 32000-1, 14.7
and 14.8): a section for each sheaf, in it paragraphs with their words, figures with their descriptions, and links. Page
furniture is left to the page labels and the outline, which say the same. Headings are paragraphs here, and links have
no description of their own: nothing claims conformance to PDF/UA.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from pathlib import Path
from typing import Any, cast

from pypdf import PageObject, PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    DecodedStreamObject,
    DictionaryObject,
    IndirectObject,
    NameObject,
    NumberObject,
    TextStringObject,
)

from engraver.binding.bind import Descriptions
from engraver.binding.letters import Face, faces
from engraver.binding.pagination import BookPage, Pagination
from engraver.binding.reading_order import FIGURE, Read, in_reading_order
from engraver.binding.spots import Spot


def add_tags(writer: PdfWriter, pagination: Pagination, descriptions: Descriptions) -> None:
    """To be called when pages and links are complete: what is drawn on the pages later has to mark itself."""
    tree = _Tree(writer)
    for page in pagination.pages:
        if page.is_blank:
            _mark(writer, writer.pages[page.index], {}, ())  # its furniture is an artifact
        else:
            tree.add_page(page, pagination, descriptions)
    tree.finish()


class _Tree:
    def __init__(self, writer: PdfWriter) -> None:
        self._writer = writer
        self._root = DictionaryObject({NameObject("/Type"): NameObject("/StructTreeRoot")})
        self._root_reference = writer._add_object(self._root)
        self._document = self._element("/Document", self._root_reference)
        self._root[NameObject("/K")] = ArrayObject([self._document.indirect_reference])
        self._sections: dict[int, DictionaryObject] = {}
        self._figures: dict[tuple[Path, str], DictionaryObject] = {}
        self._faces: dict[int, Face] = {}
        self._parents: list[Any] = []  # what the parent tree holds under each number

    def add_page(self, bound: BookPage, pagination: Pagination, descriptions: Descriptions) -> None:
        page = self._writer.pages[bound.index]
        sheaf = pagination.sections[bound.section].sheaf
        scores = {spot.turn: spot for spot in pagination.spots_on(bound) if spot.is_score}
        described = {turn for turn, spot in scores.items() if (sheaf.pdf, spot.name) in descriptions}
        read = _mark(self._writer, page, faces(cast(DictionaryObject, page["/Resources"]), self._faces), described)
        section = self._section(bound.section)
        elements = [self._read(one, page, section, sheaf.pdf, scores, descriptions) for one in read]
        sequences = {n: element for one, element in zip(read, elements, strict=True) for n in one.sequences}
        page[NameObject("/StructParents")] = self._parent([sequences[n] for n in sorted(sequences)])
        page[NameObject("/Tabs")] = NameObject("/S")
        for link in page.get("/Annots", ()):
            self._link(link, page, section)

    def finish(self) -> None:
        catalog = self._writer.root_object
        numbers = ArrayObject(part for n, held in enumerate(self._parents) for part in (NumberObject(n), held))
        parents = self._writer._add_object(DictionaryObject({NameObject("/Nums"): numbers}))
        self._root[NameObject("/ParentTree")] = parents
        self._root[NameObject("/ParentTreeNextKey")] = NumberObject(len(self._parents))
        catalog[NameObject("/StructTreeRoot")] = self._root_reference
        catalog[NameObject("/MarkInfo")] = DictionaryObject({NameObject("/Marked"): BooleanObject(True)})

    def _section(self, number: int) -> DictionaryObject:
        if number not in self._sections:
            self._sections[number] = self._child("/Sect", self._document)
        return self._sections[number]

    def _read(
        self,
        one: Read,
        page: PageObject,
        section: DictionaryObject,
        pdf: Path,
        scores: Mapping[int, Spot],
        descriptions: Descriptions,
    ) -> IndirectObject:
        """The element of what is read; the lines of one score are one figure, wherever they stand."""
        if one.role != FIGURE:
            return self._paragraph(one, page, section)
        name = (pdf, scores[one.turn].name)
        if name not in self._figures:
            figure = self._child(FIGURE, section)
            figure[NameObject("/Alt")] = TextStringObject(descriptions[name])
            self._figures[name] = figure
        return _reference(self._fill(self._figures[name], one.sequences, page))

    def _paragraph(self, one: Read, page: PageObject, section: DictionaryObject) -> IndirectObject:
        paragraph = self._child(one.role, section)
        paragraph[NameObject("/Pg")] = _reference(page)
        paragraph[NameObject("/K")] = ArrayObject(map(NumberObject, one.sequences))
        paragraph[NameObject("/ActualText")] = TextStringObject(one.text)
        return _reference(paragraph)

    def _fill(self, element: DictionaryObject, sequences: Iterable[int], page: PageObject) -> DictionaryObject:
        for number in sequences:
            marked = {"/Type": NameObject("/MCR"), "/Pg": _reference(page), "/MCID": NumberObject(number)}
            held = DictionaryObject({NameObject(key): value for key, value in marked.items()})
            cast(ArrayObject, element["/K"]).append(held)
        return element

    def _link(self, link: Any, page: PageObject, section: DictionaryObject) -> None:
        element = self._child("/Link", section)
        held = {"/Type": NameObject("/OBJR"), "/Obj": link, "/Pg": _reference(page)}
        cast(ArrayObject, element["/K"]).append(DictionaryObject({NameObject(k): v for k, v in held.items()}))
        link.get_object()[NameObject("/StructParent")] = self._parent(_reference(element))

    def _parent(self, held: Any) -> NumberObject:
        self._parents.append(ArrayObject(held) if isinstance(held, list) else held)
        return NumberObject(len(self._parents) - 1)

    def _child(self, role: str, parent: DictionaryObject) -> DictionaryObject:
        element = self._element(role, _reference(parent))
        cast(ArrayObject, parent["/K"]).append(_reference(element))
        return element

    def _element(self, role: str, parent: IndirectObject) -> DictionaryObject:
        entries = {"/Type": NameObject("/StructElem"), "/S": NameObject(role), "/P": parent, "/K": ArrayObject()}
        element = DictionaryObject({NameObject(key): value for key, value in entries.items()})
        self._writer._add_object(element)
        return element


def _reference(held: Any) -> IndirectObject:
    reference = held.indirect_reference
    assert isinstance(reference, IndirectObject), "it stands in the document as an object of its own"
    return reference


def _mark(
    writer: PdfWriter, page: PageObject, of_page: Mapping[str, Face], figures: Collection[int]
) -> tuple[Read, ...]:
    """Cut a page's contents; they become one stream, which no other page draws."""
    drawn = b"\n".join(part.get_object().get_data() for part in cast(ArrayObject, page["/Contents"].get_object()))
    marked, read = in_reading_order(drawn, of_page, figures)
    stream = DecodedStreamObject()
    stream.set_data(marked)
    page[NameObject("/Contents")] = writer._add_object(stream.flate_encode())
    return read
