"""A print run: a book's folder in, every edition of it in a folder out.

Editions on one paper share all engraved pages; what is engraved anew for another one is its index and its page numbers.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from engraver.definition import BookDefinition
from engraver.definition.editions import EditionDefinition
from engraver.errors import Problem
from engraver.file_name import slug
from engraver.making.clock import Clock
from engraver.making.edition import bind_edition
from engraver.making.gathering import Gathered, gather
from engraver.making.press import Press, Progress
from engraver.making.where import Where, workshop
from engraver.manuscript.complaints import warnings
from engraver.manuscript.manuscript import Manuscript
from engraver.manuscript.texts import Texts, opened_texts
from engraver.style import Paper


@dataclass(frozen=True, slots=True)
class Made:
    """An edition in its file."""

    edition: EditionDefinition
    file: Path
    pages: int


@dataclass(frozen=True, slots=True)
class PrintRun:
    """``chapters`` are the same on every paper; ``warnings`` are LilyPond's."""

    made: tuple[Made, ...]
    chapters: tuple[Manuscript, ...]
    warnings: tuple[Problem, ...]


def print_run(where: Where, book: BookDefinition, folder: Path, progress: Progress) -> PrintRun:
    """Raises an EngraverError if an edition cannot be made."""
    papers = dict.fromkeys(edition.paper for edition in book.editions)
    runs = [_on_paper(where, paper, folder, progress) for paper in papers]
    order = {edition.name: place for place, edition in enumerate(book.editions)}
    made = sorted((one for run in runs for one in run.made), key=lambda one: order[one.edition.name])
    said = dict.fromkeys(problem for run in runs for problem in run.warnings)
    return PrintRun(tuple(made), runs[0].chapters, tuple(said))


def _on_paper(where: Where, paper: Paper, folder: Path, progress: Progress) -> PrintRun:
    with opened_texts(where.store / "texts", f"{where.name} on {paper.name}") as texts:
        read = texts.read(where.folder)
        book = replace(read, style=replace(read.style, paper=paper))
        with workshop(where, book.style) as shop:
            press = Press(shop, Clock(), progress, texts.memory)
            gathered = gather(book, texts, press)
            mine = [edition for edition in book.editions if edition.paper == paper]
            made = tuple(_bind(edition, gathered, folder, texts, press) for edition in mine)
        return PrintRun(made, gathered.chapters, warnings(book, press.results))


def _bind(edition: EditionDefinition, gathered: Gathered, folder: Path, texts: Texts, press: Press) -> Made:
    file = folder / f"{slug(gathered.book.title)}-{slug(edition.name)}.pdf"
    return Made(edition, file, len(bind_edition(gathered, edition, file, texts, press).pages))
