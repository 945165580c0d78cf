"""Assembly: sheaves and furniture joined into one document, which is written.

In: a pagination, the engraved furniture sheet (one page for each page of the book) and the imprint. Out: the PDF.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path

from engraver.binding.bookmarks import add_bookmarks
from engraver.binding.boxes import Shift, TrimSize, shift
from engraver.binding.cuttings import Cut
from engraver.binding.document import Document
from engraver.binding.graft import Graft
from engraver.binding.imprint import Imprint
from engraver.binding.imprint_writing import write_imprint
from engraver.binding.inks import Tone
from engraver.binding.label_tree import label_tree
from engraver.binding.links import add_links, book_links, web_link
from engraver.binding.one_ink import in_one_ink
from engraver.binding.overlay import Laid, add_blank_page, add_engraved_page, laid
from engraver.binding.pagination import BookPage, Pagination
from engraver.binding.sheaf import Descriptions, Sheaf
from engraver.binding.tags import add_tags
from engraver.binding.writing import write_book
from engraver.errors import EngravingError, Problem

_NOWHERE = Shift(0, 0)


def assemble(
    pagination: Pagination,
    out: Path,
    imprint: Imprint,
    trim: TrimSize,
    furniture: Sheaf | None,
    cut: Cut,
    *,
    sample: bool,
    links: bool,
    tone: Tone | None,
    descriptions: Descriptions | None,
) -> None:
    """See `bind`."""
    if not sample:
        _refuse_dangling(pagination)
    document = Document()
    over = [] if furniture is None else _furniture(document, pagination, trim, furniture, cut)
    shifts = _add_pages(document, pagination, trim, over, cut)
    if links:
        _add_links(document, pagination, furniture, shifts, over)
    if tone is not None:
        in_one_ink(document, tone)
    add_bookmarks(document, pagination, shifts, trim)
    document.catalog["/PageLabels"] = label_tree([page.folio for page in pagination.pages])
    if descriptions is not None:
        add_tags(document, pagination, descriptions)
    write_imprint(document, imprint)
    write_book(document, out)


def _refuse_dangling(pagination: Pagination) -> None:
    problems = [
        Problem(None, f'page {page.label} has a link to "{spot.name}", which is nowhere in the book')
        for page, spot in pagination.dangling()
    ]
    if problems:
        raise EngravingError(problems)


def _furniture(document: Document, pagination: Pagination, trim: TrimSize, furniture: Sheaf, cut: Cut) -> list[Laid]:
    """What is printed over each page, blank pages too."""
    drawn = cut(furniture.pdf)
    if len(drawn.pages) != len(pagination.pages):
        message = (
            f'the furniture sheet "{furniture.pdf}" has {len(drawn.pages)} pages, the book {len(pagination.pages)}'
        )
        raise EngravingError(Problem(None, message, "each page of the book needs one page of furniture"))
    graft = Graft(document, furniture.pdf, drawn)
    pairs = zip(pagination.pages, drawn.pages, strict=True)
    return [laid(graft, printed, shift(printed.box, trim, page.is_recto)) for page, printed in pairs]


def _add_pages(
    document: Document, pagination: Pagination, trim: TrimSize, over: Sequence[Laid], cut: Cut
) -> list[Shift]:
    """Out: how far each page moved."""
    shifts: list[Shift] = []
    for sheaf, run in _runs(pagination):
        drawn = cut(sheaf.pdf)
        if len(drawn.pages) != sheaf.pages:
            message = f'"{sheaf.pdf}" has changed since its pages were counted'
            raise EngravingError(Problem(None, message, "build again"))
        graft = Graft(document, sheaf.pdf, drawn)
        for page in run:
            printed = over[page.index] if over else None
            if page.page is None:
                add_blank_page(document, trim, printed)
                shifts.append(_NOWHERE)
            else:
                engraved = drawn.pages[page.page]
                shifts.append(shift(engraved.box, trim, page.is_recto))
                add_engraved_page(graft, engraved, shifts[-1], trim, printed)
    return shifts


def _runs(pagination: Pagination) -> Iterator[tuple[Sheaf, list[BookPage]]]:
    """Pages in a row of one sheaf: its cuttings are held no longer than they need them."""
    for _, run in groupby(pagination.pages, lambda page: pagination.sections[page.section].sheaf.pdf):
        pages = list(run)
        yield pagination.sections[pages[0].section].sheaf, pages


def _add_links(
    document: Document,
    pagination: Pagination,
    furniture: Sheaf | None,
    shifts: Sequence[Shift],
    over: Sequence[Laid],
) -> None:
    """Those of the pages, then those of their furniture."""
    for page in pagination.pages:
        here = shifts[page.index]
        inside = book_links(document, pagination.spots_on(page), pagination, here, shifts)
        add_links(document, page.index, [*inside, *(web_link(found, here) for found in pagination.web_on(page))])
        if furniture is not None:
            here = over[page.index].move
            inside = book_links(document, furniture.spots_on(page.index), pagination, here, shifts)
            web = (web_link(found, here) for found in furniture.web_on(page.index))
            add_links(document, page.index, [*inside, *web])
