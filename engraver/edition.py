"""Editions: what a book is gathered from in, one bound PDF out.

All editions of a build share the engraved chapters; each has its own order of pages, so its own index and furniture.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from engraver import binding, collation, definition
from engraver.binding import Around, Imprint, Pagination, Sheaf, TrimSize
from engraver.collation import around
from engraver.definition import BookDefinition
from engraver.gathering import Gathered
from engraver.press import Press, pdf
from engraver.style import Style
from engraver.texts import Texts


@dataclass(frozen=True, slots=True)
class Edition:
    """One way of binding a book."""

    out: Path
    trim: TrimSize


def bind_edition(gathered: Gathered, edition: Edition, texts: Texts, press: Press) -> Pagination:
    """Number, index, furnish and bind. Raises EngravingError; the file that was there before then stays."""
    sheaves = {**gathered.sheaves, **_index(gathered, texts, press)}
    pagination = collation.paginated(gathered.pieces, sheaves)
    sheet = around("furniture")
    with press.clock("writing LilyPond"):
        text = _furniture(gathered, pagination, texts)
    furniture = press.engrave([(sheet, text)])[sheet]
    edition.out.parent.mkdir(parents=True, exist_ok=True)
    with press.clock("binding"):
        binding.bind(pagination, edition.out, imprint(gathered.book), edition.trim, pdf(furniture))
    return pagination


def imprint(book: BookDefinition) -> Imprint:
    return Imprint(book.title, book.author, book.language, book.date, book.subtitle)


def whole_page(book: BookDefinition) -> TrimSize:
    """The paper, with the margins that the style adds to those of the page design."""
    paper, added = book.style.paper, book.style.margins
    around = Around(added.top, added.bottom, added.inner, added.outer)
    return TrimSize(paper.width, paper.height, around=around)


def _index(gathered: Gathered, texts: Texts, press: Press) -> dict[str, Sheaf]:
    """The index has to know the pages of everything before it."""
    labels = collation.labels(gathered.pieces, gathered.sheaves)
    made = {}
    for pages in definition.sheaves((*gathered.book.front, *gathered.book.back)):
        if pages[0].kind in collation.AFTER_THE_OTHERS and not pages[0].is_own:
            name = around(pages[0].name)
            with press.clock("writing LilyPond"):
                text = texts.index(gathered.book, gathered.chapters, labels, [page.name for page in pages], name)
            made[name] = press.sheaf(name, text)
    return made


def _furniture(gathered: Gathered, pagination: Pagination, texts: Texts) -> str:
    def write(style: Style) -> bytes:
        from engraver import lilypond  # only where it is made, not where it is remembered

        return lilypond.furniture(style, collation.page_furniture(pagination, gathered.pieces, style.say)).encode()

    spots = [(section.sheaf.pages, [s for s in section.sheaf.spots if s.is_place]) for section in pagination.sections]
    labels = [(page.section, page.page, page.label) for page in pagination.pages]
    fills = {spot.name: pagination.label_of(spot.name) for _, places in spots for spot in places}
    return texts.furniture(gathered.book.style, repr((gathered.pieces, spots, labels, fills)), write)
