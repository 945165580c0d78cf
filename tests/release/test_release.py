"""A release of a small book, made once by the command: every edition of it, and all that lies beside them."""

from __future__ import annotations

import hashlib
import re
import shutil
import signal
import subprocess
import sys
import time
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import mido
import pypdf
import pypdfium2
import pytest

from engraver import definition
from engraver.errors import DefinitionError, EngravingError, Problem, ProofError
from engraver.lilypond import passage
from engraver.lilypond.source import Source
from engraver.making.print_run import PrintRun
from engraver.making.where import Where
from engraver.release import release
from engraver.release.readiness import refuse_unready
from engraver.release.releasing import refuse_warnings
from engraver.starter import copy_starter

EDITIONS = """
editions:
  - screen
  - {kind: screen, paper: Letter}
  - {kind: print, bleed: 3}
  - {kind: print, name: proof, ink: grey, gutter: 4, recto: no}
  - {kind: sample, chapters: [second]}
  - {kind: sample, name: taste, pages: "i, 2-3"}
"""
BUYERS = f"order,name\nA-1,Ada Nightingale\nA-2,Zoë Ångström\nA-3,\nA-4,{'Very Long Name ' * 30}\n"
NAME = "my-first-book-2026-01-31"


def two_chapters(folder: Path) -> Path:
    copy_starter(folder)
    first = (folder / "grooves" / "first-steps.yaml").read_text("utf-8")
    (folder / "grooves" / "second.yaml").write_text(first.replace("title: First Steps", "title: Second Steps"), "utf-8")
    book = (folder / "book.yaml").read_text("utf-8")
    (folder / "book.yaml").write_text(
        book.replace("  - first-steps\n", "  - first-steps\n  - second\n") + EDITIONS, "utf-8"
    )
    return folder


@dataclass(frozen=True)
class Ended:
    code: int
    err: str


@dataclass(frozen=True)
class Sold:
    """``book`` is the folder that it was made of, ``out`` where it was put."""

    book: Path
    out: Path
    ended: Ended

    @property
    def folder(self) -> Path:
        return self.out / "release" / NAME

    def pdf(self, edition: str) -> pypdf.PdfReader:
        return pypdf.PdfReader(self.folder / f"my-first-book-{edition}.pdf", strict=True)

    def seen(self, edition: str) -> pypdfium2.PdfDocument:
        return pypdfium2.PdfDocument(self.folder / f"my-first-book-{edition}.pdf")


def engraver(*arguments: object) -> Ended:
    command = [sys.executable, "-m", "engraver", *map(str, arguments)]
    ended = subprocess.run(command, capture_output=True, text=True, timeout=300)
    return Ended(ended.returncode, ended.stderr)


@pytest.fixture(scope="module")
def sold(tmp_path_factory: pytest.TempPathFactory) -> Sold:
    home = tmp_path_factory.mktemp("sold")
    book = two_chapters(home / "songs")
    (home / "shop.csv").write_text(BUYERS, encoding="utf-8")
    return Sold(book, home / "out", engraver("release", book, "--out", home / "out", "--buyers", home / "shop.csv"))


ALL = ("screen", "screen-letter", "print", "proof", "sample", "taste")
PRINTED = ("print", "proof")


# ------------------------------------------------------------------ what is in it
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


# ------------------------------------------------------------------ editions
@pytest.mark.parametrize(
    ("edition", "points", "bleed"),
    [
        # A4: ISO 216, 210 x 297 mm; Letter: ANSI/ASME Y14.1, 8.5 x 11 in; 72 points to an inch (ISO 32000-1, 8.3.2.3)
        ("screen", (210 / 25.4 * 72, 297 / 25.4 * 72), 0.0),
        ("screen-letter", (8.5 * 72, 11 * 72), 0.0),
        ("print", (210 / 25.4 * 72, 297 / 25.4 * 72), 3 / 25.4 * 72),
    ],
)
def test_every_page_has_the_size_of_its_paper(
    sold: Sold, edition: str, points: tuple[float, float], bleed: float
) -> None:
    for page in sold.pdf(edition).pages:
        trimmed = [bleed, bleed, points[0] + bleed, points[1] + bleed]
        assert [float(side) for side in page["/TrimBox"]] == pytest.approx(trimmed, abs=0.01)
        full = [0, 0, points[0] + 2 * bleed, points[1] + 2 * bleed]
        assert [float(side) for side in page["/MediaBox"]] == pytest.approx(full, abs=0.01)


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not on this machine")
def test_qpdf_finds_no_fault_in_any_file(sold: Sold) -> None:
    files = sorted((sold.out / "release").rglob("*.pdf"))
    assert len(files) == len(ALL) + 4
    for pdf in files:
        checked = subprocess.run(["qpdf", "--check", pdf], capture_output=True, text=True)
        assert (checked.returncode, checked.stderr) == (0, ""), pdf


def colours(document: pypdfium2.PdfDocument, number: int) -> set[tuple[int, ...]]:
    picture = document[number].render(scale=1).to_pil().convert("RGB")
    return {colour for _, colour in picture.getcolors(1 << 24)}


def test_a_printers_edition_has_no_colour_and_a_screens_has(sold: Sold) -> None:
    for edition in PRINTED:
        document = sold.seen(edition)
        for number in range(len(document)):
            assert all(max(colour) == min(colour) for colour in colours(document, number)), (edition, number)
    screen = sold.seen("screen")
    assert any(max(colour) - min(colour) > 60 for number in range(len(screen)) for colour in colours(screen, number))


def links(reader: pypdf.PdfReader) -> list[pypdf.generic.DictionaryObject]:
    return [link.get_object() for page in reader.pages for link in page.get("/Annots", ())]


def test_only_a_printers_edition_has_no_links(sold: Sold) -> None:
    assert {edition: bool(links(sold.pdf(edition))) for edition in ALL if edition != "taste"} == {
        "screen": True,
        "screen-letter": True,
        "print": False,
        "proof": False,
        "sample": True,
    }


def test_every_link_leads_to_a_page_of_its_own_file(sold: Sold) -> None:
    for edition in ALL:
        reader = sold.pdf(edition)
        pages = {page.indirect_reference.idnum for page in reader.pages}  # type: ignore[union-attr]
        assert all(link["/Dest"][0].idnum in pages for link in links(reader))


def starts(reader: pypdf.PdfReader) -> list[int]:
    """The pages, from 1, on which the chapters begin."""
    marks = [mark for mark in reader.outline if not isinstance(mark, list)]
    return [reader.get_destination_page_number(m) + 1 for m in marks if re.match(r"\d+ ", str(m.title))]


def test_chapters_of_a_printers_edition_begin_on_right_hand_pages(sold: Sold) -> None:
    """Common practice: page 1 of a book is a right-hand page, so right-hand pages have odd numbers."""
    assert [page % 2 for page in starts(sold.pdf("print"))] == [1, 1]
    assert len(sold.pdf("proof").pages) == len(sold.pdf("screen").pages)


def left_edge(document: pypdfium2.PdfDocument, number: int) -> float:
    """Points from the left edge of the page to its first ink."""
    picture = document[number].render(scale=4).to_pil().convert("L").point(lambda grey: 255 * (grey < 200))
    return picture.getbbox()[0] / 4


def test_pages_of_a_printers_edition_move_away_from_the_spine(sold: Sold) -> None:
    """A gutter of 4 mm: rectos to the right, versos to the left."""
    screen, proof = sold.seen("screen"), sold.seen("proof")
    first = starts(sold.pdf("screen"))[0] - 1
    assert first % 2 == 0
    for number, way in ((first, 1), (first + 1, -1)):
        moved = left_edge(proof, number) - left_edge(screen, number)
        assert moved == pytest.approx(way * 4 / 25.4 * 72, abs=0.3)


def test_all_fonts_are_embedded(sold: Sold) -> None:
    for edition in ALL:
        for page in sold.pdf(edition).pages:
            for font in fonts(page["/Resources"].get_object()):
                descriptor = font.get("/DescendantFonts", [font])[0].get_object()["/FontDescriptor"]
                assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor), font["/BaseFont"]


NONE = pypdf.generic.DictionaryObject()


def fonts(resources: pypdf.generic.DictionaryObject) -> Iterator[pypdf.generic.DictionaryObject]:
    yield from (font.get_object() for font in resources.get("/Font", NONE).get_object().values())
    for form in resources.get("/XObject", NONE).get_object().values():
        yield from fonts(form.get_object().get("/Resources", NONE).get_object())


def test_page_one_is_chapter_one_and_what_comes_before_is_roman(sold: Sold) -> None:
    for edition in ("screen", "screen-letter", "print"):
        reader = sold.pdf(edition)
        body = reader.page_labels.index("1")
        assert starts(reader)[0] == body + 1
        assert reader.page_labels[: min(4, body)] == ["i", "ii", "iii", "iv"][:body]
        assert reader.page_labels[body:] == [str(n + 1) for n in range(len(reader.pages) - body)]


# ------------------------------------------------------------------ samples
def test_a_sample_has_front_matter_and_its_chapters_under_their_own_numbers(sold: Sold) -> None:
    whole, sample = sold.pdf("screen"), sold.pdf("sample")
    first, second = starts(whole)
    after = next(n for n, label in enumerate(whole.page_labels) if label == "1")
    front = [label for label in whole.page_labels[:after] if whole.pages[whole.page_labels.index(label)].extract_text()]
    assert sample.page_labels[: len(front)] == front
    assert sample.page_labels[len(front)] == whole.page_labels[second - 1]
    assert first - 1 == after and whole.page_labels[first - 1] not in sample.page_labels


def test_a_sample_of_pages_has_those_and_a_last_one(sold: Sold) -> None:
    assert sold.pdf("taste").page_labels[:3] == ["i", "2", "3"]
    assert len(sold.pdf("taste").pages) == 4


def test_every_page_of_a_sample_says_so_and_no_other_does(sold: Sold) -> None:
    for edition in ("sample", "taste"):
        assert all("Sample" in page.extract_text() for page in sold.pdf(edition).pages)
    assert not any("Sample" in page.extract_text() for page in sold.pdf("screen").pages)


def test_the_last_page_of_a_sample_says_what_the_whole_book_holds(sold: Sold) -> None:
    whole, sample = sold.pdf("screen"), sold.pdf("sample")
    said = " ".join(sample.pages[-1].extract_text().split())
    assert f"{len(sample.pages) - 1} of its {len(whole.pages)} pages" in said
    assert "First Steps" in said and "Second Steps" in said
    assert said.count("in this sample") == 1


# ------------------------------------------------------------------ what is done once
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


# ------------------------------------------------------------------ what is refused
def test_what_is_missing_is_told_with_its_place_and_nothing_is_made(tmp_path: Path) -> None:
    book = two_chapters(tmp_path / "songs")
    lines = (book / "book.yaml").read_text("utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith(("rights", "licence"))]
    (book / "book.yaml").write_text("".join(kept), encoding="utf-8")
    groove = book / "grooves" / "second.yaml"
    groove.write_text(re.sub("(?m)^origin.*$", "", groove.read_text("utf-8")), encoding="utf-8")
    with pytest.raises(DefinitionError) as caught:
        release(Where(book, tmp_path / "out"))
    assert [(problem.position.path.name, problem.message) for problem in caught.value.problems if problem.position] == [
        ("book.yaml", "a book to sell has a rights line"),
        ("book.yaml", "a book to sell has a licence"),
        ("second.yaml", "a groove to sell says whose idea it is"),
    ]
    assert not (tmp_path / "out").exists()


def test_a_book_that_lacks_nothing_is_ready(tmp_path: Path) -> None:
    refuse_unready(definition.read(two_chapters(tmp_path / "songs")))


def test_buyers_need_an_edition_for_the_screen(tmp_path: Path) -> None:
    book = two_chapters(tmp_path / "songs")
    text = (book / "book.yaml").read_text("utf-8")
    (book / "book.yaml").write_text(text[: text.index("\neditions:")] + "\neditions: [print]\n", "utf-8")
    (tmp_path / "shop.csv").write_text(BUYERS, encoding="utf-8")
    with pytest.raises(DefinitionError, match="there is no screen edition to copy"):
        release(Where(book, tmp_path / "out"), tmp_path / "shop.csv")


def test_a_stroke_that_is_lost_stops_the_release(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = passage.staff_text
    damaged = lambda *arguments: Source(whole(*arguments).replace("snareAccent", "snare", 1))  # noqa: E731
    monkeypatch.setattr(passage, "staff_text", damaged)
    with pytest.raises(ProofError):
        release(Where(two_chapters(tmp_path / "songs"), tmp_path / "out"))
    assert not (tmp_path / "out" / "release").exists()


def test_warnings_stop_the_release() -> None:
    clean = PrintRun((), (), ())
    refuse_warnings(clean)
    with pytest.raises(EngravingError, match=r"LilyPond warns of pages that would be sold(.|\n)*gravel"):
        refuse_warnings(PrintRun((), (), (Problem(None, "gravel"),)))


def test_a_sample_of_pages_that_are_not_there_is_told(tmp_path: Path) -> None:
    book = two_chapters(tmp_path / "songs")
    text = (book / "book.yaml").read_text("utf-8")
    (book / "book.yaml").write_text(text.replace('"i, 2-3"', '"i, 900"'), encoding="utf-8")
    ended = engraver("build", book, "--editions", "--out", tmp_path / "out")
    assert ended.code == 1
    assert re.search(r"book\.yaml:\d+:5: there is no page 900 in this book", ended.err)
    assert "its pages are i to " in ended.err
