"""One ink: colours become greys of the same contrast, and a renderer that had no part in it sees no colour."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from pypdf import PdfWriter
from pypdf.generic import DecodedStreamObject, DictionaryObject, NameObject, NumberObject

from engraver.binding import Imprint, Section, TrimSize, bind, open_sheaf, paginate
from engraver.binding.inks import black, grey, lightness, turned_to
from engraver.errors import EngravingError

# WCAG 2.2, "relative luminance": the weights of the three primaries are the luminances of pure red, green and blue
LUMINANCE = {(1, 0, 0): 0.2126, (0, 1, 0): 0.7152, (0, 0, 1): 0.0722, (1, 1, 1): 1.0, (0, 0, 0): 0.0}

POINTS = 40
SIDE = POINTS * 25.4 / 72  # millimetres


def linear(grey_value: float) -> float:
    """The published curve of IEC 61966-2-1, as WCAG 2.2 writes it."""
    return grey_value / 12.92 if grey_value <= 0.04045 else ((grey_value + 0.055) / 1.055) ** 2.4


@pytest.mark.parametrize("colour", LUMINANCE)
def test_a_colour_becomes_the_grey_of_its_relative_luminance(colour: tuple[float, float, float]) -> None:
    assert linear(lightness(*colour)) == pytest.approx(LUMINANCE[colour], abs=1e-6)


@pytest.mark.parametrize("value", [0.0, 0.02, 0.11, 0.36, 0.5, 0.93, 1.0])
def test_a_grey_stays_as_it_is(value: float) -> None:
    assert lightness(value, value, value) == pytest.approx(value, abs=1e-6)


def test_contrast_between_two_tones_is_kept() -> None:
    """White on 0072B2 and black on E69F00: 5.19 and 9.32 to 1, the ratios of the colours by WCAG 2.2's formula."""
    blue, orange = lightness(0, 0x72 / 255, 0xB2 / 255), lightness(0xE6 / 255, 0x9F / 255, 0)
    assert (1 + 0.05) / (linear(blue) + 0.05) == pytest.approx(5.19, abs=0.01)
    assert (linear(orange) + 0.05) / 0.05 == pytest.approx(9.32, abs=0.01)


@pytest.mark.parametrize(
    ("drawn", "turned"),
    [
        (b"1 0 0 rg 0 0 10 10 re f", b"0.4984 g 0 0 10 10 re f"),
        (b"0 0 0 RG\n1 w", b"0 G\n1 w"),
        (b"1 1 1 rg", b"1 g"),
        (b"(1 0 0 rg) Tj", b"(1 0 0 rg) Tj"),
        (rb"(a \) 1 0 0 rg) Tj 1 0 0 rg", rb"(a \) 1 0 0 rg) Tj 0.4984 g"),
        (b"0.5 0 0 1 0 0 cm /rg gs", b"0.5 0 0 1 0 0 cm /rg gs"),
    ],
)
def test_operators_of_colour_alone_are_turned(drawn: bytes, turned: bytes) -> None:
    assert turned_to(drawn, grey) == turned


def test_black_makes_dark_tones_solid_and_leaves_light_ones() -> None:
    assert turned_to(b"0.11 0.11 0.12 rg 0.93 0.93 0.93 rg", black) == b"0 g 0.93 g"


def page_of(drawn: bytes) -> PdfWriter:
    writer = PdfWriter()
    page = writer.add_blank_page(POINTS, POINTS)
    stream = DecodedStreamObject()
    stream.set_data(drawn)
    page[NameObject("/Contents")] = writer._add_object(stream.flate_encode())
    return writer


def colours(pdf: Path) -> set[tuple[int, ...]]:
    picture = pypdfium2.PdfDocument(pdf)[0].render(scale=1).to_pil().convert("RGB")
    raw = picture.tobytes()
    return {tuple(raw[start : start + 3]) for start in range(0, len(raw), 3)}


def in_grey(writer: PdfWriter, folder: Path, imprint: Imprint) -> Path:
    """Bound with that tone; how it was stays in "colour.pdf"."""
    writer.write(folder / "colour.pdf")
    sections = [Section(open_sheaf(folder / "colour.pdf"))]
    bind(paginate(sections), folder / "grey.pdf", imprint, TrimSize(SIDE, SIDE), tone=grey)
    return folder / "grey.pdf"


def test_a_renderer_sees_greys_alone_in_pages_and_forms(tmp_path: Path, imprint: Imprint) -> None:
    writer = page_of(b"0 0.45 0.7 rg 0 0 20 20 re f /Form Do")
    form = DecodedStreamObject()
    form.set_data(b"0.8 0.4 0 rg 20 20 20 20 re f")
    form.update({NameObject("/Type"): NameObject("/XObject"), NameObject("/Subtype"): NameObject("/Form")})
    form[NameObject("/BBox")] = writer.pages[0].mediabox
    forms = DictionaryObject({NameObject("/Form"): writer._add_object(form)})
    writer.pages[0][NameObject("/Resources")] = DictionaryObject({NameObject("/XObject"): forms})
    turned = in_grey(writer, tmp_path, imprint)
    assert len(colours(tmp_path / "colour.pdf")) == len(colours(turned)) == 3
    assert any(len(set(colour)) > 1 for colour in colours(tmp_path / "colour.pdf"))
    assert all(len(set(colour)) == 1 for colour in colours(turned))


@pytest.mark.parametrize(("kind", "said"), [("/Shading", "a page has a Shading"), ("/Pattern", "a page has a Pattern")])
def test_what_cannot_be_turned_is_refused(kind: str, said: str, tmp_path: Path, imprint: Imprint) -> None:
    writer = page_of(b"")
    held = DictionaryObject({NameObject("/P"): NumberObject(1)})
    writer.pages[0][NameObject("/Resources")] = DictionaryObject({NameObject(kind): held})
    with pytest.raises(EngravingError, match=said):
        in_grey(writer, tmp_path, imprint)
