"""The bindery: engraved pages read, and bound into a file, unless that was done before and nothing has changed.

In: engraved PDFs and how they are to be bound. Out: sheaves, and the book.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from engraver.binding import (
    Cuttings,
    Descriptions,
    Imprint,
    Pagination,
    Sheaf,
    Tone,
    TrimSize,
    bind,
    cuttings,
    open_sheaf,
)
from engraver.errors import EngravingError, Problem
from engraver.manuscript.fingerprints import binder
from engraver.memory import Memory, pack, unpack


@dataclass(frozen=True, slots=True)
class Printing:
    """How pages are printed, see `binding.bind`. ``name`` tells one tone from another."""

    name: str = "colour"
    tone: Tone | None = field(default=None, repr=False)
    links: bool = True
    sample: bool = False
    descriptions: Descriptions | None = None


@dataclass(frozen=True, slots=True)
class Work:
    """What is to be bound: page i of ``furniture`` is printed over page i of ``pages``."""

    pages: Pagination
    furniture: Sheaf
    imprint: Imprint
    trim: TrimSize
    ink: Printing

    def write(self, out: Path, cut: Callable[[Path], Cuttings]) -> None:
        ink = self.ink
        bind(
            self.pages,
            out,
            self.imprint,
            self.trim,
            self.furniture,
            sample=ink.sample,
            links=ink.links,
            tone=ink.tone,
            descriptions=ink.descriptions,
            cut=cut,
        )


class Bindery:
    """With a ``memory`` pages are read once, and a book that is there already is not bound again."""

    def __init__(self, memory: Memory | None = None) -> None:
        self._memory = memory
        self._digests: dict[Path, str] = {}
        self._opened: dict[Path, Sheaf] = {}
        self._prepared: dict[Path, Cuttings] = {}

    def opened(self, name: str, pdf: Path) -> Sheaf:
        """The pages of a source. Raises EngravingError for a PDF that is missing, damaged or badly marked."""
        if pdf not in self._opened:
            self._opened[pdf] = self._open(name, pdf)
        return self._opened[pdf]

    def bind(self, work: Work, out: Path) -> None:
        """Write the book. Raises EngravingError; a book that was there before is then left as it was."""
        out.parent.mkdir(parents=True, exist_ok=True)
        if self._memory is None:
            work.write(out, cuttings)
            return

        def make(_: object) -> bytes:
            work.write(out, self._cut)
            return _file_digest(out).encode()

        ground = {"what it is bound from": self._named(work), "the program": binder()}
        found = self._memory.recall(f"the file {out.name}", ground, _no_row, make)
        if not found.reason and not (out.exists() and _file_digest(out).encode() == found.content):
            work.write(out, self._cut)

    def prepare(self, name: str, pdf: Path) -> None:
        """Have ready what binding needs of a source, while there is time to wait."""
        if self._memory is not None:
            self.opened(name, pdf)
            self._prepared[pdf] = self._cut(pdf)

    def _open(self, name: str, pdf: Path) -> Sheaf:
        if self._memory is None:
            return open_sheaf(pdf)

        def read(_: object) -> bytes:
            sheaf = open_sheaf(pdf)
            return pack((sheaf.pages, sheaf.spots, sheaf.web))

        ground = {"the engraved pages": self._digest(pdf), "the program": binder()}
        return Sheaf(pdf, *unpack(self._memory.recall(f"the pages of {name}", ground, _no_row, read).content))

    def _cut(self, pdf: Path) -> Cuttings:
        if pdf in self._prepared:
            return self._prepared.pop(pdf)
        assert self._memory is not None, "without one nothing is kept"
        digest = self._digest(pdf)
        ground = {"the engraved pages": digest, "the program": binder()}
        found = self._memory.recall(f"the ink of {digest}", ground, _no_row, lambda _: pack(cuttings(pdf)))
        cut: Cuttings = unpack(found.content)
        return cut

    def _named(self, work: Work) -> str:
        """All that the bytes of the book follow from."""
        bound = work.pages
        sections = [(self._digest(s.sheaf.pdf), s.numbering, s.bookmarks) for s in bound.sections]
        pages = [(page.section, page.page, page.folio) for page in bound.pages]
        return repr((sections, pages, self._digest(work.furniture.pdf), work.imprint, work.trim, work.ink))

    def _digest(self, file: Path) -> str:
        if file not in self._digests:
            self._digests[file] = _file_digest(file)
        return self._digests[file]


def _no_row(name: str) -> str:
    raise AssertionError("nothing of the style is read while binding")


def _file_digest(file: Path) -> str:
    try:
        with file.open("rb") as opened:
            return hashlib.file_digest(opened, "sha256").hexdigest()
    except FileNotFoundError as error:
        raise EngravingError(Problem(None, f'"{file}" is not there', "build again")) from error
