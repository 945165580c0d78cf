"""Proving a book: its folder in; how much was proved out, or every difference at the author's line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engraver import definition, proof
from engraver.engraving import Engraved
from engraver.errors import Problem, ProofError
from engraver.making.clock import Clock
from engraver.making.press import Press, Progress, silent
from engraver.making.where import Where, workshop
from engraver.manuscript.complaints import title_place
from engraver.manuscript.planning import Chapter, plan_book
from engraver.style import Style


@dataclass(frozen=True, slots=True)
class Proved:
    """What a proof went through without finding a difference."""

    scores: int
    strokes: int


def verify(where: Where, progress: Progress = silent) -> Proved:
    """Play and read back every score of the book. Raises ProofError with every difference, at the author's line.

    Ink that lies on other ink is told with them.
    """
    book = definition.read(where.folder)
    made = plan_book(book)
    with workshop(where, book.style) as shop:
        press = Press(shop, Clock(), progress)
        results = press.engrave((chapter.plan.name, [proof.source(chapter.source)]) for chapter in made)
    lost = [problem for chapter in made for problem in _lost(chapter, book.style, *results[chapter.plan.name])]
    if lost:
        raise ProofError(lost)
    passages = [passage for chapter in made for passage in chapter.plan.passages]
    return Proved(len(passages), sum(len(passage.groove.strokes) for passage in passages))


LOST = "this is a fault of Engraver and not of your groove: please report it with this file"
MET = "try another position: for that instrument, or voices: one, in style.yaml; else report it with this file"


def _lost(chapter: Chapter, style: Style, result: Engraved) -> Iterator[Problem]:
    place = title_place(chapter.definition)
    for difference in proof.compare(chapter.plan, style, chapter.source, result):
        yield Problem(place, str(difference), LOST)
    for collision in proof.collisions(chapter.plan, chapter.source, result):
        yield Problem(place, str(collision), MET)
