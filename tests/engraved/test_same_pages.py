"""The same pages however they are engraved: by warm processes or plain ones, one after another or at once, in parts.

Warm processes have read the design ahead, with settings that stand in for those of the source; so two of the
styles here change every setting that a source begins with.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pypdfium2
import pytest

from engraver import definition
from engraver.engraving import Engine, Job, Workshop
from engraver.manuscript.planning import plan_chapter
from engraver.style import include_folders
from tests.bench.generated_books import LONG, write_book

OTHER = "colours: no\nfonts: {text: Source Sans Pro}\n"
STYLES = {
    "workbook": "design: workbook\n",
    "edition": "design: edition\n",
    "workbook, all else": "preset: large print\ndesign: workbook\npaper: Letter\nghosts: small\n" + OTHER,
    "edition, all else": "preset: large print\ndesign: edition\npaper: Letter\nghosts: both\n" + OTHER,
}
GROOVES = (2, 3)  # with a cell key; with a picture


class Way(NamedTuple):
    warm: bool
    workers: int


WARM, IN_TURN, PLAIN = Way(True, 2), Way(True, 1), Way(False, 2)


def chapters(folder: Path, style: str) -> list[Job]:
    write_book(folder, max(GROOVES))
    (folder / "style.yaml").write_text(style)
    book = definition.read(folder)
    made = [plan_chapter(book.chapters[n - 1], book.style, book.style.say) for n in GROOVES]
    return [Job(chapter.plan.name, chapter.source.text) for chapter in made]


def pages(jobs: list[Job], design: str, store: Path, way: Way) -> list[bytes]:
    with Workshop(Engine.find(), include_folders(design), store, workers=way.workers, warm=way.warm) as shop:
        results = shop.engrave(jobs)
        assert shop.is_warm is way.warm
    assert [result.failure for result in results] == [""] * len(jobs)
    return [result.pdf.read_bytes() for result in results if result.pdf]


@pytest.mark.parametrize("style", STYLES.values(), ids=STYLES)
def test_warm_and_plain_engraving_give_equal_bytes(tmp_path, style):
    design = "edition" if "edition" in style else "workbook"
    jobs = chapters(tmp_path / "book", style)
    warm, in_turn, plain = (
        pages(jobs, design, tmp_path / f"store {n}", way) for n, way in enumerate((WARM, IN_TURN, PLAIN))
    )
    assert warm == plain and in_turn == plain


def test_each_style_has_pages_of_its_own(tmp_path):
    """Else the test above would compare less than it says."""
    seen = {drawn(chapters(tmp_path / f"{n}", style), style, tmp_path) for n, style in enumerate(STYLES.values())}
    assert len(seen) == len(STYLES)


def drawn(jobs: list[Job], style: str, folder: Path) -> bytes:
    """The pixels of the first page of the first chapter."""
    design = "edition" if "edition" in style else "workbook"
    return pixels(pages(jobs[:1], design, folder / "store", WARM)[0])[0]


def pixels(pdf: bytes) -> list[bytes]:
    """Of each page."""
    return [bytes(page.render(scale=0.5).to_numpy().tobytes()) for page in pypdfium2.PdfDocument(pdf)]


@pytest.mark.parametrize("design", ["workbook", "edition"])
def test_the_parts_of_a_long_chapter_are_the_pages_of_its_one_text(tmp_path, design):
    write_book(tmp_path / "book", 0, long=16)
    (tmp_path / "book" / "style.yaml").write_text(STYLES[design])
    book = definition.read(tmp_path / "book")
    source = plan_chapter(book.chapters[0], book.style, book.style.say).source
    jobs = [Job(f"{LONG} {n}", text) for n, text in enumerate((source.text, *source.parts))]
    whole, *parts = (pixels(pdf) for pdf in pages(jobs, design, tmp_path / "store", WARM))
    assert len(parts) > 2
    assert [page for part in parts for page in part] == whole
