"""A chapter as it is kept: its texts for the engraver, and what it tells the pages around the chapters.

In: what such a page asks of the chapters. Out: stamps that say whether the answers are what they were, and the answers.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from engraver.definition import ChapterDefinition
from engraver.errors import Problem
from engraver.manuscript.book_pages import AroundPage
from engraver.manuscript.collation import Outline
from engraver.memory import fingerprint, pack, unpack

if TYPE_CHECKING:
    from engraver.chapters import ChapterPlan


@dataclass(frozen=True, slots=True)
class Told:
    """A value that is seldom looked into; ``stamp`` is another where it says something else."""

    stamp: str
    packed: bytes

    @classmethod
    def of(cls, value: object) -> Told:
        return cls(fingerprint([repr(value)]), pack(value))


@dataclass(frozen=True, slots=True)
class Manuscript:
    """A chapter as it goes to the engraver, in one text or, if it is long, in several.

    ``told``: what the pages around the chapters are told of it, by kind.
    """

    definition: ChapterDefinition
    outline: Outline
    texts: tuple[str, ...]
    warnings: tuple[Problem, ...]
    told: Mapping[str, Told]
    packed_plan: bytes

    @property
    def name(self) -> str:
        return self.outline.name

    @property
    def plan(self) -> ChapterPlan:
        """Unpacked when it is asked for, which is seldom."""
        plan: ChapterPlan = unpack(self.packed_plan)
        return plan


def stamps(page: AroundPage, made: Sequence[Manuscript]) -> dict[str, str]:
    """All that chapters tell a page, for a reason to name."""
    said: dict[str, str] = {}
    for name, kind, told in _asked(page, made):
        said[name] = f"{said.get(name, '')}{kind}: {told.stamp if told else ''} "
    order = repr([asked.of for asked in page.asked])
    return {"the order of the chapters": order, **{f'chapter "{name}"': text for name, text in said.items()}}


def unpacked(page: AroundPage, made: Sequence[Manuscript]) -> dict[str, dict[str, Any]]:
    """The same by chapter and kind, as values; what a chapter has nothing to tell of is left out."""
    values: dict[str, dict[str, Any]] = {}
    for name, kind, told in _asked(page, made):
        if told:
            values.setdefault(name, {})[kind] = unpack(told.packed)
    return values


def _asked(page: AroundPage, made: Sequence[Manuscript]) -> Iterator[tuple[str, str, Told | None]]:
    """Chapter, kind, and what it tells of that."""
    told = {chapter.name: chapter.told for chapter in made}
    return ((name, asked.kind, told[name].get(asked.kind)) for asked in page.asked for name in asked.of)
