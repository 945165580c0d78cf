"""Chapters from YAML, as pages and as what the proof reads of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from engraver import analysis, chapters, definition, lilypond, proof
from engraver.chapters import ChapterPlan
from engraver.definition import GrooveDefinition
from engraver.engraving import Engine, Job, Workshop
from engraver.lilypond import ChapterSource, Source
from engraver.proof import Difference
from engraver.style import Style, include_folders, words

DAMAGED = Path(__file__).parent / "loose-slates.yaml"


@dataclass(frozen=True)
class Made:
    """A chapter that can be proved."""

    plan: ChapterPlan
    source: ChapterSource
    style: Style

    def with_staff(self, part: str, staff: str) -> Made:
        """The same chapter with other music on the staff of one passage; its plan says what it should have been."""
        old = self.source.staves[part]
        assert staff != old and self.source.text.count(old) == 1
        staves = {**self.source.staves, part: Source(staff)}
        return replace(
            self, source=replace(self.source, text=Source(self.source.text.replace(old, staff)), staves=staves)
        )


def made(groove: GrooveDefinition, style: Style) -> Made:
    say = words(style.language)
    sounding = definition.to_groove(groove)
    cells = groove.cells and analysis.StatedCells(groove.cells.length, groove.cells.start - 1)
    plan = chapters.plan(groove, sounding, analysis.analyse(sounding, cells, places=style.kit.places()), say, style.kit)
    return Made(plan, lilypond.chapter(plan, style, say), style)


@pytest.fixture(scope="session")
def make() -> Callable[..., Made]:
    """A chapter from the text of a groove file."""

    def from_text(text: str, style: Style | None = None) -> Made:
        return made(definition.parse_groove(text, Path("slates.yaml"), style), style or Style())

    return from_text


@pytest.fixture(scope="session")
def slates(make: Callable[..., Made]) -> Made:
    return make(DAMAGED.read_text("utf-8"))


@pytest.fixture(scope="session")
def book() -> list[Made]:
    folder = Path(__file__).parents[2] / "book"
    read = definition.read(folder)
    return [made(chapter.groove, read.style) for chapter in read.chapters]


@pytest.fixture(scope="session")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workshop]:
    include = include_folders("workbook")
    with Workshop(Engine.find(), include, tmp_path_factory.mktemp("store")) as opened:
        yield opened


@pytest.fixture(scope="session")
def prove(shop: Workshop) -> Callable[[Sequence[Made]], list[tuple[Difference, ...]]]:
    """The differences in each of these chapters, engraved together."""

    def differences(several: Sequence[Made]) -> list[tuple[Difference, ...]]:
        results = shop.engrave([Job(one.plan.name, proof.source(one.source)) for one in several])
        return [
            proof.compare(one.plan, one.style, one.source, result) for one, result in zip(several, results, strict=True)
        ]

    return differences
