"""Collation: which pages come in which order, how they are numbered, what the outline says, what furniture they wear.

In: a book's definition and the outlines of its chapters. Out: the pieces to be bound, and what their pages wear.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from engraver.binding import Bookmark, Numbering, Pagination, Section, Sheaf, paginate
from engraver.definition import BackMatter, BookDefinition, FrontMatter
from engraver.style import Words

if TYPE_CHECKING:
    from engraver.chapters import ChapterPlan
    from engraver.lilypond import PageFurniture


@dataclass(frozen=True, slots=True)
class Piece:
    """A sheaf of the book to be: how its pages are numbered, what the outline says of it, what its head says."""

    name: str
    numbering: Numbering
    bookmarks: tuple[Bookmark, ...] = ()
    head: tuple[str, str] | None = None
    opener: str = ""  # the chapter number on its first page


@dataclass(frozen=True, slots=True)
class Outline:
    """What the rest of the book knows of a chapter. ``marks``: the entry of the words and the anchor of each part."""

    name: str
    title: str
    marks: tuple[tuple[str, str], ...]


def around(name: str) -> str:
    """What a source around the chapters is called: a name that no groove's file can have."""
    return f"book/{name}"


def outline(plan: ChapterPlan) -> Outline:
    marks = (
        (plan.regrouped, "regrouped view", f"chapter:{plan.name}:regrouped"),
        (plan.cards, "cell key", f"chapter:{plan.name}:cells"),
        (plan.exercises, "exercises", f"exercise:{plan.name}:1"),
    )
    shown = tuple((entry, anchor) for part, entry, anchor in marks if part)
    return Outline(plan.name, plan.definition.title, shown)


def book_pieces(
    book: BookDefinition, outlines: Iterable[Outline], sources: Mapping[str, object], say: Words
) -> Iterator[Piece]:
    yield Piece(around("title"), Numbering.ROMAN)
    titles = {"cautions": "cautions", "contents": "contents", "how-to": "how to"}
    for front in book.front:
        name = front.value
        head = ("", say(titles[name])) if front is FrontMatter.HOW_TO else None
        yield Piece(around(name), Numbering.ROMAN, (Bookmark(say(titles[name])),), head)
    parts = {part.chapters[0].name: part.title for part in book.parts}
    for number, chapter in enumerate(outlines, start=1):
        yield _chapter_piece(number, chapter, parts.get(chapter.name), bool(parts), say)
    back = {"answers": "answers", "log": "practice log", "index": "index"}
    for piece in book.back:
        if around(piece.value) in sources or piece is BackMatter.INDEX:
            head = ("", say(back[piece.value])) if piece is BackMatter.LOG else None
            yield Piece(around(piece.value), Numbering.ARABIC, (Bookmark(say(back[piece.value])),), head)


def _chapter_piece(number: int, chapter: Outline, part: str | None, in_parts: bool, say: Words) -> Piece:
    level = 1 if in_parts else 0
    marks = [Bookmark(part)] if part else []
    marks.append(Bookmark(f"{number}  {chapter.title}", level, f"chapter:{chapter.name}"))
    marks += [Bookmark(_capital(say(entry)), level + 1, anchor) for entry, anchor in chapter.marks]
    head = (say("chapter n", n=number), chapter.title)
    return Piece(chapter.name, Numbering.ARABIC, tuple(marks), head, str(number))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


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


def page_furniture(pagination: Pagination, pieces: Sequence[Piece], say: Words) -> Iterator[PageFurniture]:
    """What stands on each page that depends on its number or its chapter's."""
    from engraver import lilypond  # only where the furniture is made, not where it is remembered

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
