"""The README's pictures: pages of the demo book, by what stands on them. Run by ``make pictures``."""

from __future__ import annotations

import sys
from pathlib import Path

import pypdfium2
from PIL import Image

SHOWN = {
    "opener": "The cycle against the bar",
    "regrouped": "The same strokes, barred by the cell",
    "cells": "each written once",
    "exercises": "The cycle by itself.",
    "contents": "Contents",
    "key": "The signs of this book",
}
CHAPTER = "Rope Ferry"


def main(book: Path, folder: Path) -> None:
    document = pypdfium2.PdfDocument(book)
    texts = [page.get_textpage().get_text_range() for page in document]
    first = next(i for i, text in enumerate(texts) if CHAPTER in text and SHOWN["opener"] in text)
    folder.mkdir(parents=True, exist_ok=True)
    for name, words in SHOWN.items():
        start = 0 if name in ("contents", "key") else first
        index = next(i for i in range(start, len(texts)) if words in texts[i])
        picture = document[index].render(scale=1.2).to_pil().quantize(64, dither=Image.Dither.NONE)
        picture.save(folder / f"{name}.png", optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
