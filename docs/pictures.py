"""Pictures of the demo book's pages, one of each kind in every page design. Run by ``make pictures``.

In: the folder of the book, a folder for what is built, and the folder of the pictures.
"""

from __future__ import annotations

import re
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
from PIL import Image
from pypdf import PdfReader
from pypdf.generic import Destination

from engraver.build import build
from engraver.making.where import Where
from engraver.style import designs

CHAPTER = "Rope Ferry"
IN_CHAPTER = {"regrouped": "Regrouped view", "cells": "Cell key"}
AROUND = {
    "rights": "Rights",
    "contents": "Contents",
    "cautions": "Before you play",
    "key": "Notation key",
    "answers": "Answers",
    "log": "Practice log",
    "plan": "Practice plan",
    "index": "Index",
    "grades": "Exercises by grade",
}


def in_design(book: Path, design: str, folder: Path) -> Path:
    """The demo book made in a page design; where its PDF is."""
    copy = folder / design
    shutil.rmtree(copy, ignore_errors=True)
    shutil.copytree(book, copy)
    style = (copy / "style.yaml").read_text("utf-8")
    (copy / "style.yaml").write_text(re.sub(r"(?m)^design: .*$", f"design: {design}", style), "utf-8")
    return build(Where(copy, folder / "out")).book


def pages(book: Path) -> Iterator[tuple[str, int]]:
    """Each kind of page and the number of one such page, from 0, by the outline."""
    reader = PdfReader(book)
    yield "title", 0
    top: dict[str, int] = {}
    for entry, below in zip(reader.outline, [*reader.outline[1:], None], strict=True):
        if isinstance(entry, Destination) and entry.title is not None:
            top[entry.title] = reader.get_destination_page_number(entry) or 0
            if entry.title.endswith(CHAPTER) and isinstance(below, list):
                yield "opener", top[entry.title]
                inner = {
                    e.title: reader.get_destination_page_number(e) or 0 for e in below if isinstance(e, Destination)
                }
                yield from ((kind, inner[title]) for kind, title in IN_CHAPTER.items())
                yield "exercises", inner["Exercises"] + 1  # a page of nothing else
    yield from ((kind, top[title]) for kind, title in AROUND.items())


def main(book: Path, built: Path, folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for design in designs():
        made = in_design(book, design, built)
        document = pypdfium2.PdfDocument(made)
        for kind, index in pages(made):
            picture = document[index].render(scale=1.1).to_pil().quantize(96, dither=Image.Dither.NONE)
            picture.save(folder / f"{design}-{kind}.png", optimize=True)


if __name__ == "__main__":
    main(*(Path(argument) for argument in sys.argv[1:4]))
