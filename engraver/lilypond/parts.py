"""Parts of a long chapter: stretches that begin on a new page, so that each can be engraved as a text of its own.

In: a chapter's plan and how many lines its music takes. Out: the exercises that a part begins with. A chapter of
ordinary length is one part; a long one is parted by what stands in it alone, never by what was engraved before.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from engraver.chapters import ChapterPlan, Passage
from engraver.lilypond.source import Source

NEW_PART = Source("% ------------------------------------------------------------------ a new part\n\\pageBreak")
LEAST = 40  # lines of music: six pages or so, about as many as an ordinary chapter has in all
PAGE = 8  # lines of music that fill a page: twice four, after which passages part


@dataclass(frozen=True, slots=True)
class Block:
    """What no part begins within. ``opens``: something new begins with it, the exercises or a stage of them."""

    lines: int
    opens: bool = False

    @property
    def may_begin_a_page(self) -> bool:
        """What fills a page begins on one of its own as a rule, and is turned less often for it."""
        return self.opens or self.lines >= PAGE


def new_parts(plan: ChapterPlan, lines: Mapping[str, int]) -> frozenset[int]:
    """The exercises, counted from 1, that begin a new part. ``lines`` by the names of the passages."""
    return frozenset(beginnings(tuple(_blocks(plan, lines))))


def _blocks(plan: ChapterPlan, lines: Mapping[str, int]) -> Iterator[Block]:
    """All before the exercises, then each of them. In an author's own order there are no stages: any may open one."""

    def height(passages: Iterable[Passage | None]) -> int:
        return sum(lines[passage.name] for passage in passages if passage)

    yield Block(height((plan.whole, plan.regrouped)))
    stages = [None, *(exercise.stage for exercise in plan.exercises)]
    for before, exercise in zip(stages, plan.exercises, strict=False):
        yield Block(height(exercise.passages), opens=before is None or exercise.stage is not before)


def beginnings(blocks: Sequence[Block]) -> Iterator[int]:
    """Indexes of the blocks that begin a new part; the first, which begins the chapter, is none of them."""
    before, after = 0, sum(block.lines for block in blocks)
    for index, block in enumerate(blocks):
        if block.may_begin_a_page and min(before, after) >= LEAST:
            yield index
            before = 0
        before += block.lines
        after -= block.lines


def parted(text: Source, prologue: Source) -> tuple[Source, ...]:
    """The texts that together engrave the pages of one: each begins with ``prologue``, as the one does."""
    first, *others = text.split(f"{NEW_PART}\n")
    return (Source(first), *(Source(prologue + other) for other in others))
