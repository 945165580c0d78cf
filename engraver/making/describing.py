"""Describing: the chapters of a gathered book in; what a screen reader says of each of their scores out."""

from __future__ import annotations

from collections.abc import Iterator

from engraver.binding import Descriptions
from engraver.making.gathering import Gathered
from engraver.manuscript.manuscript import Manuscript
from engraver.style import Style


def descriptions(gathered: Gathered) -> Descriptions:
    """Every score but those of the cell key, whose strokes are in the scores before them."""
    style = gathered.book.style
    told = {chapter.name: dict(_told(chapter, style)) for chapter in gathered.chapters}
    return {
        (sheaf.pdf, name): told[chapter.name][name]
        for chapter in gathered.chapters
        for sheaf in gathered.sheaves[chapter.name]
        for name in dict.fromkeys(spot.name for spot in sheaf.spots if spot.is_score)
    }


def _told(chapter: Manuscript, style: Style) -> Iterator[tuple[str, str]]:
    """Each passage by its name, in words."""
    from engraver.chapters.spoken import sentence, spoken  # loaded for this, and only for this

    plan = chapter.plan
    said = {exercise.passage.name: exercise.said for exercise in plan.exercises}
    for passage in plan.passages:
        bars = spoken(passage.groove, style, style.say, said.get(passage.name, ()))
        yield passage.name, ". ".join(sentence(bar, style.say) for bar in bars)
