"""An author's font: whole ones are read, damaged ones are told in one line at their place, whatever the damage."""

from __future__ import annotations

import struct
from pathlib import Path

import pytest

from engraver.definition import check, read_style
from engraver.style import font_folders

WHOLE = font_folders()[0] / "SourceSansPro-Regular.otf"
TABLES, ENTRY, LENGTH = 12, 16, 12  # the directory of an OpenType font: its start, an entry, the length within one
# Source of these: OpenType specification 1.9, "Organization of an OpenType font"; so is where the count stands, at 4.


def cut_off(font: bytes, table: bytes, length: int) -> bytes:
    """A font whose directory says that a table ends after so many bytes."""
    (count,) = struct.unpack_from(">H", font, 4)
    entries = range(TABLES, TABLES + count * ENTRY, ENTRY)
    place = next(entry for entry in entries if font[entry : entry + 4] == table)
    damaged = bytearray(font)
    struct.pack_into(">I", damaged, place + LENGTH, length)
    return bytes(damaged)


def names_strewn(font: bytes) -> bytes:
    """A font whose table of names says that it has 40,000 of them."""
    (count,) = struct.unpack_from(">H", font, 4)
    entries = range(TABLES, TABLES + count * ENTRY, ENTRY)
    (start,) = struct.unpack_from(">I", font, next(e for e in entries if font[e : e + 4] == b"name") + 8)
    return font[: start + 2] + struct.pack(">H", 40_000) + font[start + 4 :]


@pytest.fixture
def book(tmp_path: Path) -> Path:
    (tmp_path / "style.yaml").write_text("fonts: {text: {regular: mine.otf}}\n", "utf-8")
    return tmp_path


def test_a_whole_font_is_called_by_its_own_name(book: Path) -> None:
    (book / "mine.otf").write_bytes(WHOLE.read_bytes())
    family = read_style(book).fonts.text
    assert family and family.regular.name == "Source Sans Pro"


@pytest.mark.parametrize(
    ("table", "length"), [(b"CFF ", 1), (b"CFF ", 40), (b"cmap", 1), (b"name", 1), (b"cmap", 2**31)]
)
def test_a_damaged_font_is_told_at_its_place(book: Path, table: bytes, length: int) -> None:
    (book / "mine.otf").write_bytes(cut_off(WHOLE.read_bytes(), table, length))
    told = [str(problem).splitlines()[0] for problem in check(book) if problem.position and "style" in str(problem)]
    assert told == [f'{book}/style.yaml:1:25: "mine.otf" is not a font that can be read']


def test_a_name_that_no_file_can_have_is_told_at_its_place(book: Path) -> None:
    """Source of the limit of 255 bytes: POSIX.1-2017, limits.h, NAME_MAX, as Linux and macOS have it."""
    (book / "style.yaml").write_text(f"fonts: {{text: {{regular: {'m' * 300}.otf}}}}\n", "utf-8")
    told = str(check(book)[-1]).splitlines()[0]
    assert told.startswith(f"{book}/style.yaml:1:25:")
    assert told.endswith("is not a font file in the book's folder")


def test_the_reader_of_fonts_keeps_its_notes_to_itself(book: Path, caplog: pytest.LogCaptureFixture) -> None:
    (book / "mine.otf").write_bytes(names_strewn(WHOLE.read_bytes()))
    check(book)
    assert caplog.records == []
