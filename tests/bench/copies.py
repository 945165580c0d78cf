"""How long buyers' copies take and how much memory: python tests/bench/copies.py BOOK.pdf [PAGES].

BOOK.pdf is a bound book; its pages are repeated up to PAGES (100). Each row is a process of its own, so that the
peak of memory is that of its copies alone.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from datetime import date
from itertools import cycle, islice
from pathlib import Path

from pypdf import PdfReader, PdfWriter

from engraver.binding import Imprint
from engraver.binding.imprint_writing import write_imprint
from engraver.release.buyers import parse_buyers
from engraver.release.copying import make_master, nameplate_font, write_copies
from engraver.style import font_folders

IMPRINT = Imprint("A Book to Copy", "A. Teacher", "en", date(2026, 1, 31))
COUNTS = (0, 50, 100, 200, 400)


def stretched(book: Path, pages: int, out: Path) -> Path:
    writer = PdfWriter()
    for page in islice(cycle(PdfReader(book).pages), pages):
        writer.add_page(page, excluded_keys=("/Annots",))
    write_imprint(writer, IMPRINT)
    writer.write(out)
    return out


def measure(edition: Path, count: int, folder: Path) -> str:
    begun = time.perf_counter()
    font = nameplate_font(font_folders()[0] / "SourceSansPro-Regular.otf")
    rows = "".join(f"Buyer Number {number},A-{number}\n" for number in range(count))
    buyers = parse_buyers(f"name,order\n{rows}".encode(), Path("shop.csv"), font.unsettable).buyers
    master = make_master(edition, folder / "master.pdf", font)
    ready = time.perf_counter()
    made = list(
        write_copies(
            master, buyers, IMPRINT, lambda b: f"{b.printed} · {b.order}", font, lambda b: folder / b.file_stem
        )
    )
    done = time.perf_counter()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    bytes_more = made[0].file.stat().st_size - master.trailer.length if made else 0
    took = f"{done - begun:7.2f} s, of it copying {done - ready:6.2f} s"
    return f"{len(made):>6} copies {took}, peak {peak:6.0f} MiB, {bytes_more} bytes more each"


if __name__ == "__main__":
    if len(sys.argv) > 3:
        print(measure(Path(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3])))
        sys.exit()
    with tempfile.TemporaryDirectory() as home:
        pages = int(sys.argv[2]) if len(sys.argv) > 2 else 100
        edition = stretched(Path(sys.argv[1]), pages, Path(home) / "edition.pdf")
        print(f"{pages} pages, {edition.stat().st_size / 1e6:.1f} MB")
        for count in COUNTS:
            folder = Path(home) / str(count)
            folder.mkdir()
            subprocess.run([sys.executable, __file__, edition, str(count), folder], check=True)
