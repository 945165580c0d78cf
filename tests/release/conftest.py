"""Books to copy, drawn by hand, with the fonts that every edition has; and a book that was sold."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfWriter
from pypdf.generic import DecodedStreamObject, DictionaryObject, NameObject

from engraver.binding import Imprint, Section, TrimSize, bind, open_sheaf, paginate
from engraver.release.copying import NameplateFont, nameplate_font
from engraver.style import font_folders
from tests.release.sold import BUYERS, Sold, engraver, two_chapters

IMPRINT = Imprint("Odd Stairs", "A. Teacher", "en", date(2024, 2, 29))


@pytest.fixture(scope="session")
def font() -> NameplateFont:
    return nameplate_font(font_folders()[0] / "SourceSansPro-Regular.otf")


@pytest.fixture
def edition(tmp_path: Path) -> Callable[..., Path]:
    """edition(pages, ink) -> a PDF of A4 pages; each holds ``ink`` bytes of drawing."""

    def make(pages: int = 3, ink: int = 0) -> Path:
        writer = PdfWriter()
        for number in range(pages):
            page = writer.add_blank_page(595.2756, 841.8898)
            helvetica = {"/Type": "/Font", "/Subtype": "/Type1", "/BaseFont": "/Helvetica"}
            face = DictionaryObject({NameObject(key): NameObject(value) for key, value in helvetica.items()})
            fonts = DictionaryObject({NameObject("/F1"): face})
            page[NameObject("/Resources")] = DictionaryObject({NameObject("/Font"): fonts})
            drawn = DecodedStreamObject()
            filling = b"0 0 m 10 10 l S\n" * (ink // 16)
            drawn.set_data(f"BT /F1 12 Tf 72 700 Td (page {number}) Tj ET\n".encode() + filling)
            page[NameObject("/Contents")] = writer._add_object(drawn)
        writer.write(tmp_path / "drawn.pdf")
        sections = [Section(open_sheaf(tmp_path / "drawn.pdf"))]
        bind(paginate(sections), tmp_path / "edition.pdf", IMPRINT, TrimSize(210, 297))
        return tmp_path / "edition.pdf"

    return make


@pytest.fixture(scope="session")
def sold(tmp_path_factory: pytest.TempPathFactory) -> Sold:
    home = tmp_path_factory.mktemp("sold")
    book = two_chapters(home / "songs")
    (home / "shop.csv").write_text(BUYERS, encoding="utf-8")
    return Sold(book, home / "out", engraver("release", book, "--out", home / "out", "--buyers", home / "shop.csv"))
