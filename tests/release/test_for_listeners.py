"""What a screen reader finds in a screen edition: its structure, as pypdf and PDFium read it."""

from __future__ import annotations

import ctypes
import re
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from engraver import definition
from engraver.chapters.spoken import sentence, spoken
from engraver.making.press import silent
from engraver.making.print_run import print_run
from engraver.making.where import Where
from engraver.manuscript.planning import plan_book
from engraver.starter import copy_starter
from engraver.style import Style


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    home = tmp_path_factory.mktemp("listeners")
    copy_starter(home / "songs")
    return home


@pytest.fixture(scope="module")
def screen(folder: Path) -> Path:
    where = Where(folder / "songs", folder / "out")
    (made,) = print_run(where, definition.read(where.folder), where.editions, silent).made
    return made.file


def elements(node: Any) -> Iterator[Any]:
    """Every structure element below a node, in order."""
    for kid in node["/K"]:
        held = kid.get_object()
        if isinstance(held, dict) and held.get("/Type") == "/StructElem":
            yield held
            yield from elements(held)


@pytest.fixture
def tree(screen: Path) -> Any:
    return pypdf.PdfReader(screen, strict=True).trailer["/Root"]["/StructTreeRoot"]


def test_the_document_says_that_it_is_tagged_and_in_which_language(screen: Path) -> None:
    """ISO 32000-1, 14.7.1 (mark information) and 14.9.2 (language)."""
    root = pypdf.PdfReader(screen).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] == True  # noqa: E712 - pypdf's truth value is an object of its own
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"] == True  # noqa: E712


def test_every_score_is_described_stroke_by_stroke(folder: Path, tree: Any) -> None:
    style = Style()
    (chapter,) = plan_book(definition.read(folder / "songs"))
    passages = chapter.plan.passages
    cards = {card.passage.name for card in chapter.plan.cards}
    shown = [passage for passage in passages if passage.name not in cards]
    said = {exercise.passage.name: exercise.said for exercise in chapter.plan.exercises}
    bars = [spoken(passage.groove, style, style.say, said.get(passage.name, ())) for passage in shown]
    expected = [". ".join(sentence(bar, style.say) for bar in each) for each in bars]
    described = [str(element["/Alt"]) for element in elements(tree) if element["/S"] == "/Figure"]
    assert sorted(described) == sorted(expected)
    assert described[0].startswith("Bar 1: 1 bass drum, ride; 2 ")
    assert any("say “both”: bass drum, ride" in told for told in described)


def test_a_pdf_reader_of_another_house_finds_the_descriptions(screen: Path, tree: Any) -> None:
    document = pypdfium2.PdfDocument(screen)
    found = [text for page in document for text in descriptions(page)]
    described = [str(element["/Alt"]) for element in elements(tree) if element["/S"] == "/Figure"]
    assert set(found) == set(described)


def descriptions(page: pypdfium2.PdfPage) -> Iterator[str]:
    """The alternative texts that PDFium finds on a page."""
    tree = pdfium.FPDF_StructTree_GetForPage(page)
    pending = [
        pdfium.FPDF_StructTree_GetChildAtIndex(tree, n) for n in range(pdfium.FPDF_StructTree_CountChildren(tree))
    ]
    while pending:
        element = pending.pop()
        if not element:
            continue
        size = pdfium.FPDF_StructElement_GetAltText(element, None, 0)
        if size > 2:
            buffer = (ctypes.c_ubyte * size)()
            pdfium.FPDF_StructElement_GetAltText(element, buffer, size)
            yield bytes(buffer).decode("utf-16-le").rstrip("\0")
        pending += [
            pdfium.FPDF_StructElement_GetChildAtIndex(element, n)
            for n in range(pdfium.FPDF_StructElement_CountChildren(element))
        ]
    pdfium.FPDF_StructTree_Close(tree)


def test_paragraphs_say_the_words_of_the_page(tree: Any) -> None:
    said = [str(element["/ActualText"]) for element in elements(tree) if element["/S"] == "/P"]
    assert "First Steps" in said
    text = (
        "Bass drum and ride turn in threes and take no notice of the bar line. The snare drum on 2 and 4 keeps the bar."
    )
    assert text in said
    assert not [each for each in said if re.search(r"[\ue000-\uf8ff]", each)], (
        "no sign of a music font is read as a word"
    )


def test_everything_drawn_is_read_once_or_an_artifact(screen: Path) -> None:
    """ISO 32000-1, 14.8.2.2: what is no real content is an artifact; 14.7.4.4: each sequence has one parent."""
    reader = pypdf.PdfReader(screen)
    numbers = reader.trailer["/Root"]["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    parents = dict(zip(numbers[::2], numbers[1::2], strict=True))
    for page in reader.pages:
        drawn = page.get_contents()
        if drawn is None:
            continue
        depth = 0
        for operands, operator in pypdf.generic.ContentStream(drawn, reader).operations:
            depth += {b"BMC": 1, b"BDC": 1, b"EMC": -1}.get(operator, 0)
            assert depth >= 0
            assert depth or operator not in (b"Tj", b"TJ", b"f", b"S", b"Do"), (page.page_number, operator, operands)
        marks = [int(number) for number in re.findall(rb"/(?:P|Figure) << /MCID (\d+) >>", drawn.get_data())]
        assert marks == list(range(len(marks)))
        held = parents[page["/StructParents"]].get_object() if marks else []
        assert len(held) == len(marks)


def test_every_link_is_in_the_structure(screen: Path, tree: Any) -> None:
    reader = pypdf.PdfReader(screen)
    hung = {link.idnum for page in reader.pages for link in page.get("/Annots", ())}
    told = {e["/K"][0]["/Obj"].indirect_reference.idnum for e in elements(tree) if e["/S"] == "/Link"}
    assert hung and told == hung


@pytest.mark.parametrize("title", ["Contents", "Index", "Exercises by grade"])
def test_every_page_number_that_is_a_link_leads_to_that_page(screen: Path, title: str) -> None:
    reader, seen = pypdf.PdfReader(screen), pypdfium2.PdfDocument(screen)
    (mark,) = [m for m in reader.outline if not isinstance(m, list) and m.title == title]
    number = reader.get_destination_page_number(mark)
    labels = {page.indirect_reference: label for page, label in zip(reader.pages, reader.page_labels, strict=True)}
    links = [link.get_object() for link in reader.pages[number]["/Annots"]]
    assert len(links) >= 3
    for link in links:
        left, bottom, right, top = map(float, link["/Rect"])
        text = seen[number].get_textpage().get_text_bounded(left - 1, bottom - 1, right + 1, top + 1)
        assert labels[link["/Dest"][0]] in re.findall(r"[ivx]+|\d+", text), text


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="pdftotext is not on this machine")
def test_the_words_can_be_copied_out(screen: Path) -> None:
    """Poppler's reading of the page, which follows where letters stand and not the structure."""
    text = subprocess.run(["pdftotext", "-layout", screen, "-"], capture_output=True, text=True, check=True).stdout
    assert "Bass drum and ride turn in threes and take no notice of the" in " ".join(text.split())
    for word in ("Contents", "Exercises", "Whole groove", "Practice log"):
        assert word.lower() in text.lower()


def test_nothing_runs_and_nothing_is_hidden(screen: Path) -> None:
    """No script, no attachment, no form, no launched program: names of ISO 32000-1, 12.6.4, 7.11.4 and 12.7."""
    raw = screen.read_bytes()
    for name in (b"/JavaScript", b"/JS", b"/Launch", b"/EmbeddedFile", b"/AcroForm", b"/Encrypt", b"/AA"):
        assert not re.search(re.escape(name) + rb"(?![A-Za-z])", raw), name


def test_it_opens_at_its_first_page_with_the_outline(screen: Path) -> None:
    reader = pypdf.PdfReader(screen)
    root = reader.trailer["/Root"]
    assert root["/OpenAction"][0] == reader.pages[0].indirect_reference
    assert root["/PageMode"] == "/UseOutlines"


def test_dates_are_the_books_and_both_places_agree(screen: Path) -> None:
    """ISO 32000-1, 7.9.4: D:YYYYMMDDHHmmSS and a zone; the day is that of the starter's book.yaml."""
    reader = pypdf.PdfReader(screen)
    assert reader.metadata is not None and reader.xmp_metadata is not None
    assert reader.metadata["/CreationDate"] == reader.metadata["/ModDate"] == "D:20260131000000Z"
    assert reader.xmp_metadata.xmp_create_date.isoformat() == "2026-01-31T00:00:00"
    assert reader.xmp_metadata.dc_title == {"x-default": reader.metadata.title}
    assert reader.xmp_metadata.dc_creator == [reader.metadata.author]
    assert reader.xmp_metadata.dc_language == ["en"]
