"""The pages around the chapters: a book and its chapters' plans in, a LilyPond text for each kind of page out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engraver import lilypond
from engraver.chapters import ChapterPlan
from engraver.collation import around
from engraver.definition import BackMatter, BookDefinition, FrontMatter
from engraver.lilypond import BookWords, Matter
from engraver.style import Style


def book_matter(book: BookDefinition, plans: Sequence[ChapterPlan], style: Style | None = None) -> Matter:
    """``style``: another than the book's own, for an edition or to watch what is read of it."""
    style = style or book.style
    cover = next(plan for plan in plans if plan.name == book.cover.name)
    parts = {part.chapters[0].name: part.title for part in book.parts}
    said = BookWords(
        book.title, book.subtitle, book.label, book.author, book.publisher, book.rights, book.edition, book.date
    )
    return Matter(said, tuple(plans), cover, style, style.say, parts)


def matter_sources(book: BookDefinition, matter: Matter) -> Iterator[tuple[str, lilypond.Source]]:
    """Every page around the chapters but the index, which has to know the pages first."""
    front = [piece.value for piece in book.front]
    asked = lilypond.answers(matter) if BackMatter.ANSWERS in book.back else None
    back = [piece.value for piece in book.back if piece is not BackMatter.ANSWERS or asked]
    yield around("title"), lilypond.title(matter)
    for piece in book.front:
        match piece:
            case FrontMatter.CAUTIONS:
                yield around("cautions"), lilypond.cautions(matter)
            case FrontMatter.CONTENTS:
                yield around("contents"), lilypond.contents(matter, front, back)
            case FrontMatter.HOW_TO:
                yield around("how-to"), lilypond.how_to(matter)
    if asked:
        yield around("answers"), asked
    if BackMatter.LOG in book.back:
        yield around("log"), lilypond.log(matter)
