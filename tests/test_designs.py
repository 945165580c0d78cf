"""The demo book in every page design, on both papers: no complaints, the exact paper, no page too full."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from pypdf import PdfReader

from engraver import definition, proof
from engraver.build import Report, build
from engraver.making.where import Where
from engraver.manuscript.planning import plan_book
from engraver.style import designs

BOOK = Path(__file__).parents[1] / "book"
# Sources: A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in (ANSI/ASME Y14.1 size A); a point is 1/72 in.
PAPERS = {"A4": (595.276, 841.890), "Letter": (612.0, 792.0)}
BUILT_ELSEWHERE = ("workbook", "A4")  # test_demo_book.py


def book_in(folder: Path, design: str, paper: str) -> Path:
    """A copy of the demo book, without its list of editions."""
    shutil.copytree(BOOK, folder)
    (folder / "style.yaml").write_text(f"design: {design}\npaper: {paper}\n", "utf-8")
    listed = (folder / "book.yaml").read_text("utf-8")
    (folder / "book.yaml").write_text(listed[: listed.index("\neditions:")] + "\n", "utf-8")
    return folder


@pytest.fixture(
    scope="module",
    params=[(d, p) for d in designs() for p in PAPERS if (d, p) != BUILT_ELSEWHERE],
    ids=" on ".join,
)
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Report, str]:
    design, paper = request.param
    base = tmp_path_factory.mktemp("designs")
    return build(Where(book_in(base / "book", design, paper), base / "out")), paper


def test_lilypond_has_nothing_to_complain_of(made: tuple[Report, str]) -> None:
    report, _ = made
    assert [str(warning) for warning in report.warnings if "LilyPond" in str(warning)] == []


def test_every_page_is_exactly_the_paper(made: tuple[Report, str]) -> None:
    report, paper = made
    sizes = {(float(page.mediabox.width), float(page.mediabox.height)) for page in PdfReader(report.book).pages}
    assert len(sizes) == 1
    assert sizes.pop() == pytest.approx(PAPERS[paper], abs=0.01)


def test_every_page_says_how_full_it_is_and_none_is_too_full(made: tuple[Report, str]) -> None:
    report, _ = made
    assert len(report.fills) >= report.pages - 1  # the blank before the body says nothing
    assert max(fill.full for fill in report.fills) <= 1


@pytest.mark.parametrize("design", designs())
def test_a_design_prints_every_passage_once(design: str, tmp_path: Path) -> None:
    """What the proof of sound and ink starts from: it refuses a chapter whose pages do not hold each staff once."""
    chapters = plan_book(definition.read(book_in(tmp_path / "book", design, "A4")))
    assert all(proof.source(chapter.source) for chapter in chapters)
