"""The pages around the chapters: a book's definition and its chapters' plans in, a LilyPond text for each sheaf out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engraver import lilypond
from engraver.chapters import ChapterPlan
from engraver.definition import BookDefinition, MatterKind, MatterPage, sheaves
from engraver.lilypond import Matter, Part
from engraver.manuscript.collation import around, part_anchor
from engraver.style import Style


def book_matter(book: BookDefinition, plans: Sequence[ChapterPlan], style: Style | None = None) -> Matter:
    """``style``: another than the book's own, for an edition or to watch what is read of it."""
    style = style or book.style
    cover = next(plan for plan in plans if plan.name == book.cover.name)
    parts = tuple(
        Part(part_anchor(number), part.title, part.text, part.chapters[0].name)
        for number, part in enumerate(book.parts, start=1)
    )
    return Matter(book, tuple(plans), cover, style, style.say, parts)


def matter_sources(book: BookDefinition, matter: Matter) -> Iterator[tuple[str, lilypond.Source]]:
    """Every page around the chapters but the index, which has to know the pages first."""
    asked = any(plan.questions for plan in matter.plans)
    back = [page for page in book.back if page.is_own or page.kind is not MatterKind.ANSWERS or asked]
    yield around("title"), lilypond.title(matter)
    for one in matter.parts:
        yield around(one.anchor), lilypond.part(matter, one)
    for pages in sheaves((*book.front, *back)):
        if (source := _source(book, matter, pages, back)) is not None:
            yield around(pages[0].name), source


def _source(
    book: BookDefinition, matter: Matter, pages: Sequence[MatterPage], back: Sequence[MatterPage]
) -> lilypond.Source | None:
    """The text of pages that share a sheaf; None for the index."""
    page = pages[0]
    if page.is_own:
        return lilypond.own(matter, page.name, page.title, page.text)
    match page.kind:
        case MatterKind.RIGHTS:
            return lilypond.rights(matter)
        case MatterKind.CONTENTS:
            return lilypond.contents(matter, _listed(book.front), _listed(back))
        case MatterKind.CAUTIONS:
            return lilypond.cautions(matter)
        case MatterKind.HOW_TO | MatterKind.KEY | MatterKind.COUNTING:
            has_log = any(other.kind is MatterKind.LOG for other in book.back)
            return lilypond.reading(matter, [section.name for section in pages], has_log=has_log)
        case MatterKind.ANSWERS:
            return lilypond.answers(matter)
        case MatterKind.LOG:
            return lilypond.log(matter)
        case MatterKind.PLAN:
            return lilypond.plan(matter)
    return None


def _listed(pages: Sequence[MatterPage]) -> list[tuple[str, str]]:
    return [(page.name, page.title) for page in pages]
