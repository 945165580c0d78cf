"""Pagination: which page of which sheaf is which page of the book, and what it is called.

In: the sections of a book in order. Out: every page with its folio, and where each anchor lies.
Common practice, no source: odd pages are rectos; front matter counts in roman numerals, the body starts again at 1 in
arabic ones and back matter goes on from there; the blank left before a recto start belongs to what it follows.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from engraver.binding.page_labels import Folio, Numbering
from engraver.binding.sheaf import Sheaf, WebLink
from engraver.binding.spots import Spot
from engraver.errors import EngravingError, Problem


@dataclass(frozen=True, slots=True)
class Bookmark:
    """An entry of the outline. ``level`` 0 is the outermost. Without an anchor it opens its section's first page."""

    title: str
    level: int = 0
    anchor: str | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """A sheaf in its place in the book. Its bookmarks stand in the order in which the outline shows them."""

    sheaf: Sheaf
    numbering: Numbering = Numbering.ARABIC
    starts_recto: bool = False
    bookmarks: tuple[Bookmark, ...] = ()


@dataclass(frozen=True, slots=True)
class BookPage:
    """One page of the book. ``section`` is an index into the sections; ``page`` counts from 0 in its sheaf.

    A blank page has no ``page``; its section is the one it follows.
    """

    index: int
    section: int
    page: int | None
    folio: Folio

    @property
    def label(self) -> str:
        return str(self.folio)

    @property
    def is_blank(self) -> bool:
        return self.page is None

    @property
    def is_recto(self) -> bool:
        return self.index % 2 == 0


@dataclass(frozen=True, slots=True)
class Landing:
    """Where an anchor lies: its page in the book, and the spot on it."""

    page: BookPage
    spot: Spot


@dataclass(frozen=True, slots=True)
class Pagination:
    """The pages of a book. ``first_pages``: the index of each section's first page."""

    sections: tuple[Section, ...]
    pages: tuple[BookPage, ...]
    first_pages: tuple[int, ...]
    anchors: Mapping[str, Landing]

    def first_page(self, section: int) -> BookPage:
        return self.pages[self.first_pages[section]]

    def label_of(self, anchor: str) -> str:
        """What the page is called on which an anchor lies. Raises EngravingError if there is none."""
        return self.landing(anchor).page.label

    def spots_on(self, page: BookPage) -> tuple[Spot, ...]:
        """The spots on a page of the book; their ``page`` is that of the sheaf."""
        return () if page.page is None else self.sections[page.section].sheaf.spots_on(page.page)

    def fullness(self, page: BookPage) -> Fraction | None:
        """How much of a page's room for text and music is used; None where the engraver did not say."""
        said = (spot.name for spot in self.spots_on(page) if spot.is_fill)
        return next((Fraction(int(name), 1000) for name in said), None)

    def web_on(self, page: BookPage) -> tuple[WebLink, ...]:
        return () if page.page is None else self.sections[page.section].sheaf.web_on(page.page)

    def dangling(self) -> tuple[tuple[BookPage, Spot], ...]:
        """The links whose anchor is nowhere in the book."""
        return tuple(
            (page, spot)
            for page in self.pages
            for spot in self.spots_on(page)
            if spot.is_link and spot.name not in self.anchors
        )

    def landing(self, anchor: str) -> Landing:
        """Raises EngravingError if the anchor lies nowhere."""
        if anchor not in self.anchors:
            raise EngravingError(Problem(None, f'"{anchor}" is pointed to but lies on no page of the book'))
        return self.anchors[anchor]


def paginate(sections: Sequence[Section]) -> Pagination:
    """Number the pages of a book. Raises EngravingError if two anchors have one name.

    Body labels do not depend on the front matter as long as the first body section starts on a recto, or none does.
    """
    pages = tuple(_pages(sections))
    firsts = tuple(page.index for page in pages if page.page == 0)
    return Pagination(tuple(sections), pages, firsts, _anchors(sections, pages))


def _pages(sections: Sequence[Section]) -> Iterator[BookPage]:
    counted: Counter[Numbering] = Counter()
    for index, (number, page) in enumerate(_leaves(sections)):
        numbering = sections[number].numbering
        counted[numbering] += 1
        yield BookPage(index, number, page, Folio(numbering, counted[numbering]))


def _leaves(sections: Sequence[Section]) -> Iterator[tuple[int, int | None]]:
    """Section and page in it of every page; None is a blank."""
    index = 0
    for number, section in enumerate(sections):
        if section.starts_recto and index % 2:
            yield number - 1, None
            index += 1
        for page in range(section.sheaf.pages):
            yield number, page
        index += section.sheaf.pages


def _anchors(sections: Sequence[Section], pages: Sequence[BookPage]) -> Mapping[str, Landing]:
    found: dict[str, Landing] = {}
    twice: list[Problem] = []
    for page in pages:
        here = () if page.page is None else sections[page.section].sheaf.spots_on(page.page)
        for spot in here:
            if spot.is_anchor and spot.name in found:
                first = found[spot.name].page.label
                twice.append(Problem(None, f'anchor "{spot.name}" lies on page {first} and again on page {page.label}'))
            elif spot.is_anchor:
                found[spot.name] = Landing(page, spot)
    if twice:
        raise EngravingError(twice)
    return found
