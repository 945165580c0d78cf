"""Nothing lost: a chapter's plan and what its proof's source became when it was engraved, to the differences."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from engraver.chapters import ChapterPlan, Passage
from engraver.engraving import Engraved
from engraver.errors import EngravingError, Problem
from engraver.lilypond.chapter import ChapterSource
from engraver.proof.compare_ink import compare_ink
from engraver.proof.compare_sound import compare_sound
from engraver.proof.difference import Difference, place, told
from engraver.proof.drawn import things
from engraver.proof.ink import columns, repeated_bars
from engraver.proof.overlaps import Overlap, overlaps
from engraver.proof.regrouped import compare_regrouped
from engraver.proof.sound import performances
from engraver.proof.source import Lines, keys, lines
from engraver.style import Style


def compare(plan: ChapterPlan, style: Style, chapter: ChapterSource, engraved: Engraved) -> tuple[Difference, ...]:
    """Everything in which sound or ink is not the groove, in the order of the page; empty if nothing is lost.

    ``engraved`` is the result of a job whose text is `source(chapter)`. Raises EngravingError if that failed.
    """
    if engraved.failure:
        raise EngravingError(Problem(None, f"the proof of {plan.name} could not be engraved: {engraved.failure}"))
    return tuple(_compare(plan, style, chapter, engraved))


def collisions(plan: ChapterPlan, chapter: ChapterSource, engraved: Engraved) -> tuple[Difference, ...]:
    """Things that lie on one another and should not, told with the passage and the moment where that is known."""
    assert not engraved.failure, engraved.failure
    own, passages = lines(chapter), {passage.name: passage for passage in plan.passages}
    return tuple(_collision(plan, own, passages, overlap) for overlap in overlaps(things(_only(engraved, ".drawn"))))


def _collision(plan: ChapterPlan, own: Lines, passages: Mapping[str, Passage], overlap: Overlap) -> Difference:
    both = (overlap.first, overlap.second)
    name = next((name for thing in both if (name := own.passage(thing.line))), None)
    moment = next((thing.moment for thing in both if thing.moment is not None), None)
    part = name or f"page {overlap.first.page}"
    where = None if name is None or moment is None else place(passages[name].groove, moment)
    return Difference(plan.name, part, where, str(overlap))


def _compare(plan: ChapterPlan, style: Style, chapter: ChapterSource, engraved: Engraved) -> Iterator[Difference]:
    numbers = {name: number for number, name in enumerate(chapter.staves)}
    played = performances(engraved.with_suffix(".midi"), keys(chapter.names))
    inked = columns(_only(engraved, ".ink"), lines(chapter))
    repeated = repeated_bars(_only(engraved, ".ink"), lines(chapter))
    for passage in plan.passages:
        found = [
            *compare_sound(passage, played.get(numbers.get(passage.name, -1))),
            *compare_ink(passage.groove, style, inked.get(passage.name, ()), repeated.get(passage.name, ())),
        ]
        if passage is plan.regrouped:
            found += compare_regrouped(plan.groove, passage)
        yield from told(plan.name, passage.name, passage.groove, found)
    if None in inked:
        yield Difference(plan.name, "the pages", None, f"{len(inked[None])} columns of notes are in no passage")


def _only(engraved: Engraved, suffix: str) -> Path:
    files = engraved.with_suffix(suffix)
    assert len(files) == 1, f"{len(files)} files end with {suffix}"
    return files[0]
