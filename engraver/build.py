"""Every stage in order: a folder of groove files becomes one bound book.

A build that fails leaves the last good book in place.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from engraver.definition.editions import plain_edition
from engraver.errors import Problem
from engraver.making.clock import Clock, Spent
from engraver.making.edition import bind_edition
from engraver.making.gathering import Gathered, gather
from engraver.making.page_report import PageFill, page_fills
from engraver.making.press import Press, Progress, silent
from engraver.making.where import Where, workshop
from engraver.manuscript.complaints import warnings
from engraver.manuscript.copies import Copies
from engraver.manuscript.reasons import Cause, causes
from engraver.manuscript.texts import opened_texts

if TYPE_CHECKING:
    from engraver.export import Click


@dataclass(frozen=True, slots=True)
class Report:
    """What a build did. ``causes``: for each source why it was written or engraved again; ``times``: by stage.

    ``processor``: the seconds of processors that the program itself used, and those that its LilyPond processes used.
    ``midi``: how many MIDI files the book has beside it; ``fills``: how full its pages are.
    """

    book: Path
    pages: int
    chapters: int
    causes: tuple[Cause, ...]
    warnings: tuple[Problem, ...]
    times: Mapping[str, Spent]
    processor: tuple[float, float]
    midi: int = 0
    fills: tuple[PageFill, ...] = ()

    @property
    def fresh(self) -> tuple[str, ...]:
        """The names of the sources that were engraved now."""
        return tuple(cause.name for cause in self.causes if cause.engraved)

    @property
    def written(self) -> tuple[str, ...]:
        """The names of the sources whose text was made now."""
        return tuple(cause.name for cause in self.causes if cause.written)


def build(
    where: Where,
    progress: Progress = silent,
    midi: Click | None = None,
    *,
    every_tempo: bool = False,
    sources: bool = False,
) -> Report:
    """Read, write, engrave and bind. Raises an EngraverError that says what was wrong and where.

    ``midi``: write MIDI files too, with this click, for every tempo of each exercise if ``every_tempo``. ``sources``:
    lay out copies of the LilyPond texts for a person to read.
    """
    clock, copies, begun = Clock(), Copies(where.sources), os.times()
    with opened_texts(where.store / "texts", where.name) as texts:
        with clock("reading"):
            book = texts.read(where.folder)
        with workshop(where, book.style) as shop:
            press = Press(shop, clock, progress, texts.memory)
            gathered = gather(book, texts, press, copies.lay_out if sources else None)
            pagination = bind_edition(gathered, plain_edition(book.style.paper), where.book, texts, press)
        played = 0
        if midi:
            with clock("writing MIDI"):
                played = _play(where, gathered, midi, every_tempo)
        copies.tell()
        why = causes(texts, press.results)
    advice = tuple(problem for chapter in gathered.chapters for problem in chapter.warnings)
    said = advice + warnings(book, press.results)
    fills = page_fills(pagination, gathered.pieces)
    pages, used = len(pagination.pages), _used(begun, os.times())
    return Report(where.book, pages, len(gathered.chapters), why, said, clock.times, used, played, fills)


def _used(begun: os.times_result, ended: os.times_result) -> tuple[float, float]:
    """Processor seconds of this program and of the processes that it started and that have ended."""
    own = ended.user + ended.system - begun.user - begun.system
    return own, ended.children_user + ended.children_system - begun.children_user - begun.children_system


def _play(where: Where, gathered: Gathered, click: Click, every_tempo: bool) -> int:
    """How many MIDI files there are."""
    from engraver.export import write_files  # loaded only for who wants to hear
    from engraver.manuscript.playing import play_book

    files = play_book(gathered.chapters, gathered.book.style, click, every_tempo=every_tempo)
    write_files(where.midi, files)
    return len(files)
