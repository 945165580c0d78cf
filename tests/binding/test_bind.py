"""The bound book as other readers see it: pages, links, outline, imprint."""

from __future__ import annotations

import logging
import shutil
import subprocess
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable
from pathlib import Path

import pypdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from engraver.binding import Bookmark, Imprint, Numbering, Section, Sheaf, TrimSize, bind, open_sheaf, paginate
from engraver.errors import EngravingError

BOX = (100.0, 600.0, 180.0, 612.0)


@pytest.fixture
def book(
    sheaf: Callable[..., Sheaf], draw: Callable[..., Path], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> Path:
    """i (contents), (ii), 1 2 3 (4) 5: contents and chapters with marks of every kind, and furniture on each page."""
    contents = sheaf("contents", 1, [(0, "engraver:link/one", BOX)])
    one = sheaf("one", 3, [(0, "engraver:anchor/one", BOX), (1, "engraver:place/answer-page/answer%201", BOX)])
    two = sheaf(
        "two",
        1,
        [
            (0, "engraver:anchor/answer%201", (72, 500, 90, 510)),
            (0, "engraver:place/page/nowhere", BOX),
            (0, "https://example.org/", BOX),
            (0, "textedit:///home/someone/a.ly:1:2:3", BOX),
        ],
    )
    parts = (Bookmark("Part", 0), Bookmark("One", 1, "one"), Bookmark("Übung", 2, "one"))
    sections = [
        Section(contents, Numbering.ROMAN, True, (Bookmark("Contents"),)),
        Section(one, Numbering.ARABIC, True, parts),
        Section(two, Numbering.ARABIC, True, (Bookmark("Two", 1), Bookmark("Deep", 4), Bookmark("Answers", 0))),
    ]
    furniture = draw("furniture", [f"folio {number}" for number in range(7)])
    bind(paginate(sections), tmp_path / "book.pdf", imprint, a4, open_sheaf(furniture))
    return tmp_path / "book.pdf"


def links(pdf: Path) -> list[tuple[int, pypdf.generic.DictionaryObject]]:
    pages = pypdf.PdfReader(pdf, strict=True).pages
    return [(number, link.get_object()) for number, page in enumerate(pages) for link in page.get("/Annots", ())]


def test_pages_stand_in_order_each_under_its_furniture(book: Path) -> None:
    reader = pypdfium2.PdfDocument(book)
    texts = [page.get_textpage().get_text_bounded().split() for page in reader]
    assert texts == [
        ["contents", "0", "folio", "0"],
        ["folio", "1"],
        ["one", "0", "folio", "2"],
        ["one", "1", "folio", "3"],
        ["one", "2", "folio", "4"],
        ["folio", "5"],
        ["two", "0", "folio", "6"],
    ]


def test_links_lead_to_their_anchors_and_nothing_of_the_marks_is_left(book: Path) -> None:
    reader = pypdf.PdfReader(book, strict=True)
    ids = {page.indirect_reference.idnum: number for number, page in enumerate(reader.pages)}
    inner = [(number, link["/Dest"]) for number, link in links(book) if "/Dest" in link]
    shift = 841.8898 - 842  # from the rounded page to the paper, see test_boxes.py
    assert [(number, ids[dest[0].idnum] if hasattr(dest[0], "idnum") else None) for number, dest in inner] == [
        (0, 2),
        (3, 6),
    ]
    assert [dest[1] for _, dest in inner] == ["/XYZ", "/XYZ"]
    assert [float(x) for x in inner[0][1][2:4]] == pytest.approx([100, 612 + shift], abs=0.001)
    assert [float(x) for x in inner[1][1][2:4]] == pytest.approx([72, 510 + shift], abs=0.001)
    assert b"engraver:" not in book.read_bytes()


def test_a_second_reader_follows_the_links(book: Path) -> None:
    reader = pypdfium2.PdfDocument(book)
    for start, end in ((0, 2), (3, 6)):
        link = pdfium.FPDFLink_GetLinkAtPoint(reader[start], 140, 606)
        assert pdfium.FPDFDest_GetDestPageIndex(reader, pdfium.FPDFLink_GetDest(reader, link)) == end


def test_links_to_the_web_stay_and_links_into_the_machine_go(book: Path) -> None:
    outer = [link["/A"]["/URI"] for _, link in links(book) if "/A" in link]
    assert outer == ["https://example.org/"]
    assert b"textedit" not in book.read_bytes()


def test_links_have_no_border_and_move_with_the_ink(book: Path) -> None:
    found = links(book)
    assert found
    for _, link in found:
        assert link["/Border"] == [0, 0, 0]
        assert [float(x) for x in link["/Rect"]] == pytest.approx([100, 599.89, 180, 611.89], abs=0.001)


def test_the_outline_is_nested_by_level(book: Path) -> None:
    toc = list(pypdfium2.PdfDocument(book).get_toc())
    assert [(item.level, item.get_title(), item.get_dest().get_index()) for item in toc] == [
        (0, "Contents", 0),
        (0, "Part", 2),
        (1, "One", 2),
        (2, "Übung", 2),
        (1, "Two", 6),
        (2, "Deep", 6),  # two levels are skipped: under the nearest one above
        (0, "Answers", 6),
    ]


def test_bookmarks_open_at_their_anchor_or_at_the_top(book: Path) -> None:
    toc = {item.get_title(): item.get_dest().get_view() for item in pypdfium2.PdfDocument(book).get_toc()}
    assert {mode for mode, _ in toc.values()} == {pdfium.PDFDEST_VIEW_XYZ}
    assert toc["One"][1][:2] == pytest.approx((100, 612 - 842 + 841.8898), abs=0.001)
    assert toc["Contents"][1][:2] == pytest.approx((0, 841.8898), abs=0.001)


def test_parts_are_open_and_chapters_closed(book: Path) -> None:
    """ISO 32000-1, Tables 152 and 153 (from memory): the root counts what is visible; closed items count below 0."""
    outline = pypdf.PdfReader(book).root_object["/Outlines"]
    part = outline["/First"]["/Next"].get_object()
    assert part["/Count"] == 2  # One and Two
    assert part["/First"]["/Count"] == -1  # Übung, hidden
    assert outline["/Count"] == 5  # Contents, Part, One, Two, Answers


def test_the_imprint_reads_the_same_in_both_places(book: Path, imprint: Imprint) -> None:
    reader = pypdf.PdfReader(book, strict=True)
    info, xmp = reader.metadata, reader.xmp_metadata
    assert info is not None and xmp is not None
    assert info.title == imprint.title == xmp.dc_title["x-default"]
    assert [info.author] == [imprint.author] == xmp.dc_creator
    assert info.subject == imprint.subject == xmp.dc_description["x-default"]
    assert info["/Keywords"] == "five, üben" == xmp.pdf_keywords and xmp.dc_subject == ["five", "üben"]
    assert info.producer == "Engraver" == xmp.pdf_producer
    assert info.creation_date == info.modification_date
    assert info.creation_date.date() == imprint.date == xmp.xmp_create_date.date() == xmp.xmp_modify_date.date()
    assert info["/CreationDate"] == "D:20240229000000Z"  # ISO 32000-1, 7.9.4


def test_the_second_reader_knows_the_title(book: Path, imprint: Imprint) -> None:
    found = pypdfium2.PdfDocument(book).get_metadata_dict()
    assert (found["Title"], found["Author"], found["Producer"]) == (imprint.title, imprint.author, "Engraver")


def test_how_the_book_opens(book: Path) -> None:
    """ISO 14289-1, 7.1 asks for the title in the window and ISO 32000-1, 14.9.2 for the language (both from memory)."""
    reader = pypdf.PdfReader(book, strict=True)
    catalog = reader.root_object
    assert catalog["/Lang"] == "en" and catalog["/ViewerPreferences"]["/DisplayDocTitle"].value is True
    assert catalog["/PageMode"] == "/UseOutlines"
    assert catalog["/OpenAction"] == [reader.pages[0].indirect_reference, "/Fit"]
    assert b"JavaScript" not in book.read_bytes()
    assert reader.pdf_header == "%PDF-1.7"


def test_an_imprint_of_awkward_signs_is_still_good_xml(
    sheaf: Callable[..., Sheaf], tmp_path: Path, a4: TrimSize, imprint: Imprint
) -> None:
    odd = Imprint("a <b> & \x00\x1b\ud800 ]]> {c}\n d", "", "en", imprint.date)
    section = Section(sheaf("a"), bookmarks=(Bookmark("a\ud800\n\x00b"),))
    bind(paginate([section]), tmp_path / "book.pdf", odd, a4)
    reader = pypdf.PdfReader(tmp_path / "book.pdf", strict=True)
    packet = ElementTree.fromstring(reader.root_object["/Metadata"].get_data())
    title = packet.find(".//{http://purl.org/dc/elements/1.1/}title//{*}li")
    assert title is not None and title.text == "a <b> & ]]> {c} d" == reader.metadata.title
    assert [item.title for item in reader.outline] == ["a b"]
    assert "/Author" not in reader.metadata and b"dc:creator" not in reader.root_object["/Metadata"].get_data()


def test_equal_pages_stay_pages_of_their_own(
    sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    same = sheaf("same")
    sections = [Section(same, starts_recto=True), Section(same, starts_recto=True), Section(same, starts_recto=True)]
    bind(paginate(sections), tmp_path / "book.pdf", imprint, a4)
    pages = pypdf.PdfReader(tmp_path / "book.pdf", strict=True).pages
    assert len({page.indirect_reference.idnum for page in pages}) == len(pages) == 5


def test_a_link_to_nowhere_is_refused_but_in_a_sample(
    sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    pagination = paginate([Section(sheaf("a", 2, [(1, "engraver:link/gone", BOX)]))])
    with pytest.raises(EngravingError, match='page 2 has a link to "gone", which is nowhere in the book'):
        bind(pagination, tmp_path / "book.pdf", imprint, a4)
    bind(pagination, tmp_path / "book.pdf", imprint, a4, sample=True)
    assert links(tmp_path / "book.pdf") == []


def test_furniture_needs_a_page_for_every_page(
    sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    with pytest.raises(EngravingError, match="has 1 pages, the book 2"):
        bind(paginate([Section(sheaf("a", 2))]), tmp_path / "book.pdf", imprint, a4, sheaf("furniture"))


def test_furniture_may_link_too(
    sheaf: Callable[..., Sheaf], draw: Callable[..., Path], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    chapter = sheaf("a", 2, [(1, "engraver:anchor/x", BOX)])
    furniture = draw("furniture", ["head", "head"], [(0, "engraver:link/x", BOX)])
    bind(paginate([Section(chapter)]), tmp_path / "book.pdf", imprint, a4, open_sheaf(furniture))
    reader = pypdfium2.PdfDocument(tmp_path / "book.pdf")
    link = pdfium.FPDFLink_GetLinkAtPoint(reader[0], 140, 606)
    assert pdfium.FPDFDest_GetDestPageIndex(reader, pdfium.FPDFLink_GetDest(reader, link)) == 1


def test_engraved_pages_survive_binding(
    engrave: Callable[..., Path], tmp_path: Path, imprint: Imprint, a4: TrimSize, caplog: pytest.LogCaptureFixture
) -> None:
    """Every reader at hand loads every page: pypdf strictly, pdfium, and qpdf where it is installed."""
    score = "\\score { \\new DrumStaff \\drummode { hh8 hh sn hh } } \\markup { Grüße }"
    chapter = open_sheaf(engrave("score", f"{score} \\pageBreak {score}"))
    furniture = engrave("heads", '\\markup "Kopf 1" \\pageBreak \\markup "Kopf 2"')
    book = tmp_path / "book.pdf"
    bind(paginate([Section(chapter)]), book, imprint, a4, open_sheaf(furniture))
    with caplog.at_level(logging.WARNING):
        ours = [page.extract_text() for page in pypdf.PdfReader(book, strict=True).pages]
    theirs = [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(book)]
    for number, texts in enumerate(zip(ours, theirs, strict=True), start=1):
        assert all("Grüße" in text and f"Kopf {number}" in text for text in texts)
    assert caplog.records == []
    if qpdf := shutil.which("qpdf"):
        subprocess.run([qpdf, "--check", book], check=True, capture_output=True)


def test_without_links_a_page_has_none(
    sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    rectangle = (72, 700, 100, 710)
    marks = [
        (0, "engraver:anchor/here", rectangle),
        (0, "engraver:link/here", rectangle),
        (0, "https://x.test", rectangle),
    ]
    pagination = paginate([Section(sheaf("a", 1, marks))])
    for links, found in ((True, 2), (False, 0)):
        bind(pagination, tmp_path / "book.pdf", imprint, a4, links=links)
        assert len(pypdf.PdfReader(tmp_path / "book.pdf").pages[0].get("/Annots", ())) == found
    assert b"x.test" not in (tmp_path / "book.pdf").read_bytes()
