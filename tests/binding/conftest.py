"""Pages to bind: small ones drawn by hand, and real ones engraved by LilyPond's Cairo back end."""

from __future__ import annotations

import datetime
import subprocess
from collections.abc import Callable, Sequence
from pathlib import Path

import lilypond
import pypdf
import pytest
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    FloatObject,
    NameObject,
    TextStringObject,
)

from engraver.binding import Imprint, Sheaf, TrimSize, open_sheaf

Marks = Sequence[tuple[int, str, tuple[float, float, float, float]]]
A4_ROUNDED = (596.0, 842.0)  # what Cairo makes of A4, see test_boxes.py

SOURCE = """\\version "2.24.0"
#(set! paper-alist (cons '("book" . (cons (* {width} mm) (* {height} mm))) paper-alist))
#(set-default-paper-size "book")
#(define-markup-command (spot layout props address) (string?)
   (ly:make-stencil (list 'url-link address '(0 . 10) '(0 . 2)) '(0 . 0) '(0 . 0)))
#(define-markup-command (block layout props) () (ly:round-filled-box '(0 . 10) '(0 . 2) 0))
\\paper {{
  top-margin = 10\\mm bottom-margin = 10\\mm left-margin = 10\\mm right-margin = 10\\mm
  indent = 0 ragged-bottom = ##t print-page-number = ##f tagline = ##f
  top-markup-spacing.basic-distance = 0 top-markup-spacing.padding = 0
}}
"""


def _draw(path: Path, texts: Sequence[str], marks: Marks, size: tuple[float, float]) -> Path:
    writer = pypdf.PdfWriter()
    font = DictionaryObject(
        {
            NameObject("/Type"): NameObject("/Font"),
            NameObject("/Subtype"): NameObject("/Type1"),
            NameObject("/BaseFont"): NameObject("/Helvetica"),
        }
    )
    # One dictionary for all pages, as some engines write it: binding must not print one page's furniture on another.
    fonts, forms = DictionaryObject({NameObject("/F1"): font}), writer._add_object(DictionaryObject())
    shared = DictionaryObject({NameObject("/Font"): fonts, NameObject("/XObject"): forms})
    resources = writer._add_object(shared)
    for number, text in enumerate(texts):
        page = writer.add_blank_page(*size)
        page[NameObject("/Resources")] = resources
        ink = DecodedStreamObject()
        ink.set_data(f"BT /F1 12 Tf 72 700 Td ({text}) Tj ET".encode())
        page[NameObject("/Contents")] = writer._add_object(ink)
        page[NameObject("/Annots")] = ArrayObject(
            writer._add_object(_link(address, rectangle)) for on, address, rectangle in marks if on == number
        )
    writer.write(path)
    return path


def _link(address: str, rectangle: tuple[float, float, float, float]) -> DictionaryObject:
    action = {NameObject("/S"): NameObject("/URI"), NameObject("/URI"): TextStringObject(address)}
    return DictionaryObject(
        {
            NameObject("/Type"): NameObject("/Annot"),
            NameObject("/Subtype"): NameObject("/Link"),
            NameObject("/Rect"): ArrayObject(map(FloatObject, rectangle)),
            NameObject("/A"): DictionaryObject(action),
        }
    )


@pytest.fixture
def draw(tmp_path: Path) -> Callable[..., Path]:
    """draw(name, texts, marks) -> a PDF with one page for each text; a mark is (page, address, rectangle)."""

    def make(name: str, texts: Sequence[str], marks: Marks = (), size: tuple[float, float] = A4_ROUNDED) -> Path:
        return _draw(tmp_path / f"{name}.pdf", texts, marks, size)

    return make


@pytest.fixture
def sheaf(draw: Callable[..., Path]) -> Callable[..., Sheaf]:
    """sheaf(name, pages, marks) -> a Sheaf whose pages read "name 0", "name 1" ..."""

    def make(name: str, pages: int = 1, marks: Marks = ()) -> Sheaf:
        return open_sheaf(draw(name, [f"{name} {number}" for number in range(pages)], marks))

    return make


@pytest.fixture(scope="session")
def engrave(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Path]:
    """engrave(name, body, width, height) -> a PDF on paper of that many millimetres."""
    folder = tmp_path_factory.mktemp("engraved")

    def run(name: str, body: str, width: float = 210, height: float = 297) -> Path:
        source = folder / f"{name}.ly"
        source.write_text(SOURCE.format(width=width, height=height) + body, encoding="utf-8")
        command = [lilypond.executable(), "-lWARNING", "-dno-point-and-click", "-dbackend=cairo", source.name]
        subprocess.run(command, cwd=folder, check=True, timeout=60)
        return source.with_suffix(".pdf")

    return run


@pytest.fixture
def imprint() -> Imprint:
    return Imprint(
        "Odd Stairs & Even Floors", "A. Teacher", "en", datetime.date(2024, 2, 29), "Grooves", ("five", "üben")
    )


@pytest.fixture
def a4() -> TrimSize:
    return TrimSize(210, 297)
