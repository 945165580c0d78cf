"""The editions of a book: what the author writes of each under ``editions:`` goes in, with every default filled in out.

A screen edition has colour, links and even margins; a print edition one ink, mirrored margins, chapters that begin on a
right-hand page, and no links; a sample has some pages of the book and says on each that it is one.
"""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from typing import Any, ClassVar

from engraver.definition.file_names import GROOVE_NAME, FileName
from engraver.definition.keys import ByShape, ListOf, Reading, Record, Written, key
from engraver.definition.kinds import YES_NO, Choice, Line, Parsed, Whole
from engraver.definition.source import Node
from engraver.errors import Position, meant
from engraver.file_name import slug
from engraver.style import PAPERS, Paper


class EditionKind(Enum):
    SCREEN = "screen"
    PRINT = "print"
    SAMPLE = "sample"


class Ink(Enum):
    COLOUR = "colour"
    GREY = "grey"  # every colour as the grey of the same lightness
    BLACK = "black"  # as grey, but dark tones, so all text and notes, are solid black


@dataclass(frozen=True, slots=True)
class PageRange:
    """Printed page numbers, the last one included: ``i`` to ``iv``, ``1`` to ``1``."""

    first: str
    last: str


def _pages(text: str) -> tuple[PageRange, ...]:
    ranges = []
    for part in text.split(","):
        match = re.fullmatch(r"\s*([ivxlc]+|[0-9]{1,4})\s*(?:-\s*([ivxlc]+|[0-9]{1,4}))?\s*", part)
        if match is None or (match[2] and match[1].isdigit() != match[2].isdigit()):
            raise ValueError(text)
        ranges.append(PageRange(match[1], match[2] or match[1]))
    return tuple(ranges)


_KIND = Choice({kind.value: kind for kind in EditionKind}, "a kind of edition")
_INK = Choice({ink.value: ink for ink in Ink}, "an ink")
_PAPER = Choice(dict(PAPERS), "a paper")
_MM = Whole(0, 20, "a number of millimetres")
_PAGES = Parsed(_pages, "a list of pages", "write printed page numbers: i-iv, 1-3, 12")


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionFile(Written):
    kind: EditionKind = key(_KIND, "screen, print or sample")
    name: str = key(Line(40), "what its file is called", "")
    paper: Paper | None = key(_PAPER, "A4 or Letter", None)
    ink: Ink | None = key(_INK, "colour, grey or black", None)
    gutter: int | None = key(_MM, "millimetres that pages of a print edition move from the spine", None)
    bleed: int = key(_MM, "millimetres of paper around the page of a print edition", 0)
    recto: bool | None = key(YES_NO, "whether chapters of a print edition begin on a right-hand page", None)
    chapters: tuple[FileName, ...] = key(ListOf(GROOVE_NAME, least=1), "the chapters of a sample", ())
    pages: tuple[PageRange, ...] = key(_PAGES, "the pages of a sample: i-iv, 1-3", ())
    noun: ClassVar[str] = "edition"


@dataclass(frozen=True, slots=True)
class _KindAlone:
    """An edition of which nothing but its kind is written."""

    def read(self, node: Node, reading: Reading) -> EditionFile:
        return EditionFile(position=node.position, kind=_KIND.read(node, reading))

    def json(self) -> dict[str, Any]:
        return _KIND.json()


EDITIONS = ListOf(ByShape(scalar=_KindAlone(), entries=Record(EditionFile)), least=1, most=20)

# keys that make sense in one kind of edition alone
_ONLY_IN = {
    **dict.fromkeys(("gutter", "bleed", "recto"), EditionKind.PRINT),
    **dict.fromkeys(("chapters", "pages"), EditionKind.SAMPLE),
}


@dataclass(frozen=True, slots=True)
class EditionDefinition:
    """One way of making the book. ``gutter`` None: by the number of pages. ``chapters`` are names.

    ``recto``: chapters begin on right-hand pages; ``mirrored``: so do margins that the style adds at the spine.
    ``described``: tagged for screen readers, its scores told in words.
    """

    kind: EditionKind
    name: str
    paper: Paper
    ink: Ink = Ink.COLOUR
    gutter: int | None = 0
    bleed: int = 0
    recto: bool = False
    mirrored: bool = False
    described: bool = False
    chapters: tuple[str, ...] = ()
    pages: tuple[PageRange, ...] = ()
    position: Position | None = None

    @property
    def has_links(self) -> bool:
        return self.kind is not EditionKind.PRINT

    @property
    def is_sample(self) -> bool:
        return self.kind is EditionKind.SAMPLE


def plain_edition(paper: Paper) -> EditionDefinition:
    """The book as its style says, margins too: for the screen, or for a desk printer."""
    return EditionDefinition(EditionKind.SCREEN, EditionKind.SCREEN.value, paper, mirrored=True)


def editions_of(
    files: Sequence[EditionFile], paper: Paper, chapters: Collection[str], reading: Reading
) -> tuple[EditionDefinition, ...]:
    """Every edition; ``paper`` is that of the style. Notes what does not fit together."""
    if not files:
        return (replace(plain_edition(paper), mirrored=False, described=True),)
    made = tuple(_edition(file, paper) for file in files)
    for file in files:
        _check(file, chapters, reading)
    _check_names(made, reading)
    return made


def _edition(file: EditionFile, paper: Paper) -> EditionDefinition:
    own = file.paper or paper
    printed = file.kind is EditionKind.PRINT
    name = file.name or (file.kind.value if own == paper else f"{file.kind.value} {own.name}")
    return EditionDefinition(
        kind=file.kind,
        name=name,
        paper=own,
        ink=file.ink or (Ink.BLACK if printed else Ink.COLOUR),
        gutter=file.gutter if printed else 0,
        bleed=file.bleed,
        recto=printed if file.recto is None else file.recto,
        mirrored=printed,
        described=not printed,
        chapters=tuple(chapter.name for chapter in file.chapters),
        pages=file.pages,
        position=file.position,
    )


def _check(file: EditionFile, chapters: Collection[str], reading: Reading) -> None:
    for name, place in file.places:
        if name in _ONLY_IN and file.kind is not _ONLY_IN[name]:
            kinds = f"a {file.kind.value} edition has no {name}"
            reading.reject(place, kinds, f"{name} is for a {_ONLY_IN[name].value} edition")
    for chapter in file.chapters:
        if chapter.name not in chapters:
            hint = meant(chapter.name, chapters, "name chapters of this book")
            reading.reject(chapter.position, f'there is no chapter "{chapter.name}"', hint)
    written = {name for name, _ in file.places}
    if file.kind is EditionKind.SAMPLE and written.isdisjoint({"chapters", "pages"}):
        reading.reject(file.position, "this sample has no pages", "add chapters: [first] or pages: i-iv, 1-3")


def _check_names(editions: Sequence[EditionDefinition], reading: Reading) -> None:
    seen: set[str] = set()
    for edition in editions:
        if slug(edition.name) in seen and edition.position:
            reading.reject(edition.position, f'two editions are called "{edition.name}"', "give one of them a name")
        seen.add(slug(edition.name))
