"""The demo book and its specimen in every design and preset and on both papers: what lies on something else.

Run by `make overlaps`. Prints a line for each of them, and every overlap and every complaint of LilyPond's; exits
with 1 if there is one.
"""

from __future__ import annotations

import re
import shutil
import sys
from collections.abc import Iterable, Iterator
from itertools import product
from pathlib import Path
from tempfile import TemporaryDirectory

from engraver import definition, lilypond, proof
from engraver.definition import BookDefinition
from engraver.definition.settings import in_force
from engraver.engraving import Engraved, Job, Workshop
from engraver.making.where import Where, workshop
from engraver.manuscript.planning import plan_book
from engraver.proof.drawn import things
from engraver.proof.overlaps import overlaps
from engraver.specimen.make import NAME, figures
from engraver.style import designs
from engraver.style.presets import presets

BOOK = Path(__file__).parents[2] / "book"
PAPERS = ("A4", "Letter")


def collisions(design: str, preset: str, paper: str, folder: Path) -> list[str]:
    """Overlaps and complaints in chapters and specimen; ``folder`` is empty, for a copy of the book and its store."""
    copy = folder / "book"
    shutil.copytree(BOOK, copy, ignore=shutil.ignore_patterns("build"))
    words = (copy / "book.yaml").read_text("utf-8")
    # the editions are for papers of their own
    (copy / "book.yaml").write_text(re.sub(r"^editions:.*\n(?: .*\n)*", "", words, flags=re.MULTILINE), "utf-8")
    (copy / "style.yaml").write_text(f"preset: {preset}\ndesign: {design}\npaper: {paper}\n", "utf-8")
    book = definition.read(copy)
    with workshop(Where(copy, folder / "build"), book.style) as shop:
        return [*_of_chapters(book, shop), *_of_specimen(book, shop)]


def _of_chapters(book: BookDefinition, shop: Workshop) -> Iterator[str]:
    made = plan_book(book)
    results = shop.engrave([Job(chapter.plan.name, proof.source(chapter.source)) for chapter in made])
    yield from _complaints(results)
    for chapter, result in zip(made, results, strict=True):
        yield from map(str, proof.collisions(chapter.plan, chapter.source, result))


def _of_specimen(book: BookDefinition, shop: Workshop) -> Iterator[str]:
    text = lilypond.specimen(tuple(figures(book.style)), tuple(in_force(book.style)), book.style)
    (result,) = shop.engrave([Job(NAME, proof.read_back(text))])
    yield from _complaints([result])
    (drawn,) = result.with_suffix(".drawn")
    yield from (
        f"{NAME}, page {found.first.page}, line {found.first.line}: {found}" for found in overlaps(things(drawn))
    )


def _complaints(results: Iterable[Engraved]) -> Iterator[str]:
    for result in results:
        assert not result.failure, result.failure
        yield from (f"{result.job.name}: {complaint}" for complaint in result.complaints)


def main() -> int:
    faults = 0
    for design, preset, paper in product(designs(), presets(), PAPERS):
        with TemporaryDirectory() as folder:
            found = collisions(design, preset, paper, Path(folder))
        print(f"{design}, {preset}, {paper}: {len(found)} overlaps and complaints", *found, sep="\n  ", flush=True)
        faults += len(found)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
