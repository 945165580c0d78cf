"""The pages around the chapters: a book's definition in; what each of them is made from out. Nothing is made here.

A page is told of chapters what `lilypond.told` has of a few kinds, so it is known beforehand what it depends on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any

from engraver.book_words import BookWords
from engraver.definition import BookDefinition, MatterKind, MatterPage, sheaves
from engraver.manuscript.collation import AFTER_THE_OTHERS, around, part_anchor


@dataclass(frozen=True, slots=True)
class Asked:
    """Values of one kind, of these chapters in this order."""

    kind: str
    of: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AroundPage:
    """``verb``: what writes it, a function of `lilypond`; it is given the values asked for, then ``more``.

    ``labels``: what the page is called on which an anchor lies, where that is needed too.
    """

    name: str
    verb: str
    asked: tuple[Asked, ...] = ()
    more: tuple[Any, ...] = ()
    labels: Mapping[str, str] | None = None


def pages_around(book: BookDefinition, has_answers: bool) -> Iterator[AroundPage]:
    """But for those that have to know the pages of all others. One source may make several pages."""
    back = [page for page in book.back if page.is_own or page.kind is not MatterKind.ANSWERS or has_answers]
    yield AroundPage(around("title"), "title", _picture(book))
    for number, part in enumerate(book.parts, start=1):
        anchor = part_anchor(number)
        yield AroundPage(around(anchor), "part", more=(anchor, number, part.title, part.text))
    for pages in sheaves((*book.front, *back)):
        if pages[0].is_own or pages[0].kind not in AFTER_THE_OTHERS:
            yield _page(book, pages, back)


def index_page(book: BookDefinition, name: str, sections: Sequence[str], labels: Mapping[str, str]) -> AroundPage:
    """``sections``: those that share the sheaf."""
    asked = (_all(book, "subjects", "index" in sections), _all(book, "grades", "grades" in sections))
    return AroundPage(name, "index", asked, (tuple(sections),), labels)


def _page(book: BookDefinition, pages: Sequence[MatterPage], back: Sequence[MatterPage]) -> AroundPage:
    page, name = pages[0], around(pages[0].name)
    if page.is_own:
        return AroundPage(name, "own", more=(page.name, page.title, page.text))
    match page.kind:
        case MatterKind.RIGHTS:
            return AroundPage(name, "rights", (*_picture(book), _all(book, "origin")))
        case MatterKind.CONTENTS:
            parts = tuple((part_anchor(n), part.title, part.chapters[0].name) for n, part in enumerate(book.parts, 1))
            return AroundPage(name, "contents", (_all(book, "entry"),), (parts, _listed(book.front), _listed(back)))
        case MatterKind.CAUTIONS:
            return AroundPage(name, "cautions")
        case MatterKind.ANSWERS:
            return AroundPage(name, "answers", (_all(book, "answers"),))
        case MatterKind.LOG:
            return AroundPage(name, "log")
        case MatterKind.PLAN:
            return AroundPage(name, "plan", (_all(book, "days"),))
    has_log = any(other.kind is MatterKind.LOG for other in book.back)
    return AroundPage(name, "reading", (_all(book, "to read"),), (tuple(section.name for section in pages), has_log))


def _all(book: BookDefinition, kind: str, is_wanted: bool = True) -> Asked:
    return Asked(kind, tuple(chapter.name for chapter in book.chapters) if is_wanted else ())


def _picture(book: BookDefinition) -> tuple[Asked, ...]:
    """What the title page shows: the cover's chapter, or else the first that has a cross-rhythm."""
    names = (book.cover.name, *(chapter.name for chapter in book.chapters))
    return Asked("cover", (book.cover.name,)), Asked("circle", names)


def _listed(pages: Sequence[MatterPage]) -> tuple[tuple[str, str], ...]:
    return tuple((page.name, page.title) for page in pages)


def words_of(book: BookWords) -> BookWords:
    """Without all else that a book may hold."""
    return BookWords(**{field.name: getattr(book, field.name) for field in fields(BookWords)})
