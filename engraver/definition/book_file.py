"""book.yaml: what the book is called, who made it, and which grooves are its chapters in which order."""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import ClassVar

from engraver.book_words import BookWords
from engraver.definition.editions import EDITIONS, EditionDefinition, EditionFile
from engraver.definition.file_names import GROOVE_NAME, TEXT_NAME, FileName
from engraver.definition.keys import ListOf, Record, Written, key
from engraver.definition.kinds import DATE, LANGUAGE, Line
from engraver.definition.matter import BACK, BACK_PAGES, FRONT, FRONT_PAGES, MatterPage, standard
from engraver.definition.prose import ProseText
from engraver.definition.schema import GrooveDefinition
from engraver.prose import Prose
from engraver.style import Style

_CHAPTERS = ListOf(GROOVE_NAME, least=1, most=1000)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFile(Written):
    title: str = key(Line(), "the title of the part")
    chapters: tuple[FileName, ...] = key(_CHAPTERS, "its groove files in order")
    text: Prose = key(ProseText(), "what its opening page says", ())
    noun: ClassVar[str] = "part"


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing(Written):
    """Which grooves are in the book. Neither ``chapters`` nor ``parts``: every groove file in order of name."""

    chapters: tuple[FileName, ...] = key(_CHAPTERS, "groove files in order", ())
    parts: tuple[PartFile, ...] = key(ListOf(Record(PartFile), least=1), "parts with their chapters", ())
    cover: FileName | None = key(GROOVE_NAME, "the groove pictured on the title page", None)
    noun: ClassVar[str] = "book"

    @property
    def file_names(self) -> Iterator[FileName]:
        yield from self.chapters
        for part in self.parts:
            yield from part.chapters


@dataclass(frozen=True, slots=True, kw_only=True)
class BookFile(Listing):
    title: str = key(Line(), "the title of the book")
    subtitle: str = key(Line(), "a line under the title", "")
    label: str = key(Line(), "a small line over the title", "")
    author: str = key(Line(), "who wrote it", "")
    publisher: str = key(Line(), "who publishes it", "")
    rights: str = key(Line(400), "the rights line", "")
    edition: str = key(Line(), "which edition it is", "")
    date: date = key(DATE, "its date, which is printed and stamped into the file: 2026-01-31")
    language: str = key(LANGUAGE, "the language it is written in", "")
    front: tuple[MatterPage, ...] = key(FRONT_PAGES, "what comes before the chapters", standard(FRONT))
    back: tuple[MatterPage, ...] = key(BACK_PAGES, "what comes after them", standard(BACK))
    editions: tuple[EditionFile, ...] = key(EDITIONS, "the ways in which it is made", ())
    licence: FileName | None = key(TEXT_NAME, "the text that says what a buyer may do with it", None)


@dataclass(frozen=True, slots=True)
class ChapterDefinition:
    groove: GrooveDefinition

    @property
    def name(self) -> str:
        return self.groove.name


@dataclass(frozen=True, slots=True)
class PartDefinition:
    title: str
    chapters: tuple[ChapterDefinition, ...]
    text: Prose = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BookDefinition(BookWords):
    """A book with all that it is made of. ``chapters`` are those of all parts; ``parts`` may be empty.

    A book that was read has an edition at least. ``licence`` is the author's text, or empty.
    """

    folder: Path
    style: Style
    chapters: tuple[ChapterDefinition, ...]
    parts: tuple[PartDefinition, ...]
    cover: ChapterDefinition
    front: tuple[MatterPage, ...]
    back: tuple[MatterPage, ...]
    editions: tuple[EditionDefinition, ...] = ()
    licence: str = ""
