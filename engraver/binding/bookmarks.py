"""Bookmarks: the outline that a reader shows beside the pages.

In: the bookmarks of every section. Out: the document's outline, nested by level (ISO 32000-1, 12.3.3).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from engraver.binding.boxes import Shift, TrimSize
from engraver.binding.document import Document
from engraver.binding.imprint import plain
from engraver.binding.links import landing_place
from engraver.binding.pagination import Bookmark, Pagination
from engraver.binding.syntax import Reference, text_string


@dataclass(slots=True)
class _Item:
    place: Reference
    entries: dict[str, Any]
    level: int
    below: list[_Item] = field(default_factory=list)


def add_bookmarks(document: Document, pagination: Pagination, shifts: Sequence[Shift], trim: TrimSize) -> None:
    """Add the outline. A level that skips one is nested under the nearest bookmark above it."""
    entries: dict[str, Any] = {"/Type": "/Outlines"}
    above = [_Item(document.add(entries), entries, -1)]
    for entries, level in _in_order(document, pagination, shifts, trim):
        while above[-1].level >= level:
            above.pop()
        item = _Item(document.add(entries), entries, level)
        above[-1].below.append(item)
        above.append(item)
    if above[0].below:
        document.catalog["/Outlines"] = above[0].place
        _tie(above[0])


def _in_order(
    document: Document, pagination: Pagination, shifts: Sequence[Shift], trim: TrimSize
) -> Iterator[tuple[dict[str, Any], int]]:
    for number, section in enumerate(pagination.sections):
        for bookmark in section.bookmarks:
            place = _destination(document, pagination, number, bookmark, shifts, trim)
            yield {"/Title": text_string(plain(bookmark.title)), "/Dest": place}, bookmark.level


def _destination(
    document: Document,
    pagination: Pagination,
    section: int,
    bookmark: Bookmark,
    shifts: Sequence[Shift],
    trim: TrimSize,
) -> list[Any]:
    if bookmark.anchor is None:
        first = document.places[pagination.first_page(section).index]
        return [first, "/XYZ", 0, round(trim.points[1] + trim.margin, 3), None]
    landing = pagination.landing(bookmark.anchor)
    return landing_place(document, landing, shifts[landing.page.index])


def _tie(item: _Item) -> int:
    """Ties an item to those below it. Out: how many are shown while it is open; only the outermost level begins so."""
    shown = 0
    for one in item.below:
        one.entries["/Parent"] = item.place
        inside = _tie(one)
        shown += 1 + (inside if one.level == 0 else 0)
    for one, other in pairwise(item.below):
        one.entries["/Next"], other.entries["/Prev"] = other.place, one.place
    if item.below:
        item.entries |= {"/First": item.below[0].place, "/Last": item.below[-1].place}
        item.entries["/Count"] = shown if item.level <= 0 else -shown
    return shown
