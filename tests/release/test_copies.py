"""Buyers' copies, read back by three programs that had no part in making them: pypdf, PDFium and qpdf."""

from __future__ import annotations

import hashlib
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from pypdf import PdfReader

from engraver.errors import EngravingError
from engraver.release.buyers import Buyer, parse_buyers
from engraver.release.copying import Copy, Master, NameplateFont, make_master, write_copies
from tests.release.conftest import IMPRINT

BUYERS = """name,order
Ada Nightingale,QX-71
Zoë Ångström,QX-82
Ελένη Δρόσου,QX-93
Жанна Крылова,QX-64
"""


def said(buyer: Buyer) -> str:
    return f"{buyer.printed} · {buyer.order}"


@pytest.fixture
def made(tmp_path: Path, edition: Callable[..., Path], font: NameplateFont) -> tuple[Master, list[Buyer], list[Copy]]:
    buyers = parse_buyers(BUYERS.encode(), Path("shop.csv"), font.unsettable).buyers
    master = make_master(edition(), tmp_path / "master.pdf", font)
    return master, list(buyers), list(copies(master, buyers, font, tmp_path))


def copies(master: Master, buyers: tuple[Buyer, ...], font: NameplateFont, folder: Path) -> list[Copy]:
    return list(write_copies(master, buyers, IMPRINT, said, font, lambda buyer: folder / f"{buyer.file_stem}.pdf"))


Made = tuple[Master, list[Buyer], list[Copy]]


def test_name_and_order_number_stand_at_every_foot(made: Made) -> None:
    _, buyers, found = made
    for buyer, copy in zip(buyers, found, strict=True):
        for page in pypdfium2.PdfDocument(copy.file):
            height = page.get_height()
            foot = page.get_textpage().get_text_bounded(top=height / 20)
            assert foot.strip() == said(buyer)
            assert "page" in page.get_textpage().get_text_bounded(bottom=height / 20)


def test_name_and_order_number_stand_in_the_document_information_and_in_its_packet(made: Made) -> None:
    _, buyers, found = made
    for buyer, copy in zip(buyers, found, strict=True):
        reader = PdfReader(copy.file)
        assert reader.metadata is not None and reader.xmp_metadata is not None
        assert (reader.metadata["/LicensedTo"], reader.metadata["/OrderNumber"]) == (buyer.name, buyer.order)
        assert reader.metadata.title == IMPRINT.title
        custom = reader.xmp_metadata.custom_properties
        assert (custom["LicensedTo"], custom["OrderNumber"]) == (buyer.name, buyer.order)


def test_a_copy_is_the_masters_bytes_and_a_few_more(made: Made) -> None:
    master, _, found = made
    shared = master.pdf.read_bytes()
    for copy in found:
        own = copy.file.read_bytes()
        assert own.startswith(shared)
        assert 0 < len(own) - len(shared) < 6000
        assert copy.sha256 == hashlib.sha256(own).hexdigest()


def test_no_copy_holds_anything_of_another_buyer(made: Made, tmp_path: Path) -> None:
    _, buyers, found = made
    for buyer, copy in zip(buyers, found, strict=True):
        held = everything_in(copy.file)
        for other in buyers:
            for text in (other.name, other.order, *other.name.split()):
                assert (text in held) == (other == buyer), (buyer.name, text)


def everything_in(pdf: Path) -> str:
    """The raw bytes and every stream and string, unpacked, in each encoding that a text can have in a PDF."""
    reader = PdfReader(pdf)
    parts = [pdf.read_bytes()]
    texts = [page.extract_text() for page in reader.pages]
    for number in range(1, int(reader.trailer["/Size"])):
        each = reader.get_object(number)
        texts.append(repr(each))
        parts += [each.get_data()] if hasattr(each, "get_data") else []
    raw = b"".join(parts)
    return "\n".join([*texts, raw.decode("utf-8", "replace"), raw.decode("utf-16-be", "replace"), raw.decode("latin1")])


def test_the_master_names_nobody_and_shows_nothing(made: Made) -> None:
    master, buyers, _ = made
    held = everything_in(master.pdf)
    assert not [buyer.name for buyer in buyers if buyer.name in held]
    for page in pypdfium2.PdfDocument(master.pdf):
        assert page.get_textpage().get_text_bounded(top=page.get_height() / 20).strip() == ""


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not on this machine")
def test_qpdf_finds_no_fault(made: Made) -> None:
    master, _, found = made
    for pdf in (master.pdf, *(copy.file for copy in found)):
        checked = subprocess.run(["qpdf", "--check", pdf], capture_output=True, text=True)
        assert (checked.returncode, checked.stderr) == (0, "")


def test_the_same_row_makes_the_same_bytes_whoever_else_bought(made: Made, tmp_path: Path, font: NameplateFont) -> None:
    master, _, found = made
    alone = parse_buyers(b"name,order\n\nAda Nightingale,QX-71\n", Path("other.csv"), font.unsettable).buyers
    (again,) = copies(master, alone, font, tmp_path / "again")
    assert again.file.read_bytes() == found[0].file.read_bytes()


def test_a_name_that_is_too_long_for_a_page_is_set_smaller_and_then_refused(
    made: Made, tmp_path: Path, font: NameplateFont
) -> None:
    master = made[0]
    long, longer = (
        parse_buyers(f"name,order\n{'Ab ' * n},1\n".encode(), Path("x.csv"), font.unsettable).buyers for n in (60, 90)
    )
    (copy,) = copies(master, long, font, tmp_path / "long")
    page = pypdfium2.PdfDocument(copy.file)[0]
    assert "Ab Ab" in page.get_textpage().get_text_bounded(top=page.get_height() / 20, left=30, right=565)
    with pytest.raises(EngravingError, match="too long for the foot of a page"):
        copies(master, longer, font, tmp_path / "longer")


def test_every_letter_of_three_scripts_is_drawn_and_read_back(
    edition: Callable[..., Path], font: NameplateFont, tmp_path: Path
) -> None:
    """The blocks Latin-1, Latin Extended-A, the Greek alphabet and the Russian one (Unicode code charts)."""
    blocks = (range(0xC0, 0x100), range(0x100, 0x17F), range(0x391, 0x3CA), range(0x410, 0x450))
    signs = [chr(code) for block in blocks for code in block if chr(code).isalpha()]
    rows = ["".join(signs[start : start + 40]) for start in range(0, len(signs), 40)]
    text = "name,order\n" + "".join(f"{row},{number}\n" for number, row in enumerate(rows))
    found = parse_buyers(text.encode(), Path("x.csv"), font.unsettable)
    master = make_master(edition(pages=1), tmp_path / "master.pdf", font)
    for buyer, copy in zip(found.buyers, copies(master, found.buyers, font, tmp_path), strict=True):
        page = pypdfium2.PdfDocument(copy.file)[0]
        assert page.get_textpage().get_text_bounded(top=page.get_height() / 20).strip() == said(buyer)
    missing = "".join(signs) if not found.buyers else found.problems
    assert missing == ()
