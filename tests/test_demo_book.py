"""The demo book as a reader's program finds it: pages, labels, outline, contents, words; built twice, engraved once."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from pypdf import PdfReader
from pypdf.generic import Destination, NameObject

from engraver import build, definition
from engraver.making.where import Where
from engraver.manuscript.planning import plan_book
from engraver.starter import copy_starter
from tests.conftest import BOOK, Demo

POINT = 72 / 25.4  # points in a millimetre; ISO 32000-1, 8.3.2.3: the unit of user space is 1/72 inch
PAPERS = {
    "A4": (210 * POINT, 297 * POINT),  # ISO 216
    "Letter": (8.5 * 72, 11 * 72),  # ANSI/ASME Y14.1, size A
}
GROOVES = tuple(chapter.groove for chapter in definition.read(BOOK).chapters)
AROUND = 9  # cautions, how to, key, counting; answers, log, plan, index, grades


@pytest.fixture(scope="module")
def reader(demo: Demo) -> PdfReader:
    return PdfReader(demo.where.book, strict=True)


@pytest.fixture(scope="module")
def pdf(demo: Demo) -> Iterator[Any]:
    """The same file in another library."""
    document = pypdfium2.PdfDocument(demo.where.book)
    yield document
    document.close()


@pytest.fixture(scope="module")
def texts(pdf: Any) -> list[str]:
    return [folded(page.get_textpage().get_text_range()) for page in pdf]


def folded(text: str) -> str:
    return " ".join(text.split())


# ------------------------------------------------------------------ two builds
def test_the_second_build_engraves_nothing_and_gives_the_same_bytes(demo: Demo) -> None:
    first, second = demo.reports
    assert {groove.name for groove in GROOVES} < set(first.fresh)
    assert second.fresh == ()
    assert demo.books[0] == demo.books[1]


def test_a_build_from_nothing_in_another_place_gives_the_same_bytes(tmp_path: Path) -> None:
    books = []
    for place in ("here", "a place with a longer name"):
        copy_starter(tmp_path / place / "songs")
        report = build.build(Where(tmp_path / place / "songs", tmp_path / place / "out"))
        assert "first-steps" in report.fresh
        books.append(report.book.read_bytes())
    assert books[0] == books[1]


def test_lilypond_has_nothing_to_complain_of(demo: Demo) -> None:
    assert [str(warning) for warning in demo.reports[0].warnings] == []


def test_warnings_of_the_first_build_are_told_again_by_the_second(demo: Demo) -> None:
    assert demo.reports[0].warnings == demo.reports[1].warnings


def test_copies_of_the_sources_are_laid_out_for_reading(demo: Demo) -> None:
    """The same text but for white space."""
    engraved = {made.plan.name: made.source.text for made in plan_book(definition.read(BOOK))}
    laid_out = {path.stem: path.read_text("utf-8") for path in demo.where.sources.glob("*.ly")}
    assert laid_out.keys() == engraved.keys() == {groove.name for groove in GROOVES}
    for name, text in laid_out.items():
        assert "".join(text.split()) == "".join(engraved[name].split()), name


# ------------------------------------------------------------------ pages
def test_every_page_is_exactly_a4(reader: PdfReader) -> None:
    assert reader.pages
    for page in reader.pages:
        assert size(page) == pytest.approx(PAPERS["A4"], abs=0.001)


def test_a_style_may_ask_for_letter(tmp_path: Path) -> None:
    copy_starter(tmp_path / "songs")
    (tmp_path / "songs" / "style.yaml").write_text("paper: Letter\n", "utf-8")
    report = build.build(Where(tmp_path / "songs", tmp_path / "out"))
    for page in PdfReader(report.book).pages:
        assert size(page) == pytest.approx(PAPERS["Letter"], abs=0.001)


def size(page: Any) -> tuple[float, float]:
    """Width and height; both boxes are the same and begin at the corner."""
    assert page.mediabox == page.trimbox
    assert (page.mediabox.left, page.mediabox.bottom) == (0, 0)
    return float(page.mediabox.width), float(page.mediabox.height)


def test_front_matter_counts_in_roman_numerals_and_the_body_in_arabic_ones(pdf: Any, texts: list[str]) -> None:
    labels = [pdf.get_page_label(index) for index in range(len(pdf))]
    body = labels.index("1")
    # i to x, as anyone writes them
    assert labels[:body] == ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x"][:body]
    assert labels[body:] == [str(number) for number in range(1, len(pdf) - body + 1)]
    assert body % 2 == 0, "page 1 is on the right; common practice, no source"
    assert GROOVES[0].title in texts[body]


def test_every_page_shows_its_own_label(reader: PdfReader, pdf: Any, texts: list[str]) -> None:
    shown = [index for index, text in enumerate(texts) if index and text]
    for index in shown:
        assert foot(pdf[index]) == reader.page_labels[index], f"page {index + 1} of the file"


def foot(page: Any) -> str:
    """The words in the lowest 16 mm."""
    return folded(page.get_textpage().get_text_bounded(0, 0, page.get_width(), 16 * POINT))


def test_no_page_is_blank_but_the_one_before_the_body(pdf: Any, texts: list[str]) -> None:
    body = next(index for index in range(len(pdf)) if pdf.get_page_label(index) == "1")
    blank = [index for index, text in enumerate(texts) if not text]
    assert blank in ([], [body - 1])


# ------------------------------------------------------------------ finding one's way
def test_title_author_and_language_are_set(reader: PdfReader) -> None:
    root: Any = reader.trailer["/Root"]
    assert (reader.metadata and reader.metadata.title) == "The Uneven Wheel"
    assert (reader.metadata and reader.metadata.author) == "Oda Fernhollow"
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"][NameObject("/DisplayDocTitle")] is True or (
        root["/ViewerPreferences"]["/DisplayDocTitle"].value
    )


def test_each_chapter_opens_with_its_title(demo: Demo, reader: PdfReader, texts: list[str]) -> None:
    openers = chapter_pages(reader)
    assert list(openers) == [groove.title for groove in GROOVES]
    for title, page in openers.items():
        assert texts[page].startswith(title)
    assert all(a < b for a, b in pairwise(openers.values()))


def chapter_pages(reader: PdfReader) -> dict[str, int]:
    """Title and page of each numbered entry of the outline."""
    found = {}
    for entry in reader.outline:
        if isinstance(entry, Destination) and (numbered := re.match(r"(\d+) (.*)", str(entry.title))):
            assert int(numbered[1]) == len(found) + 1
            found[numbered[2]] = reader.get_destination_page_number(entry) or 0
    return found


def test_entries_below_a_chapter_lead_into_it(reader: PdfReader) -> None:
    starts = [*chapter_pages(reader).values(), len(reader.pages)]
    groups = [entry for entry in reader.outline if isinstance(entry, list)]
    assert len(groups) == len(GROOVES)
    for (first, end), group in zip(pairwise(starts), groups, strict=True):
        pages = [reader.get_destination_page_number(entry) for entry in group if isinstance(entry, Destination)]
        assert pages == sorted(pages, key=lambda page: page or 0)
        assert all(page is not None and first <= page < end for page in pages)


def test_page_numbers_in_the_contents_are_those_of_the_pages_they_lead_to(reader: PdfReader, pdf: Any) -> None:
    entries = list(contents(reader, pdf))
    assert len(entries) == 2 * (len(GROOVES) + AROUND)  # the number and the words of each
    numbers = [(text, foot(pdf[page])) for text, page in entries if re.fullmatch(r"[ivx]+|\d+", text)]
    assert len(numbers) == len(GROOVES) + AROUND
    assert [printed for printed, _ in numbers] == [shown for _, shown in numbers]


def test_titles_in_the_contents_lead_to_the_pages_that_begin_with_them(
    reader: PdfReader, pdf: Any, texts: list[str]
) -> None:
    entries = dict(contents(reader, pdf))
    for number, groove in enumerate(GROOVES, start=1):
        line = re.compile(rf"{number} {re.escape(groove.title)} ?\d+")  # the page number's box lies within the line's
        [page] = [page for text, page in entries.items() if line.fullmatch(text)]
        assert texts[page].startswith(groove.title)


def contents(reader: PdfReader, pdf: Any) -> Iterator[tuple[str, int]]:
    """The words under each link of the contents, and the page it leads to, counted from 0."""
    numbers = {
        page.indirect_reference.idnum: index for index, page in enumerate(reader.pages) if page.indirect_reference
    }
    for index in contents_pages(reader):
        text = pdf[index].get_textpage()
        for reference in reader.pages[index].get("/Annots", ()):
            link = reference.get_object()
            left, bottom, right, top = (float(edge) for edge in link["/Rect"])
            yield folded(text.get_text_bounded(left, bottom, right, top)), numbers[link["/Dest"][0].idnum]


def contents_pages(reader: PdfReader) -> range:
    """From the outline: up to what comes after."""
    pages = {str(e.title): reader.get_destination_page_number(e) for e in reader.outline if isinstance(e, Destination)}
    first, end = pages["Contents"], pages["How to use this book"]
    assert first is not None and end is not None
    return range(first, end)


# ------------------------------------------------------------------ words
@pytest.mark.parametrize("groove", GROOVES, ids=lambda groove: groove.name)
def test_every_word_of_the_author_is_on_a_page_of_its_chapter(groove: Any, reader: PdfReader, texts: list[str]) -> None:
    starts = [*chapter_pages(reader).values(), len(reader.pages)]
    number = GROOVES.index(groove)
    words = set(" ".join(texts[starts[number] : starts[number + 1]]).split())
    said = [groove.title, groove.subtitle, *(block.text for block in groove.text)]
    said += [text for card in groove.listen for text in (card.title, *(block.text for block in card.text))]
    assert [word for text in said for word in text.split() if word not in words] == []
