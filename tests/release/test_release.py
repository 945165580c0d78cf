"""What lies in a release, and that it is the same however it came about."""

from __future__ import annotations

import hashlib
import re
import shutil
import signal
import subprocess
import sys
import time
import zipfile
from pathlib import Path

import mido
import pypdf
import pytest

from engraver import definition
from engraver.making.where import Where
from engraver.release import release
from tests.release.sold import ALL, NAME, Sold, engraver


def test_a_bad_row_is_told_and_the_rest_is_released(sold: Sold) -> None:
    assert sold.ended.code == 1
    assert re.search(r"shop\.csv:4:1: this row has no name", sold.ended.err)
    assert re.search(r'shop\.csv:5:1: "Very Long Name .*" is too long for the foot of a page', sold.ended.err)
    copies = sold.out / "release" / f"{NAME}-shop"
    names = {"a-1-screen.pdf", "a-1-screen-letter.pdf", "a-2-screen.pdf", "a-2-screen-letter.pdf", "SHA256SUMS"}
    assert {path.name for path in copies.iterdir()} == names
    assert "Zoë Ångström · order A-2" in pypdf.PdfReader(copies / "a-2-screen.pdf").pages[3].extract_text()
    assert "Zoë" not in pypdf.PdfReader(copies / "a-1-screen.pdf").pages[3].extract_text()


def test_the_folder_holds_editions_midi_texts_and_their_checksums(sold: Sold) -> None:
    held = {path.relative_to(sold.folder).as_posix() for path in sold.folder.rglob("*") if path.is_file()}
    assert {f"my-first-book-{edition}.pdf" for edition in ALL} <= held
    assert {"READ-ME.txt", "LICENCE.txt", "text/my-first-book.html", "midi/second/00-second-steps.mid"} <= held
    lines = (sold.folder / "SHA256SUMS").read_text("utf-8").splitlines()
    sums = dict(reversed(line.split("  ", 1)) for line in lines)
    assert set(sums) == held - {"SHA256SUMS"}
    for name, stated in sums.items():
        assert hashlib.sha256((sold.folder / name).read_bytes()).hexdigest() == stated
    assert mido.MidiFile(sold.folder / "midi/second/00-second-steps.mid").length > 0


def test_the_archive_holds_the_folder(sold: Sold) -> None:
    with zipfile.ZipFile(sold.folder.with_name(f"{NAME}.zip")) as packed:
        assert packed.testzip() is None
        for name in packed.namelist():
            assert packed.read(name) == (sold.folder.parent / name).read_bytes()
        assert len(packed.namelist()) == sum(path.is_file() for path in sold.folder.rglob("*"))


def test_the_read_me_names_every_edition_and_its_pages(sold: Sold) -> None:
    said = " ".join((sold.folder / "READ-ME.txt").read_text("utf-8").split())
    for edition in ALL:
        assert re.search(rf"my-first-book-{edition}\.pdf [^.]*\.[^.]* {len(sold.pdf(edition).pages)} pages\.", said)
    assert (sold.folder / "LICENCE.txt").read_text("utf-8") == definition.read(sold.book).licence


def test_editions_on_one_paper_share_what_is_engraved(sold: Sold, tmp_path: Path) -> None:
    book = tmp_path / "songs"
    shutil.copytree(sold.book, book)
    entries = {}
    for editions in ("[screen]", "[screen, print, {kind: sample, chapters: [second]}]"):
        text = (book / "book.yaml").read_text("utf-8")
        (book / "book.yaml").write_text(text[: text.index("\neditions:")] + f"\neditions: {editions}\n", "utf-8")
        assert engraver("build", book, "--editions", "--out", tmp_path / "out").code == 0
        entries[editions] = sum(path.name == "source.pdf" for path in (tmp_path / "out" / "store").rglob("*"))
    before, after = entries.values()
    assert 0 < after - before <= 5  # the index of print, the page furniture of both, the last page of the sample


def test_the_same_folder_makes_the_same_bytes(sold: Sold, tmp_path: Path) -> None:
    made = release(Where(sold.book, tmp_path / "again"))
    assert made.archive.read_bytes() == sold.folder.with_name(f"{NAME}.zip").read_bytes()


@pytest.mark.parametrize("moment", ["the folder", "the copies"])
def test_a_release_that_was_killed_is_finished_by_running_it_again(sold: Sold, tmp_path: Path, moment: str) -> None:
    out = tmp_path / "out"
    shutil.copytree(sold.out / "store", out / "store")
    rows = "".join(f"K-{number},Buyer Number {number}\n" for number in range(150))
    (tmp_path / "shop.csv").write_text(f"order,name\n{rows}", encoding="utf-8")
    arguments = ["release", str(sold.book), "--out", str(out), "--buyers", str(tmp_path / "shop.csv")]
    process = subprocess.Popen([sys.executable, "-m", "engraver", *arguments], stdout=subprocess.DEVNULL)
    draft = out / "release" / (f".{NAME}.part" if moment == "the folder" else f".{NAME}-shop.part")
    deadline = time.monotonic() + 120
    while not any(draft.glob("*.pdf")) and time.monotonic() < deadline and process.poll() is None:
        time.sleep(0.002)
    process.send_signal(signal.SIGKILL)
    assert process.wait() == -signal.SIGKILL
    assert draft.exists() and not (out / "release" / f"{NAME}-shop").exists()
    assert engraver(*arguments).code == 0
    assert not draft.exists()
    assert (out / "release" / f"{NAME}.zip").read_bytes() == sold.folder.with_name(f"{NAME}.zip").read_bytes()
    assert len(list((out / "release" / f"{NAME}-shop").glob("*.pdf"))) == 300
