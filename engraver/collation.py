"""Collation: which pages come in which order, how they are numbered, what the outline says, what furniture they wear.

In: a book's definition and its chapters' plans. Out: the sources around the chapters, and the pieces to be bound.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from engraver import lilypond
from engraver.binding import Bookmark, Numbering, Pagination, Section, Sheaf, paginate
from engraver.chapters import ChapterPlan
from engraver.definition import BackMatter, BookDefinition, FrontMatter
from engraver.lilypond import BookWords, Matter
from engraver.style import Words


@dataclass(frozen=True, slots=True)
class Piece:
    """A sheaf of the book to be: how its pages are numbered, what the outline says of it, what its head says."""

    name: str
    numbering: Numbering
    bookmarks: tuple[Bookmark, ...] = ()
    head: tuple[str, str] | None = None
    opener: str = ""  # the chapter number on its first page


def around(name: str) -> str:
    """What a source around the chapters is called: a name that no groove's file can have."""
    return f"book/{name}"


def book_matter(book: BookDefinition, plans: Sequence[ChapterPlan]) -> Matter:
    cover = next(plan for plan in plans if plan.name == book.cover.name)
    parts = {part.chapters[0].name: part.title for part in book.parts}
    said = BookWords(
        book.title, book.subtitle, book.label, book.author, book.publisher, book.rights, book.edition, book.date
    )
    return Matter(said, tuple(plans), cover, book.style, book.style.say, parts)


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


def book_pieces(
    book: BookDefinition, plans: Sequence[ChapterPlan], sources: Mapping[str, object], say: Words
) -> Iterator[Piece]:
    yield Piece(around("title"), Numbering.ROMAN)
    titles = {"cautions": "cautions", "contents": "contents", "how-to": "how to"}
    for front in book.front:
        name = front.value
        head = ("", say(titles[name])) if front is FrontMatter.HOW_TO else None
        yield Piece(around(name), Numbering.ROMAN, (Bookmark(say(titles[name])),), head)
    parts = {part.chapters[0].name: part.title for part in book.parts}
    for number, plan in enumerate(plans, start=1):
        yield _chapter_piece(number, plan, parts.get(plan.name), bool(parts), say)
    back = {"answers": "answers", "log": "practice log", "index": "index"}
    for piece in book.back:
        if around(piece.value) in sources or piece is BackMatter.INDEX:
            head = ("", say(back[piece.value])) if piece is BackMatter.LOG else None
            yield Piece(around(piece.value), Numbering.ARABIC, (Bookmark(say(back[piece.value])),), head)


def _chapter_piece(number: int, plan: ChapterPlan, part: str | None, in_parts: bool, say: Words) -> Piece:
    level = 1 if in_parts else 0
    marks = [Bookmark(part)] if part else []
    marks.append(Bookmark(f"{number}  {plan.definition.title}", level, f"chapter:{plan.name}"))
    if plan.regrouped:
        marks.append(Bookmark(say("regrouped view"), level + 1, f"chapter:{plan.name}:regrouped"))
    if plan.cards:
        marks.append(Bookmark(say("cell key").capitalize(), level + 1, f"chapter:{plan.name}:cells"))
    if plan.exercises:
        marks.append(Bookmark(say("exercises"), level + 1, f"exercise:{plan.name}:1"))
    head = (say("chapter n", n=number), plan.definition.title)
    return Piece(plan.name, Numbering.ARABIC, tuple(marks), head, str(number))


def _sections(pieces: Iterable[Piece], sheaves: Mapping[str, Sheaf]) -> list[Section]:
    body = False
    sections = []
    for piece in pieces:
        starts_body = piece.numbering is Numbering.ARABIC and not body
        body = body or starts_body
        sections.append(Section(sheaves[piece.name], piece.numbering, starts_body, piece.bookmarks))
    return sections


def paginated(pieces: Sequence[Piece], sheaves: Mapping[str, Sheaf]) -> Pagination:
    return paginate(_sections(pieces, sheaves))


def labels(pieces: Sequence[Piece], sheaves: Mapping[str, Sheaf]) -> dict[str, str]:
    """What the pages of the body are called, before the index is there to be counted."""
    pagination = paginated([piece for piece in pieces if piece.name in sheaves], sheaves)
    return {anchor: pagination.label_of(anchor) for anchor in pagination.anchors}


def page_furniture(pagination: Pagination, pieces: Sequence[Piece], say: Words) -> Iterator[lilypond.PageFurniture]:
    """What stands on each page that depends on its number or its chapter's."""
    for page in pagination.pages:
        piece = pieces[page.section]
        first = page.page == 0
        shows_head = piece.head is not None and not page.is_blank and not (first and piece.opener)
        yield lilypond.PageFurniture(
            folio="" if page.is_blank or piece.name == around("title") else page.label,
            recto=page.is_recto,
            head=piece.head if shows_head else None,
            number=piece.opener if first else "",
            fills=tuple(
                lilypond.Filled(spot.kind, pagination.label_of(spot.name), spot.x0, spot.x1, spot.bottom)
                for spot in pagination.spots_on(page)
                if spot.is_place
            ),
        )
