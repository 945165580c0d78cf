"""How binding grows: `python tests/bench/binding.py [PAGES ...]`, by default 250, 500 and 1000.

Sheaves of ten pages are made from one engraved with LilyPond; each gets operators of its own, so that no two pages are
equal, and a furniture sheet lies over all. Printed: processor seconds to open and to bind, seconds for each page, peak
memory of the process, the size of the book and what qpdf says of it, if it is there. Each size runs in its own process.
"""

from __future__ import annotations

import datetime
import resource
import shutil
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path
from time import process_time

from pypdf import PdfReader, PdfWriter

from engraver.binding import Imprint, Section, TrimSize, bind, open_sheaf, paginate
from engraver.engraving import Engine, Job, engrave

PAGES = 10
BARS = "\\new DrumStaff \\drummode { \\repeat unfold 48 { hh8 <sn hh> bd16 hh sn8 } }"
PAGE = f'\\score {{ {BARS} }}\n\\markup \\bold "A line of words"\n\\pageBreak\n'
PAPER = '\\version "2.24.0"\n#(set-default-paper-size "a4")\n\\paper { print-page-number = ##f tagline = ##f }\n'


def engraved(folder: Path, text: str, name: str) -> Path:
    [result] = engrave([Job(name, PAPER + text)], engine=Engine.find(), include=[], store=folder / "store")
    assert result.pdf is not None, result.failure
    return result.pdf


def varied(source: Path, number: int, out: Path) -> Path:
    """The same sheaf with an operator of its own before each page's."""
    writer = PdfWriter(clone_from=PdfReader(source))
    for page in writer.pages:
        stream = page["/Contents"].get_object()
        stream._data = zlib.compress(b"%d w\n" % number + stream.get_data())
    writer.write(out)
    return out


def run(pages: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source = engraved(folder, PAGE * PAGES, "sheaf")
        count = len(PdfReader(source).pages)
        pdfs = [varied(source, number, folder / f"{number}.pdf") for number in range(-(-pages // count))]
        sheet = engraved(
            folder, "".join(f'\\markup "{n}"\n\\pageBreak\n' for n in range(len(pdfs) * count)), "furniture"
        )
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        start = process_time()
        over, sheaves = open_sheaf(sheet), [open_sheaf(pdf) for pdf in pdfs]
        opened = process_time()
        imprint = Imprint("A Book", "An Author", "en", datetime.date(2026, 1, 31))
        bind(paginate([Section(sheaf) for sheaf in sheaves]), folder / "book.pdf", imprint, TrimSize(210, 297), over)
        bound = process_time()
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        total = len(pdfs) * count
        print(
            f"{total:6} {opened - start:8.2f} {bound - opened:8.2f} {1000 * (bound - opened) / total:9.2f} "
            f"{before / 1024:8.0f} {peak / 1024:8.0f} {(folder / 'book.pdf').stat().st_size / 2**20:8.2f}  "
            f"{checked(folder / 'book.pdf')}"
        )


def checked(book: Path) -> str:
    if not (qpdf := shutil.which("qpdf")):
        return "qpdf is not here"
    return (
        "qpdf: no fault" if subprocess.run([qpdf, "--check", book], capture_output=True).returncode == 0 else "FAULTY"
    )


if __name__ == "__main__":
    sizes = [int(size) for size in sys.argv[1:]] or [250, 500, 1000]
    if len(sizes) == 1:
        run(sizes[0])
    else:
        print(" pages   open s   bind s   ms/page  MiB was MiB peak MiB book", flush=True)
        for size in sizes:
            subprocess.run([sys.executable, __file__, str(size)], check=True)
