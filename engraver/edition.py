"""Editions: what a book is gathered from in, one bound PDF out.

All editions of a build share the engraved chapters; each has its own order of pages, so its own index and furniture.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from engraver import binding, collation, lilypond
from engraver.binding import Imprint, Pagination, Sheaf, TrimSize
from engraver.collation import Piece, around
from engraver.definition import BackMatter, BookDefinition
from engraver.lilypond import Matter
from engraver.press import Press, pdf


@dataclass(frozen=True, slots=True)
class Gathered:
    """All pages of a book but its index, in the order of ``pieces``; ``sheaves`` has the engraved ones by name."""

    book: BookDefinition
    matter: Matter
    pieces: tuple[Piece, ...]
    sheaves: Mapping[str, Sheaf]


@dataclass(frozen=True, slots=True)
class Edition:
    """One way of binding a book."""

    out: Path
    trim: TrimSize


def bind_edition(gathered: Gathered, edition: Edition, press: Press) -> Pagination:
    """Number, index, furnish and bind. Raises EngravingError; the file that was there before then stays."""
    sheaves = {**gathered.sheaves, **press.sheaves(_index(gathered))}
    pagination = collation.paginated(gathered.pieces, sheaves)
    sheet = around("furniture")
    furniture = press.engrave({sheet: _furniture(gathered, pagination)})[sheet]
    edition.out.parent.mkdir(parents=True, exist_ok=True)
    with press.clock("binding"):
        binding.bind(pagination, edition.out, imprint(gathered.book), edition.trim, pdf(furniture))
    return pagination


def imprint(book: BookDefinition) -> Imprint:
    return Imprint(book.title, book.author, book.language, book.date, book.subtitle)


def whole_page(book: BookDefinition) -> TrimSize:
    """The paper as it was engraved."""
    return TrimSize(book.style.paper.width, book.style.paper.height)


def _index(gathered: Gathered) -> dict[str, str]:
    """The index has to know the pages of everything before it."""
    if BackMatter.INDEX not in gathered.book.back:
        return {}
    labels = collation.labels(gathered.pieces, gathered.sheaves)
    return {around("index"): lilypond.index(gathered.matter, labels)}


def _furniture(gathered: Gathered, pagination: Pagination) -> str:
    worn = collation.page_furniture(pagination, gathered.pieces, gathered.matter.say)
    return lilypond.furniture(gathered.matter, worn)
