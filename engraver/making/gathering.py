"""Gathering: a book's definition and its texts in; all that every edition of it is bound from out.

LilyPond begins with the first chapter while the texts of the others are still being written.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass

from engraver.definition import BookDefinition
from engraver.making.press import Press
from engraver.manuscript import collation
from engraver.manuscript.collation import Piece, Sheaves
from engraver.manuscript.complaints import refuse
from engraver.manuscript.manuscript import Manuscript
from engraver.manuscript.texts import Texts

Meanwhile = Callable[[Sequence[Manuscript], Collection[str]], None]


@dataclass(frozen=True, slots=True)
class Gathered:
    """All pages of a book but its index, in the order of ``pieces``; ``sheaves`` has the engraved ones by name."""

    book: BookDefinition
    chapters: tuple[Manuscript, ...]
    pieces: tuple[Piece, ...]
    sheaves: Sheaves


def gather(book: BookDefinition, texts: Texts, press: Press, meanwhile: Meanwhile | None = None) -> Gathered:
    """Write and engrave the chapters and the pages around them, for the style and paper of ``book``.

    ``meanwhile`` is called with the chapters and the names of those written now, while LilyPond is at work.
    Raises NotationError for what cannot be written, EngravingError for what LilyPond refuses, each with all there is.
    """
    chapters: list[Manuscript] = []
    around: dict[str, str] = {}

    def sources() -> Iterator[tuple[str, Sequence[str]]]:
        with press.clock("writing LilyPond"):
            for chapter in texts.manuscripts(book):
                chapters.append(chapter)
                with press.clock("engraving"):
                    yield chapter.name, chapter.texts
            around.update(texts.matter(book, chapters))
        yield from ((name, [text]) for name, text in around.items())
        if meanwhile:
            with press.clock("laying out copies"):
                meanwhile(chapters, texts.written)

    def ahead() -> Iterator[tuple[str, str]]:
        if texts.new or texts.changed:
            yield from texts.likely_indexes(book, chapters)
            press.prepare()  # nothing is left to be written

    texts.on_writing(press.warm_up)
    engraved = press.engrave(sources(), ahead())
    refuse(book, engraved)
    outlines = [chapter.outline for chapter in chapters]
    pieces = tuple(collation.book_pieces(book, outlines, around, book.style.say))
    return Gathered(book, tuple(chapters), pieces, press.opened(engraved))
