"""Samples: the pagination of a whole book and what a sample is to show in; which of its pages those are out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engraver.binding import Numbering, Pagination
from engraver.definition.editions import EditionDefinition, PageRange
from engraver.errors import DefinitionError, Problem
from engraver.manuscript.collation import Piece


def sample_pages(whole: Pagination, pieces: Sequence[Piece], edition: EditionDefinition) -> tuple[int, ...]:
    """Indexes into the whole, in order. With chapters the front matter is in it too; blank pages never are.

    Raises DefinitionError for a page number that is not in the book.
    """
    found = set(_of_ranges(whole, edition))
    if edition.chapters:
        found |= {page.index for page in whole.pages if _is_shown(pieces[page.section], edition)}
    return tuple(index for index in sorted(found) if not whole.pages[index].is_blank)


def _is_shown(piece: Piece, edition: EditionDefinition) -> bool:
    return piece.numbering is Numbering.ROMAN or piece.name in edition.chapters


def _of_ranges(whole: Pagination, edition: EditionDefinition) -> Iterator[int]:
    places = {page.label: page.index for page in whole.pages}
    for part in edition.pages:
        if missing := [label for label in (part.first, part.last) if label not in places]:
            raise DefinitionError(_not_there(missing[0], whole, edition))
        yield from _between(places[part.first], places[part.last], part, edition)


def _between(first: int, last: int, part: PageRange, edition: EditionDefinition) -> range:
    if last < first:
        message = f"page {part.last} comes before page {part.first}"
        raise DefinitionError(Problem(edition.position, message, "write the earlier page first"))
    return range(first, last + 1)


def _not_there(label: str, whole: Pagination, edition: EditionDefinition) -> Problem:
    last = {page.folio.numbering: page.label for page in whole.pages}
    ends = " and ".join(f"{'i' if series is Numbering.ROMAN else '1'} to {label}" for series, label in last.items())
    return Problem(edition.position, f"there is no page {label} in this book", f"its pages are {ends}")
