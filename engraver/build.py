"""Every stage in order: a folder of groove files becomes one bound book.

A build that fails leaves the last good book in place.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from engraver import collation, definition, export, lilypond
from engraver.complaints import refuse, warnings
from engraver.edition import Edition, Gathered, bind_edition, whole_page
from engraver.errors import Problem
from engraver.planning import plan_book
from engraver.playing import play_book
from engraver.press import Clock, Press, Progress, silent
from engraver.where import Where, workshop


@dataclass(frozen=True, slots=True)
class Report:
    """What a build did. ``fresh``: names of the sources that were engraved now; times in seconds.

    ``midi``: how many MIDI files the book has beside it.
    """

    book: Path
    pages: int
    chapters: int
    fresh: tuple[str, ...]
    warnings: tuple[Problem, ...]
    times: Mapping[str, float]
    midi: int = 0


def build(where: Where, progress: Progress = silent, midi: export.Click | None = None) -> Report:
    """Read, plan, engrave and bind. Raises an EngraverError that says what was wrong and where.

    ``midi``: write MIDI files too, with this click.
    """
    clock = Clock()
    with clock("reading"):
        book = definition.read(where.folder)
    with clock("writing LilyPond"):
        made = plan_book(book)
        matter = collation.book_matter(book, [chapter.plan for chapter in made])
        chapters = {chapter.plan.name: chapter.source.text for chapter in made}
        around = dict(collation.matter_sources(book, matter))
    with clock("writing MIDI"):
        played = play_book(made, book.style.kit, midi) if midi else {}
    with workshop(where, book.style) as shop:
        press = Press(shop, clock, progress)
        engraved = press.engrave({**chapters, **around})
        refuse(made, engraved)
        pieces = tuple(collation.book_pieces(book, matter.plans, around, matter.say))
        gathered = Gathered(book, matter, pieces, press.opened(engraved))
        pagination = bind_edition(gathered, Edition(where.book, whole_page(book)), press)
    if midi:
        with clock("writing MIDI"):
            export.write_files(where.midi, played)
    with clock("laying out sources"):
        lilypond.lay_out(where.sources, chapters)
    said = warnings(made, press.results)
    return Report(where.book, len(pagination.pages), len(made), press.fresh, said, clock.times, len(played))
