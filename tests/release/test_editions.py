"""The editions of a release, page by page: for the screen, for a printer, and samples."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Iterator

import pypdf
import pypdfium2
import pytest
from PIL import ImageChops

from tests.release.sold import ALL, PRINTED, Sold


@pytest.mark.parametrize(
    ("edition", "points", "bleed"),
    [
        # A4: ISO 216, 210 x 297 mm; Letter: ANSI/ASME Y14.1, 8.5 x 11 in; 72 points to an inch (ISO 32000-1, 8.3.2.3)
        ("screen", (210 / 25.4 * 72, 297 / 25.4 * 72), 0.0),
        ("screen-letter", (8.5 * 72, 11 * 72), 0.0),
        ("print", (210 / 25.4 * 72, 297 / 25.4 * 72), 3 / 25.4 * 72),
    ],
)
def test_every_page_has_the_size_of_its_paper(
    sold: Sold, edition: str, points: tuple[float, float], bleed: float
) -> None:
    for page in sold.pdf(edition).pages:
        trimmed = [bleed, bleed, points[0] + bleed, points[1] + bleed]
        assert [float(side) for side in page["/TrimBox"]] == pytest.approx(trimmed, abs=0.01)
        full = [0, 0, points[0] + 2 * bleed, points[1] + 2 * bleed]
        assert [float(side) for side in page["/MediaBox"]] == pytest.approx(full, abs=0.01)


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not on this machine")
def test_qpdf_finds_no_fault_in_any_file(sold: Sold) -> None:
    files = sorted((sold.out / "release").rglob("*.pdf"))
    assert len(files) == len(ALL) + 4
    for pdf in files:
        checked = subprocess.run(["qpdf", "--check", pdf], capture_output=True, text=True)
        assert (checked.returncode, checked.stderr) == (0, ""), pdf


def colour_of(document: pypdfium2.PdfDocument, number: int) -> int:
    """How far red, green and blue of any point of a page lie apart: 0 where all is grey, 255 at the most."""
    red, green, blue = document[number].render(scale=1).to_pil().convert("RGB").split()
    pairs = ((red, green), (green, blue), (blue, red))
    return max(ImageChops.difference(*pair).getextrema()[1] for pair in pairs)


def test_a_printers_edition_has_no_colour_and_a_screens_has(sold: Sold) -> None:
    for edition in PRINTED:
        document = sold.seen(edition)
        for number in range(len(document)):
            assert colour_of(document, number) == 0, (edition, number)
    screen = sold.seen("screen")
    assert any(colour_of(screen, number) > 60 for number in range(len(screen)))


def links(reader: pypdf.PdfReader) -> list[pypdf.generic.DictionaryObject]:
    return [link.get_object() for page in reader.pages for link in page.get("/Annots", ())]


def test_only_a_printers_edition_has_no_links(sold: Sold) -> None:
    assert {edition: bool(links(sold.pdf(edition))) for edition in ALL if edition != "taste"} == {
        "screen": True,
        "screen-letter": True,
        "print": False,
        "proof": False,
        "sample": True,
    }


def test_every_link_leads_to_a_page_of_its_own_file(sold: Sold) -> None:
    for edition in ALL:
        reader = sold.pdf(edition)
        pages = {page.indirect_reference.idnum for page in reader.pages}  # type: ignore[union-attr]
        assert all(link["/Dest"][0].idnum in pages for link in links(reader))


def starts(reader: pypdf.PdfReader) -> list[int]:
    """The pages, from 1, on which the chapters begin."""
    marks = [mark for mark in reader.outline if not isinstance(mark, list)]
    return [reader.get_destination_page_number(m) + 1 for m in marks if re.match(r"\d+ ", str(m.title))]


def test_chapters_of_a_printers_edition_begin_on_right_hand_pages(sold: Sold) -> None:
    """Common practice: page 1 of a book is a right-hand page, so right-hand pages have odd numbers."""
    assert [page % 2 for page in starts(sold.pdf("print"))] == [1, 1]
    assert len(sold.pdf("proof").pages) == len(sold.pdf("screen").pages)


def left_edge(document: pypdfium2.PdfDocument, number: int) -> float:
    """Points from the left edge of the page to its first ink."""
    picture = document[number].render(scale=4).to_pil().convert("L").point(lambda grey: 255 * (grey < 200))
    return picture.getbbox()[0] / 4


def test_pages_of_a_printers_edition_move_away_from_the_spine(sold: Sold) -> None:
    """A gutter of 4 mm: rectos to the right, versos to the left."""
    screen, proof = sold.seen("screen"), sold.seen("proof")
    first = starts(sold.pdf("screen"))[0] - 1
    assert first % 2 == 0
    for number, way in ((first, 1), (first + 1, -1)):
        moved = left_edge(proof, number) - left_edge(screen, number)
        assert moved == pytest.approx(way * 4 / 25.4 * 72, abs=0.3)


def test_all_fonts_are_embedded(sold: Sold) -> None:
    for edition in ALL:
        for page in sold.pdf(edition).pages:
            for font in fonts(page["/Resources"].get_object()):
                descriptor = font.get("/DescendantFonts", [font])[0].get_object()["/FontDescriptor"]
                assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor), font["/BaseFont"]


NONE = pypdf.generic.DictionaryObject()


def fonts(resources: pypdf.generic.DictionaryObject) -> Iterator[pypdf.generic.DictionaryObject]:
    yield from (font.get_object() for font in resources.get("/Font", NONE).get_object().values())
    for form in resources.get("/XObject", NONE).get_object().values():
        yield from fonts(form.get_object().get("/Resources", NONE).get_object())


def test_page_one_is_chapter_one_and_what_comes_before_is_roman(sold: Sold) -> None:
    for edition in ("screen", "screen-letter", "print"):
        reader = sold.pdf(edition)
        body = reader.page_labels.index("1")
        assert starts(reader)[0] == body + 1
        assert reader.page_labels[: min(4, body)] == ["i", "ii", "iii", "iv"][:body]
        assert reader.page_labels[body:] == [str(n + 1) for n in range(len(reader.pages) - body)]


def test_a_sample_has_front_matter_and_its_chapters_under_their_own_numbers(sold: Sold) -> None:
    whole, sample = sold.pdf("screen"), sold.pdf("sample")
    first, second = starts(whole)
    after = next(n for n, label in enumerate(whole.page_labels) if label == "1")
    front = [label for label in whole.page_labels[:after] if whole.pages[whole.page_labels.index(label)].extract_text()]
    assert sample.page_labels[: len(front)] == front
    assert sample.page_labels[len(front)] == whole.page_labels[second - 1]
    assert first - 1 == after and whole.page_labels[first - 1] not in sample.page_labels


def test_a_sample_of_pages_has_those_and_a_last_one(sold: Sold) -> None:
    assert sold.pdf("taste").page_labels[:3] == ["i", "2", "3"]
    assert len(sold.pdf("taste").pages) == 4


def test_every_page_of_a_sample_says_so_and_no_other_does(sold: Sold) -> None:
    for edition in ("sample", "taste"):
        assert all("Sample" in page.extract_text() for page in sold.pdf(edition).pages)
    assert not any("Sample" in page.extract_text() for page in sold.pdf("screen").pages)


def test_the_last_page_of_a_sample_says_what_the_whole_book_holds(sold: Sold) -> None:
    whole, sample = sold.pdf("screen"), sold.pdf("sample")
    said = " ".join(sample.pages[-1].extract_text().split())
    assert f"{len(sample.pages) - 1} of its {len(whole.pages)} pages" in said
    assert "First Steps" in said and "Second Steps" in said
    assert said.count("in this sample") == 1
