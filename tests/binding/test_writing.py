"""The book is written whole or not at all, and twice the same."""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from engraver.binding import Bookmark, Imprint, Section, Sheaf, TrimSize, bind, open_sheaf, paginate
from engraver.errors import EngravingError
from tests.work import calls

BOX = (100.0, 600.0, 180.0, 612.0)
AGAIN = """
import datetime, sys
from pathlib import Path
from engraver.binding import Imprint, Section, TrimSize, bind, open_sheaf, paginate
imprint = Imprint("T", "A", "en", datetime.date(2024, 2, 29), "", ("one", "two"))
pdf, out = map(Path, sys.argv[1:])
sheaf = open_sheaf(pdf)
bind(paginate([Section(sheaf)]), out, imprint, TrimSize(210, 297), sheaf)
"""


def test_two_programs_bind_the_same_bytes(engrave: Callable[..., Path], tmp_path: Path) -> None:
    """Also where sets and dictionaries of the program are ordered differently."""
    pdf = engrave("twice", '\\markup { \\spot "engraver:anchor/x" "text" }')
    for seed in "12":
        command = [sys.executable, "-c", AGAIN, str(pdf), str(tmp_path / seed)]
        subprocess.run(command, check=True, env={**os.environ, "PYTHONHASHSEED": seed})
    assert (tmp_path / "1").read_bytes() == (tmp_path / "2").read_bytes()


def test_the_moment_of_engraving_leaves_no_trace(
    draw: Callable[..., Path], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    for name, moment in (("a", "D:20200101"), ("b", "D:20210101")):
        writer = pypdf.PdfWriter(clone_from=draw("chapter", ["one"]))
        writer.add_metadata({"/CreationDate": moment})
        writer.write(tmp_path / f"chapter-{name}.pdf")
        bind(paginate([Section(open_sheaf(tmp_path / f"chapter-{name}.pdf"))]), tmp_path / name, imprint, a4)
    assert (tmp_path / "chapter-a.pdf").read_bytes() != (tmp_path / "chapter-b.pdf").read_bytes()
    assert (tmp_path / "a").read_bytes() == (tmp_path / "b").read_bytes()


def test_the_identifier_follows_from_the_book(
    sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    pagination = paginate([Section(sheaf("a"))])
    identifiers = []
    for title in ("One", "Two", "One"):
        bind(pagination, tmp_path / "book.pdf", replace(imprint, title=title), a4)
        first, second = pypdf.PdfReader(tmp_path / "book.pdf", strict=True).trailer["/ID"]
        assert first == second and len(first.original_bytes) == 16
        identifiers.append(first.original_bytes)
    assert identifiers[0] == identifiers[2] != identifiers[1] != bytes(16)


def test_a_full_disk_leaves_the_last_book(
    sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    """The system refuses to let any file grow beyond 2,000 bytes, as a full disk would."""
    pagination, out = paginate([Section(sheaf("a", 30))]), tmp_path / "book.pdf"
    out.write_text("the last book")
    before = sorted(tmp_path.iterdir())
    limits = resource.getrlimit(resource.RLIMIT_FSIZE)
    handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    try:
        resource.setrlimit(resource.RLIMIT_FSIZE, (2000, limits[1]))
        with pytest.raises(
            EngravingError, match=r'book\.pdf" could not be written: .*\nhint: the last book is untouched'
        ):
            bind(pagination, out, imprint, a4)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, limits)
        signal.signal(signal.SIGXFSZ, handler)
    assert out.read_text() == "the last book" and sorted(tmp_path.iterdir()) == before


def test_a_missing_folder_is_told(sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize) -> None:
    with pytest.raises(EngravingError, match="could not be written: No such file or directory"):
        bind(paginate([Section(sheaf("a"))]), tmp_path / "no" / "book.pdf", imprint, a4)


@pytest.mark.parametrize("damage", ["missing", "cut off", "longer"])
def test_a_sheaf_that_has_changed_leaves_the_last_book(
    sheaf: Callable[..., Sheaf], draw: Callable[..., Path], tmp_path: Path, imprint: Imprint, a4: TrimSize, damage: str
) -> None:
    opened, out = sheaf("a"), tmp_path / "book.pdf"
    out.write_text("the last book")
    if damage == "missing":
        opened.pdf.unlink()
    elif damage == "cut off":
        opened.pdf.write_bytes(opened.pdf.read_bytes()[:300])
    else:
        draw("a", ["one", "two"])
    with pytest.raises(EngravingError, match=r'"[^"]*/a\.pdf" (is not there|cannot be read|has changed)'):
        bind(paginate([Section(opened)]), out, imprint, a4)
    assert out.read_text() == "the last book"


def test_anyone_may_read_the_book(sheaf: Callable[..., Sheaf], tmp_path: Path, imprint: Imprint, a4: TrimSize) -> None:
    """It gets the rights of any other new file, not those of a temporary one."""
    bind(paginate([Section(sheaf("a"))]), tmp_path / "book.pdf", imprint, a4)
    (tmp_path / "other").touch()
    assert (tmp_path / "book.pdf").stat().st_mode == (tmp_path / "other").stat().st_mode


def test_twice_as_many_pages_take_at_most_twice_the_work(
    engrave: Callable[..., Path], draw: Callable[..., Path], tmp_path: Path, imprint: Imprint, a4: TrimSize
) -> None:
    """Engraved chapters of eight pages, each with its own anchors; the work is counted in calls."""
    exercise = '\\markup \\spot "engraver:anchor/c000-{0}" \\score {{ \\new DrumStaff \\drummode {{ hh8 hh sn hh }} }}'
    pages = "\\pageBreak".join(exercise.format(number) for number in range(8))
    chapter = engrave("long", pages).read_bytes()
    sections = []
    for number in range(100):
        pdf = tmp_path / f"{number}.pdf"
        pdf.write_bytes(chapter.replace(b"anchor/c000", b"anchor/c%03d" % number))
        sections.append(Section(open_sheaf(pdf), bookmarks=(Bookmark("Chapter", 0, f"c{number:03}-7"),)))
    out, work = tmp_path / "book.pdf", []
    for some in (sections[:50], sections):
        furniture = open_sheaf(draw("furniture", [str(number) for number in range(8 * len(some))]))
        work.append(calls(lambda some=some, sheet=furniture: bind(paginate(some), out, imprint, a4, sheet)))
        assert len(pypdf.PdfReader(out).pages) == 8 * len(some)
    assert work[1] <= 2.1 * work[0]
