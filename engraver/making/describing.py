"""Describing: the chapters of a gathered book in; what a screen reader says of each of their scores out."""

from __future__ import annotations

from engraver.binding import Descriptions
from engraver.making.gathering import Gathered
from engraver.style import Style


def descriptions(gathered: Gathered) -> Descriptions:
    """Every score but those of the cell key, whose strokes are in the scores before them."""
    from engraver.chapters import Passage  # chapters are unpacked for this, and only for this
    from engraver.chapters.spoken import sentence, spoken

    def told(passage: Passage, style: Style) -> str:
        return ". ".join(sentence(bar, style.say) for bar in spoken(passage.groove, style, style.say))

    return {
        (gathered.sheaves[chapter.name].pdf, passage.name): told(passage, gathered.book.style)
        for chapter in gathered.chapters
        for passage in chapter.plan.passages
    }
