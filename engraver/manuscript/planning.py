"""Planning: the definition of a book in, the text of every chapter out. All that is done before LilyPond runs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from engraver import analysis, chapters, definition, lilypond
from engraver.analysis import Analysis
from engraver.chapters import ChapterPlan
from engraver.definition import BookDefinition, ChapterDefinition, GrooveDefinition
from engraver.errors import DefinitionError
from engraver.lilypond import ChapterSource
from engraver.manuscript.refused import each_chapter
from engraver.rhythm import Groove, Side
from engraver.style import CellNames, Style, Words


@dataclass(frozen=True, slots=True)
class Chapter:
    definition: ChapterDefinition
    plan: ChapterPlan
    source: ChapterSource

    def told(self, style: Style) -> dict[str, Any]:
        """What the pages around the chapters are told of it, by kind."""
        return lilypond.told(self.plan, style)


def plan_book(book: BookDefinition) -> tuple[Chapter, ...]:
    """The text of every chapter. Raises one NotationError with all that cannot be written, each at its groove."""
    say = book.style.say
    return tuple(each_chapter(book, lambda chapter: plan_chapter(chapter, book.style, say)))


def plan_chapter(chapter: ChapterDefinition, style: Style, say: Words) -> Chapter:
    """Raises DefinitionError for a groove that no body can play, NotationError for one that cannot be written."""
    groove, facts = read_facts(chapter.groove, style)
    facts = analysis.with_primes(facts) if style.cell_names is CellNames.PRIMES else facts
    body = chapters.playability(chapter.groove, groove, facts.limbs)
    if body.refusals:
        raise DefinitionError(body.refusals)
    plan = chapters.plan(chapter.groove, groove, facts, say, style.kit)
    plan = replace(plan, warnings=(*body.warnings, *plan.warnings))
    return Chapter(chapter, plan, lilypond.chapter(plan, style, say))


def read_facts(groove: GrooveDefinition, style: Style) -> tuple[Groove, Analysis]:
    """A groove and what can be said about it; what the author states of its cells wins."""
    made, stated = definition.to_groove(groove), groove.cells
    cells = analysis.StatedCells(stated.length, stated.start - 1) if stated else None
    places = {i: style.kit[i].place for layer in made.layers for i in {stroke.instrument for stroke in layer.strokes}}
    return made, analysis.analyse(made, cells, places, Side.LEFT if style.left_handed else Side.RIGHT)
