"""Bookmarks: the outline that a reader shows beside the pages.

In: the bookmarks of every section. Out: the document's outline, nested by level.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pypdf import PdfWriter
from pypdf.generic import Fit, IndirectObject

from engraver.binding.boxes import Shift, TrimSize
from engraver.binding.imprint import plain
from engraver.binding.pagination import Bookmark, BookPage, Pagination


def add_bookmarks(writer: PdfWriter, pagination: Pagination, shifts: Sequence[Shift], trim: TrimSize) -> None:
    """Add the outline. A level that skips one is nested under the nearest bookmark above it."""
    parents: list[tuple[int, IndirectObject]] = []
    for page, bookmark in _in_order(pagination):
        while parents and parents[-1][0] >= bookmark.level:
            parents.pop()
        item = writer.add_outline_item(
            title=plain(bookmark.title),
            page_number=page.index,
            parent=parents[-1][1] if parents else None,
            fit=_fit(pagination, bookmark, shifts, trim),
            is_open=bookmark.level == 0,
        )
        parents.append((bookmark.level, item))


def _in_order(pagination: Pagination) -> Iterator[tuple[BookPage, Bookmark]]:
    for number, section in enumerate(pagination.sections):
        for bookmark in section.bookmarks:
            anchor = bookmark.anchor
            yield pagination.pages[pagination.index_of(anchor)] if anchor else pagination.first_page(number), bookmark


def _fit(pagination: Pagination, bookmark: Bookmark, shifts: Sequence[Shift], trim: TrimSize) -> Fit:
    if bookmark.anchor is None:
        return Fit.xyz(left=0, top=trim.points[1] + trim.margin)
    landing = pagination.anchors[bookmark.anchor]
    moved = shifts[landing.page.index]
    return Fit.xyz(left=landing.spot.x0 + moved.right, top=landing.spot.y1 + moved.up)
