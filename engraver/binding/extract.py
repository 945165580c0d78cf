"""Extracts: some pages of a book as a book of their own, called what they are called in the whole.

In: a pagination and which of its pages are wanted. Out: the pagination of those. What points to a page that is left
out, a bookmark or an anchor, is left out too.
"""

from __future__ import annotations

from collections.abc import Callable, Container
from dataclasses import replace

from engraver.binding.pagination import Bookmark, BookPage, Pagination, Section


def extract(whole: Pagination, wanted: Callable[[BookPage], bool]) -> Pagination:
    """The wanted pages in their order; blank pages are never wanted, whatever ``wanted`` says."""
    kept = [page for page in whole.pages if not page.is_blank and wanted(page)]
    numbers = {old: new for new, old in enumerate(dict.fromkeys(page.section for page in kept))}
    moved = {page.index: replace(page, index=index, section=numbers[page.section]) for index, page in enumerate(kept)}
    anchors = {
        name: replace(landing, page=moved[landing.page.index])
        for name, landing in whole.anchors.items()
        if landing.page.index in moved
    }
    sections = tuple(_section(whole, old, anchors, moved) for old in numbers)
    pages = tuple(moved.values())
    firsts = tuple(next(page.index for page in pages if page.section == new) for new in numbers.values())
    return Pagination(sections, pages, firsts, anchors)


def _section(whole: Pagination, number: int, anchors: Container[str], moved: Container[int]) -> Section:
    section = whole.sections[number]
    first = whole.first_pages[number]

    def reaches(bookmark: Bookmark) -> bool:
        return bookmark.anchor in anchors if bookmark.anchor else first in moved

    return replace(section, bookmarks=tuple(filter(reaches, section.bookmarks)))


def joined(first: Pagination, last: Pagination) -> Pagination:
    """Two paginations one behind the other."""
    pages, sections = len(first.pages), len(first.sections)
    moved = {
        page.index: replace(page, index=page.index + pages, section=page.section + sections) for page in last.pages
    }
    anchors = {name: replace(landing, page=moved[landing.page.index]) for name, landing in last.anchors.items()}
    return Pagination(
        first.sections + last.sections,
        first.pages + tuple(moved.values()),
        first.first_pages + tuple(index + pages for index in last.first_pages),
        {**first.anchors, **anchors},
    )
