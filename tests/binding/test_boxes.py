"""The paper is exact, and ink keeps its distance from the top and the left edge."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pypdf
import pypdfium2
import pytest

from engraver.binding import Around, Imprint, Section, Sheaf, TrimSize, bind, open_sheaf, paginate
from engraver.errors import EngravingError

PAPERS = [
    # ISO 216:2007, table 1 (from memory): A4 is 210 x 297 mm; 72 points to the inch of 25.4 mm
    (TrimSize(210, 297), (595.2756, 841.8898), (596, 842)),
    # ANSI/ASME Y14.1 (from memory): size A is 8.5 x 11 inches, 215.9 x 279.4 mm
    (TrimSize(215.9, 279.4), (612, 792), (613, 793)),
]
BODY = '\\markup { \\combine \\spot "engraver:anchor/x" \\block }'
SCALE = 20  # pixels to a point
MARGIN = 10 / 25.4 * 72  # SOURCE puts the block 10 mm from the left and the top


def ink(pdf: Path, page: int = 0) -> tuple[float, float]:
    """Points from the left and the top edge to the first ink."""
    with pypdfium2.PdfDocument(pdf) as reader:
        width, height = reader[page].get_size()
        corner = reader[page].render(scale=SCALE, crop=(0, height - 60, width - 60, 0))
        picture = corner.to_pil().convert("L").point(lambda grey: 255 * (grey < 128))
    left, top, _, _ = picture.getbbox()
    return left / SCALE, top / SCALE


@pytest.mark.parametrize(("trim", "points", "cairo"), PAPERS, ids=["A4", "Letter"])
def test_an_engraved_page_is_trimmed_and_its_ink_stays(
    engrave: Callable[..., Path],
    tmp_path: Path,
    imprint: Imprint,
    trim: TrimSize,
    points: tuple[float, float],
    cairo: tuple[int, int],
) -> None:
    engraved, book = engrave(f"block-{trim.width}", BODY, trim.width, trim.height), tmp_path / "book.pdf"
    assert pypdf.PdfReader(engraved).pages[0].mediabox == [0, 0, *cairo]  # rounded up: why there is a shift at all
    bind(paginate([Section(open_sheaf(engraved))]), book, imprint, trim)
    page = pypdf.PdfReader(book, strict=True).pages[0]
    for name in ("/MediaBox", "/CropBox", "/TrimBox"):
        assert [float(side) for side in page[name]] == pytest.approx([0, 0, *points], abs=0.0001)
    assert pypdfium2.PdfDocument(book).get_page_size(0) == pytest.approx(points, abs=0.001)
    # Letter's shift is a whole point and A4's 0.11: a page not shifted, or shifted the wrong way, is told apart.
    assert ink(book) == pytest.approx((MARGIN, MARGIN), abs=1.5 / SCALE)


def test_furniture_lands_where_it_was_engraved(
    engrave: Callable[..., Path], sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint
) -> None:
    trim, book = TrimSize(215.9, 279.4), tmp_path / "book.pdf"
    furniture = engrave("furniture-letter", BODY, trim.width, trim.height)
    empty = engrave("empty-letter", '\\markup { " " }', trim.width, trim.height)
    bind(paginate([Section(open_sheaf(empty))]), book, imprint, trim, open_sheaf(furniture))
    assert ink(book) == pytest.approx((MARGIN, MARGIN), abs=1.5 / SCALE)


def test_the_gutter_moves_rectos_right_and_versos_left(
    engrave: Callable[..., Path], tmp_path: Path, imprint: Imprint
) -> None:
    two = engrave("two", "\\markup \\block \\pageBreak \\markup \\block")
    bind(paginate([Section(open_sheaf(two))]), tmp_path / "book.pdf", imprint, TrimSize(210, 297, gutter=4))
    gutter = 4 / 25.4 * 72
    assert ink(tmp_path / "book.pdf", 0) == pytest.approx((MARGIN + gutter, MARGIN), abs=1.5 / SCALE)
    assert ink(tmp_path / "book.pdf", 1) == pytest.approx((MARGIN - gutter, MARGIN), abs=1.5 / SCALE)


def test_added_margins_are_mirrored_at_the_spine(
    engrave: Callable[..., Path], tmp_path: Path, imprint: Imprint
) -> None:
    two = engrave("two-of-a-book", "\\markup \\block \\pageBreak \\markup \\block", 210 - 9, 297 - 8)
    trim = TrimSize(210, 297, around=Around(top=6, bottom=2, inner=8, outer=1))
    bind(paginate([Section(open_sheaf(two))]), tmp_path / "book.pdf", imprint, trim)
    inner, outer, top = (length / 25.4 * 72 for length in (8, 1, 6))
    assert ink(tmp_path / "book.pdf", 0) == pytest.approx((MARGIN + inner, MARGIN + top), abs=1.5 / SCALE)
    assert ink(tmp_path / "book.pdf", 1) == pytest.approx((MARGIN + outer, MARGIN + top), abs=1.5 / SCALE)


def test_a_bleed_lies_around_the_trimmed_page(engrave: Callable[..., Path], tmp_path: Path, imprint: Imprint) -> None:
    """ISO 32000-1, 14.11.2: the trim box lies in the bleed box, that in the media box."""
    engraved, book = engrave("block-210", BODY), tmp_path / "book.pdf"
    bind(paginate([Section(open_sheaf(engraved))]), book, imprint, TrimSize(210, 297, bleed=3))
    page, around = pypdf.PdfReader(book, strict=True).pages[0], 3 / 25.4 * 72
    full = [0, 0, 595.2756 + 2 * around, 841.8898 + 2 * around]
    assert [float(side) for side in page["/MediaBox"]] == pytest.approx(full, abs=0.001)
    assert [float(side) for side in page["/BleedBox"]] == pytest.approx(full, abs=0.001)
    trimmed = [around, around, 595.2756 + around, 841.8898 + around]
    assert [float(side) for side in page["/TrimBox"]] == pytest.approx(trimmed, abs=0.001)
    assert ink(book) == pytest.approx((MARGIN + around, MARGIN + around), abs=1.5 / SCALE)


def test_a_page_for_another_paper_is_refused(sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint) -> None:
    with pytest.raises(EngravingError, match="a page is 596 x 842 points, the book's paper 612 x 792"):
        bind(paginate([Section(sheaf("a4"))]), tmp_path / "book.pdf", imprint, TrimSize(215.9, 279.4))
    assert list(tmp_path.glob("*book*")) == []
