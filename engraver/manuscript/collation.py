"""Collation: which pages come in which order, how they are numbered, what the outline says, what furniture they wear.

In: a book's definition and the outlines of its chapters. Out: the pieces to be bound, and what their pages wear.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from engraver.binding import Bookmark, BookPage, Numbering, Pagination, Section, Sheaf, paginate
from engraver.definition import BookDefinition, MatterKind, MatterPage, PartDefinition
from engraver.definition import sheaves as sheaves_of
from engraver.style import Words, capital

if TYPE_CHECKING:
    from engraver.chapters import ChapterPlan
    from engraver.lilypond import PageFurniture


@dataclass(frozen=True, slots=True)
class Piece:
    """A sheaf of the book to be: how its pages are numbered, what the outline says of it, what its head says.

    ``part`` counts from 0: a long chapter is several sheaves.
    """

    name: str
    numbering: Numbering
    bookmarks: tuple[Bookmark, ...] = ()
    head: tuple[str, str] | None = None
    opener: str = ""  # the chapter number on its first page
    opens: bool = False  # its first page wears no running head
    begins: bool = False  # a part or a chapter, which a printed book begins on a right-hand page
    part: int = 0


@dataclass(frozen=True, slots=True)
class Outline:
    """What the rest of the book knows of a chapter. ``marks``: the entry of the words and the anchor of each part.

    ``sheaves``: how many it is engraved as.
    """

    name: str
    title: str
    marks: tuple[tuple[str, str], ...]
    sheaves: int = 1


def around(name: str) -> str:
    """What a source around the chapters is called: a name that no groove's file can have."""
    return f"book/{name}"


def part_name(name: str, part: int) -> str:
    """What a text of a long chapter is called; ``part`` counts from 0. No groove's file can have this name."""
    return f"{name}/part {part + 1}" if part else name


def outline(plan: ChapterPlan, sheaves: int = 1) -> Outline:
    marks = (
        (plan.regrouped, "regrouped view", f"chapter:{plan.name}:regrouped"),
        (plan.cards, "cell key", f"chapter:{plan.name}:cells"),
        (plan.exercises, "exercises", f"exercise:{plan.name}:1"),
    )
    shown = tuple((entry, anchor) for part, entry, anchor in marks if part)
    return Outline(plan.name, plan.definition.title, shown, sheaves)


def part_anchor(number: int) -> str:
    """Parts count from 1."""
    return f"part-{number}"


# what a page is called; its row of the words
TITLES = {
    MatterKind.RIGHTS: "rights page",
    MatterKind.CONTENTS: "contents",
    MatterKind.CAUTIONS: "cautions",
    MatterKind.HOW_TO: "how to",
    MatterKind.KEY: "key page",
    MatterKind.COUNTING: "counting page",
    MatterKind.ANSWERS: "answers",
    MatterKind.LOG: "practice log",
    MatterKind.PLAN: "practice plan",
    MatterKind.INDEX: "index",
    MatterKind.GRADES: "by grade",
}
WITH_HEAD = (MatterKind.HOW_TO, MatterKind.KEY, MatterKind.COUNTING, MatterKind.LOG)
AFTER_THE_OTHERS = (MatterKind.INDEX, MatterKind.GRADES)  # they have to know the numbers of the other pages


def book_pieces(
    book: BookDefinition, outlines: Iterable[Outline], sources: Mapping[str, object], say: Words
) -> Iterator[Piece]:
    yield Piece(around("title"), Numbering.ROMAN)
    yield from _around_pieces(book.front, Numbering.ROMAN, sources, say)
    parts = {part.chapters[0].name: (n, part) for n, part in enumerate(book.parts, start=1)}
    for number, chapter in enumerate(outlines, start=1):
        if chapter.name in parts:
            yield _part_piece(*parts[chapter.name])
        yield from _chapter_pieces(number, chapter, 1 if parts else 0, say)
    yield from _around_pieces(book.back, Numbering.ARABIC, sources, say)


def _around_pieces(
    pages: Iterable[MatterPage], numbering: Numbering, sources: Mapping[str, object], say: Words
) -> Iterator[Piece]:
    for sheaf in sheaves_of(pages):
        first = sheaf[0]
        if around(first.name) in sources or first.kind in AFTER_THE_OTHERS:
            marks = tuple(Bookmark(_title(page, say), 0, page.name) for page in sheaf)
            opens = first.is_own or first.kind not in WITH_HEAD
            yield Piece(around(first.name), numbering, marks, ("", marks[0].title), opens=opens)


def _title(page: MatterPage, say: Words) -> str:
    return page.title or (say(TITLES[page.kind]) if page.kind else "")


def _part_piece(number: int, part: PartDefinition) -> Piece:
    anchor = part_anchor(number)
    marks = (Bookmark(part.title, 0, anchor),)
    return Piece(around(anchor), Numbering.ARABIC, marks, ("", part.title), opens=True, begins=True)


def _chapter_pieces(number: int, chapter: Outline, level: int, say: Words) -> Iterator[Piece]:
    """Exercises are all that a long chapter's sheaves after the first hold."""
    marks = [Bookmark(f"{number}  {chapter.title}", level, f"chapter:{chapter.name}")]
    marks += [Bookmark(capital(say(entry)), level + 1, anchor) for entry, anchor in chapter.marks]
    head = (say("chapter n", n=number), chapter.title)
    yield Piece(chapter.name, Numbering.ARABIC, tuple(marks), head, str(number), opens=True, begins=True)
    for part in range(1, chapter.sheaves):
        yield Piece(chapter.name, Numbering.ARABIC, (), _in_the_exercises(head, say), part=part)


Sheaves = Mapping[str, Sequence[Sheaf]]  # by the name of what they hold: one, or more of a long chapter


def _sections(pieces: Iterable[Piece], sheaves: Sheaves, recto: bool) -> list[Section]:
    body = False
    sections = []
    for piece in pieces:
        starts_body = piece.numbering is Numbering.ARABIC and not body
        body = body or starts_body
        is_recto = starts_body or (recto and piece.begins)
        sections.append(Section(sheaves[piece.name][piece.part], piece.numbering, is_recto, piece.bookmarks))
    return sections


def paginated(pieces: Sequence[Piece], sheaves: Sheaves, recto: bool = False) -> Pagination:
    """``recto``: parts and chapters begin on a right-hand page."""
    return paginate(_sections(pieces, sheaves, recto))


def labels(pieces: Sequence[Piece], sheaves: Sheaves, recto: bool = False) -> dict[str, str]:
    """What the pages of the body are called, before the index is there to be counted."""
    pagination = paginated([piece for piece in pieces if piece.name in sheaves], sheaves, recto)
    return {anchor: pagination.label_of(anchor) for anchor in pagination.anchors}


def page_furniture(pagination: Pagination, pieces: Sequence[Piece], say: Words) -> Iterator[PageFurniture]:
    """What stands on each page that depends on its number or its chapter's."""
    from engraver import lilypond  # only where the furniture is made, not where it is remembered

    for page in pagination.pages:
        piece = pieces[page.section]
        first = page.page == 0
        yield lilypond.PageFurniture(
            folio="" if page.is_blank or piece.name == around("title") else page.label,
            recto=page.is_recto,
            head=_head(piece, page, pagination, say),
            number=piece.opener if first else "",
            fills=tuple(
                lilypond.Filled(spot.kind, pagination.label_of(spot.name), spot.x0, spot.x1, spot.bottom)
                for spot in pagination.spots_on(page)
                if spot.is_place and spot.name in pagination.anchors  # answers may be left out of a book
            ),
        )


def _head(piece: Piece, page: BookPage, pagination: Pagination, say: Words) -> tuple[str, str] | None:
    """None on blanks and where something opens. A chapter's head says from where on there are exercises.

    Common practice, no source: openings wear no running head, and their number stands at the foot.
    """
    if piece.head is None or page.is_blank:
        return None
    if piece.opener:
        return None if page.page == 0 else _chapter_head(piece, page, pagination, say)
    if not piece.opens:
        return piece.head
    landings = [(pagination.anchors.get(mark.anchor or ""), mark.title) for mark in piece.bookmarks]
    titles = [(landing.page.index, title) for landing, title in landings if landing]
    begun = [(index, title) for index, title in titles if index <= page.index]
    opens_here = page.page == 0 or any(index == page.index for index, _ in begun)
    return None if opens_here else ("", begun[-1][1] if begun else piece.head[1])


def _chapter_head(piece: Piece, page: BookPage, pagination: Pagination, say: Words) -> tuple[str, str] | None:
    assert piece.head
    first = pagination.anchors.get(f"exercise:{piece.name}:1")
    if first and first.page.index <= page.index:
        return _in_the_exercises(piece.head, say)
    return piece.head


def _in_the_exercises(head: tuple[str, str], say: Words) -> tuple[str, str]:
    return head[0], f"{head[1]}  ·  {capital(say('exercises'))}"
