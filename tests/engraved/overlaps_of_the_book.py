"""The demo book in every preset and on both papers: what lies on something else. Run by `make overlaps`.

Prints a line for each of them, and every overlap and every complaint of LilyPond's; exits with 1 if there is one.
"""

from __future__ import annotations

import re
import shutil
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from engraver import definition, proof
from engraver.engraving import Job
from engraver.making.where import Where, workshop
from engraver.manuscript.planning import plan_book
from engraver.style.presets import presets

BOOK = Path(__file__).parents[2] / "book"
PAPERS = ("A4", "Letter")


def collisions(preset: str, paper: str, folder: Path) -> list[str]:
    """Overlaps and complaints in the chapters of the demo book; ``folder`` is empty, for a copy and its store."""
    copy = folder / "book"
    shutil.copytree(BOOK, copy, ignore=shutil.ignore_patterns("build"))
    words = (copy / "book.yaml").read_text("utf-8")
    # the editions are for papers of their own
    (copy / "book.yaml").write_text(re.sub(r"^editions:.*\n(?: .*\n)*", "", words, flags=re.MULTILINE), "utf-8")
    (copy / "style.yaml").write_text(f"preset: {preset}\npaper: {paper}\n", "utf-8")
    book = definition.read(copy)
    made = plan_book(book)
    with workshop(Where(copy, folder / "build"), book.style) as shop:
        results = shop.engrave([Job(chapter.plan.name, proof.source(chapter.source)) for chapter in made])
    found = [f"{result.job.name}: {complaint}" for result in results for complaint in result.complaints]
    for chapter, result in zip(made, results, strict=True):
        found += map(str, proof.collisions(chapter.plan, chapter.source, result))
    return found


def main() -> int:
    faults = 0
    for preset in presets():
        for paper in PAPERS:
            with TemporaryDirectory() as folder:
                found = collisions(preset, paper, Path(folder))
            print(f"{preset}, {paper}: {len(found)} overlaps and complaints", *found, sep="\n  ")
            faults += len(found)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
