"""A small book and its release by the command: what the tests of releases look at."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pypdf
import pypdfium2

from engraver.starter import copy_starter

EDITIONS = """
editions:
  - screen
  - {kind: screen, paper: Letter}
  - {kind: print, bleed: 3}
  - {kind: print, name: proof, ink: grey, gutter: 4, recto: no}
  - {kind: sample, chapters: [second]}
  - {kind: sample, name: taste, pages: "i, 2-3"}
"""
BUYERS = f"order,name\nA-1,Ada Nightingale\nA-2,Zoë Ångström\nA-3,\nA-4,{'Very Long Name ' * 30}\n"
NAME = "my-first-book-2026-01-31"


def two_chapters(folder: Path) -> Path:
    copy_starter(folder)
    first = (folder / "grooves" / "first-steps.yaml").read_text("utf-8")
    (folder / "grooves" / "second.yaml").write_text(first.replace("title: First Steps", "title: Second Steps"), "utf-8")
    book = (folder / "book.yaml").read_text("utf-8")
    (folder / "book.yaml").write_text(
        book.replace("  - first-steps\n", "  - first-steps\n  - second\n") + EDITIONS, "utf-8"
    )
    return folder


@dataclass(frozen=True)
class Ended:
    code: int
    err: str


@dataclass(frozen=True)
class Sold:
    """``book`` is the folder that it was made of, ``out`` where it was put."""

    book: Path
    out: Path
    ended: Ended

    @property
    def folder(self) -> Path:
        return self.out / "release" / NAME

    def pdf(self, edition: str) -> pypdf.PdfReader:
        return pypdf.PdfReader(self.folder / f"my-first-book-{edition}.pdf", strict=True)

    def seen(self, edition: str) -> pypdfium2.PdfDocument:
        return pypdfium2.PdfDocument(self.folder / f"my-first-book-{edition}.pdf")


def engraver(*arguments: object) -> Ended:
    command = [sys.executable, "-m", "engraver", *map(str, arguments)]
    ended = subprocess.run(command, capture_output=True, text=True, timeout=300)
    return Ended(ended.returncode, ended.stderr)


ALL = ("screen", "screen-letter", "print", "proof", "sample", "taste")
PRINTED = ("print", "proof")
