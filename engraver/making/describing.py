"""Describing: the chapters of a gathered book in; what a screen reader says of each of their scores out."""

from __future__ import annotations

from engraver.binding import Descriptions
from engraver.making.gathering import Gathered
from engraver.style import Style


def descriptions(gathered: Gathered) -> Descriptions:
    """Every score but those of the cell key, whose strokes are in the scores before them."""
    from engraver.chapters import ChapterPlan, Passage  # chapters are unpacked for this, and only for this
    from engraver.chapters.spoken import sentence, spoken

    def told(passage: Passage, plan: ChapterPlan, style: Style) -> str:
        said = next((each.said for each in plan.exercises if each.passage is passage), ())
        return ". ".join(sentence(bar, style.say) for bar in spoken(passage.groove, style, style.say, said))

    return {
        (gathered.sheaves[chapter.name].pdf, passage.name): told(passage, chapter.plan, gathered.book.style)
        for chapter in gathered.chapters
        for passage in chapter.plan.passages
    }
