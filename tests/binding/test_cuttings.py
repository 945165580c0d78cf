"""Cuttings of a sheaf: kept from one book to the next they bind to the same bytes, and no file is parsed for them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from pypdf.generic import DecodedStreamObject, DictionaryObject, NameObject, TextStringObject

from engraver.binding import Cuttings, Imprint, Section, Sheaf, TrimSize, bind, cuttings, open_sheaf, paginate
from engraver.binding.engraved import EngravedFile
from engraver.errors import EngravingError
from engraver.memory import pack, unpack

SCORE = "\\score { \\new DrumStaff \\drummode { hh8 hh sn hh } } \\markup { Grüße }"


@pytest.fixture
def chapters(engrave: Callable[..., Path]) -> list[Sheaf]:
    return [open_sheaf(engrave(name, f'{SCORE} \\markup "{name}" \\pageBreak {SCORE}')) for name in ("one", "two")]


def test_a_book_of_kept_cuttings_is_the_same_to_the_byte(
    chapters: list[Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = {sheaf.pdf: pack(cuttings(sheaf.pdf)) for sheaf in chapters}
    pagination = paginate([Section(sheaf) for sheaf in chapters])
    bind(pagination, tmp_path / "read.pdf", imprint, a4)

    def no_file(self: EngravedFile, pdf: Path) -> None:
        raise AssertionError(f"{pdf} is read")

    monkeypatch.setattr(EngravedFile, "__init__", no_file)
    bind(pagination, tmp_path / "kept.pdf", imprint, a4, cut=lambda pdf: unpack(kept[pdf]))
    assert (tmp_path / "kept.pdf").read_bytes() == (tmp_path / "read.pdf").read_bytes()


def test_equal_objects_of_two_files_have_equal_digests(chapters: list[Sheaf]) -> None:
    """Whatever their numbers: so the music font stands once in a book."""
    one, two = ({cutting.digest: cutting for cutting in cuttings(sheaf.pdf).objects} for sheaf in chapters)
    shared = {one[digest].text for digest in one.keys() & two.keys()}
    assert any(b"Emmentaler" in text for text in shared)


def test_what_is_needed_has_a_place_before_what_needs_it(chapters: list[Sheaf]) -> None:
    cut = cuttings(chapters[0].pdf)
    assert any(cutting.needs for cutting in cut.objects)
    assert all(need < place for place, cutting in enumerate(cut.objects) for need in cutting.needs)


def with_forms(path: Path, width: int, remark: bytes = b"") -> Path:
    """A page that draws a form, whose own resources hold another form."""
    writer = pypdf.PdfWriter()
    inner, outer = _form(b"0 0 %d 5 re f" % width), _form(b"/In Do " + remark)
    held = DictionaryObject({NameObject("/In"): writer._add_object(inner)})
    outer[NameObject("/Resources")] = DictionaryObject({NameObject("/XObject"): held})
    outer[NameObject("/Remark")] = TextStringObject("5 % d, 5 %d")
    page = writer.add_blank_page(596, 842)
    forms = DictionaryObject({NameObject("/Out"): writer._add_object(outer)})
    page[NameObject("/Resources")] = DictionaryObject({NameObject("/XObject"): forms})
    drawn = DecodedStreamObject()
    drawn.set_data(b"/Out Do")
    page[NameObject("/Contents")] = writer._add_object(drawn)
    writer.write(path)
    return path


def _form(drawn: bytes) -> DecodedStreamObject:
    form = DecodedStreamObject()
    form.set_data(drawn)
    kind = {"/Type": "/XObject", "/Subtype": "/Form"}
    form.update({NameObject(name): NameObject(value) for name, value in kind.items()})
    form[NameObject("/BBox")] = pypdf.generic.RectangleObject((0, 0, 50, 50))
    return form


def test_forms_and_what_they_draw_come_along(tmp_path: Path, imprint: Imprint, a4: TrimSize) -> None:
    sheaf = open_sheaf(with_forms(tmp_path / "forms.pdf", 7, b"% a remark"))
    bind(paginate([Section(sheaf)]), tmp_path / "book.pdf", imprint, a4)
    [page] = pypdf.PdfReader(tmp_path / "book.pdf", strict=True).pages
    outer = page["/Resources"]["/XObject"]["/Out"]
    assert outer.get_data() == b"/In Do % a remark" and outer["/Remark"] == "5 % d, 5 %d"
    assert outer["/Resources"]["/XObject"]["/In"].get_data() == b"0 0 7 5 re f"


def test_forms_that_differ_only_in_what_they_draw_stay_two(tmp_path: Path) -> None:
    digests = [
        [cutting.digest for cutting in cuttings(with_forms(tmp_path / f"{width}.pdf", width)).objects]
        for width in (7, 8)
    ]
    assert len(digests[0]) == len(digests[1]) == 2 and not set(digests[0]) & set(digests[1])


def test_an_object_that_refers_to_itself_is_refused(draw: Callable[..., Path]) -> None:
    pdf = draw("loop", ["one"])
    writer = pypdf.PdfWriter(clone_from=pdf)
    loop = DictionaryObject()
    loop[NameObject("/Loop")] = writer._add_object(loop)
    writer.pages[0][NameObject("/Resources")] = DictionaryObject(
        {NameObject("/Font"): DictionaryObject({NameObject("/F"): loop.indirect_reference})}
    )
    writer.write(pdf)
    with pytest.raises(EngravingError, match="refers to itself"):
        cuttings(pdf)


@pytest.mark.parametrize(
    ("left", "told"), [(100, "has changed since it was read"), (None, "cannot be read: No such file or directory")]
)
def test_cuttings_of_a_file_that_has_grown_shorter_or_is_gone_are_told(
    chapters: list[Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize, left: int | None, told: str
) -> None:
    """Of that file, not of the book: it is the book that could be written."""
    kept: Cuttings = cuttings(chapters[0].pdf)
    sheaf = replace(chapters[0], pdf=tmp_path / "short.pdf")
    if left:
        sheaf.pdf.write_bytes(chapters[0].pdf.read_bytes()[:left])
    with pytest.raises(EngravingError, match=rf'short\.pdf" {told}'):
        bind(paginate([Section(sheaf)]), tmp_path / "book.pdf", imprint, a4, cut=lambda _: kept)
    assert not (tmp_path / "book.pdf").exists()
