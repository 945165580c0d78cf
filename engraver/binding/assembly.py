"""Assembly: sheaves and furniture joined into one document, which is written.

In: a pagination, the engraved furniture sheet (one page for each page of the book) and the imprint. Out: the PDF.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path

from pypdf import PdfWriter
from pypdf.generic import NameObject

from engraver.binding.bind import Descriptions
from engraver.binding.bookmarks import add_bookmarks
from engraver.binding.boxes import Shift, TrimSize, shift
from engraver.binding.engraved import EngravedPage
from engraver.binding.graft import Grafts
from engraver.binding.imprint import Imprint
from engraver.binding.imprint_writing import write_imprint
from engraver.binding.inks import Tone
from engraver.binding.label_tree import label_tree
from engraver.binding.links import add_links, book_links, web_link
from engraver.binding.one_ink import in_one_ink
from engraver.binding.overlay import add_blank_page, add_engraved_page, lay_furniture
from engraver.binding.pagination import BookPage, Pagination
from engraver.binding.sheaf import Sheaf, legible, read_pages, sheaf_of
from engraver.binding.tags import add_tags
from engraver.binding.writing import write_book
from engraver.errors import EngravingError, Problem


def assemble(
    pagination: Pagination,
    out: Path,
    imprint: Imprint,
    trim: TrimSize,
    furniture: Path | None,
    *,
    sample: bool,
    links: bool,
    tone: Tone | None,
    descriptions: Descriptions | None,
) -> None:
    """See `bind`."""
    if not sample:
        _refuse_dangling(pagination)
    writer = PdfWriter()
    writer.pdf_header = "%PDF-1.7"  # ISO 32000-1
    grafts = Grafts(writer)
    shifts = _add_pages(writer, grafts, pagination, trim, links)
    if furniture is not None:
        _add_furniture(writer, grafts, pagination, trim, furniture, shifts, links)
    if tone is not None:
        in_one_ink(writer, tone)
    add_bookmarks(writer, pagination, shifts, trim)
    writer.root_object[NameObject("/PageLabels")] = label_tree([page.folio for page in pagination.pages])
    if descriptions is not None:
        add_tags(writer, pagination, descriptions)
    write_imprint(writer, imprint)
    write_book(writer, out)


def _refuse_dangling(pagination: Pagination) -> None:
    problems = [
        Problem(None, f'page {page.label} has a link to "{spot.name}", which is nowhere in the book')
        for page, spot in pagination.dangling()
    ]
    if problems:
        raise EngravingError(problems)


def _add_pages(writer: PdfWriter, grafts: Grafts, pagination: Pagination, trim: TrimSize, links: bool) -> list[Shift]:
    """Every page, then the links, which need all pages to be there. Out: how far each page moved."""
    shifts: list[Shift] = []
    for run in _runs(pagination):
        sheaf = pagination.sections[run[0].section].sheaf
        with legible(sheaf.pdf):
            sources = _sources(sheaf)
            for page in run:
                source = None if page.page is None else sources[page.page]
                shifts.append(_add_page(writer, grafts, source, trim, page.is_recto))
    if links:
        for page in pagination.pages:
            here = shifts[page.index]
            inside = book_links(writer, pagination.spots_on(page), pagination, here, shifts)
            add_links(writer, page.index, [*inside, *(web_link(found, here) for found in pagination.web_on(page))])
    return shifts


def _runs(pagination: Pagination) -> Iterator[list[BookPage]]:
    """Pages in a row of one sheaf: it is read once for them, and no longer held than they need."""
    for _, run in groupby(pagination.pages, lambda page: pagination.sections[page.section].sheaf.pdf):
        yield list(run)


def _sources(sheaf: Sheaf) -> list[EngravedPage]:
    pages = read_pages(sheaf.pdf)
    if len(pages) != sheaf.pages:
        raise EngravingError(Problem(None, f'"{sheaf.pdf}" has changed since its pages were counted', "build again"))
    return pages


def _add_page(writer: PdfWriter, grafts: Grafts, source: EngravedPage | None, trim: TrimSize, is_recto: bool) -> Shift:
    if source is None:
        add_blank_page(writer, trim)
        return Shift(0, 0)
    move = shift(source, trim, is_recto)
    add_engraved_page(writer, grafts, source, move, trim)
    return move


def _add_furniture(
    writer: PdfWriter,
    grafts: Grafts,
    pagination: Pagination,
    trim: TrimSize,
    furniture: Path,
    shifts: Sequence[Shift],
    links: bool,
) -> None:
    drawn = read_pages(furniture)
    sheet = sheaf_of(furniture, drawn)
    if sheet.pages != len(pagination.pages):
        message = f'the furniture sheet "{furniture}" has {sheet.pages} pages, the book {len(pagination.pages)}'
        raise EngravingError(Problem(None, message, "each page of the book needs one page of furniture"))
    for page, printed in zip(pagination.pages, drawn, strict=True):
        move = shift(printed, trim, page.is_recto)
        with legible(furniture):
            lay_furniture(writer.pages[page.index], grafts, printed, move)
        if links:
            inside = book_links(writer, sheet.spots_on(page.index), pagination, move, shifts)
            add_links(writer, page.index, [*inside, *(web_link(found, move) for found in sheet.web_on(page.index))])
