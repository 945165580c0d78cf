"""What is made again when something changes, and what is not: for each kind of change, and why it is told."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from engraver.binding import cuttings
from engraver.build import Report, build
from engraver.definition import BookDefinition
from engraver.engraving.crew import Crew
from engraver.making import bindery
from engraver.making.where import Where
from engraver.manuscript.manuscript import Manuscript
from engraver.manuscript.texts import Texts

CELLS = """\
title: Five Planks
tempo: 80
bars: 5
origin: The author's own.
layers:
  - name: Cycle
    strokes:
      bass drum: {cycle: "x-x--"}
  - name: Backbeat
    role: meter
    strokes:
      snare: "----X-------X---"
"""
PLAIN = """\
title: Plain Bench
tempo: 90
step: eighth
bars: 2
origin: The author's own.
layers:
  - name: Hands
    strokes:
      ride: "x-x-x-x-"
      cross-stick: "--x---x-"
sticking: {hands: "R-B-R-B-"}
"""
CHAPTERS = {"planks", "bench"}


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Where:
    """A book of two chapters that was built once."""
    folder = tmp_path_factory.mktemp("incremental") / "songs"
    (folder / "grooves").mkdir(parents=True)
    (folder / "book.yaml").write_text("title: Songs\ndate: 2026-01-31\nchapters: [planks, bench]\n", "utf-8")
    (folder / "style.yaml").write_text("ghosts: parentheses\n", "utf-8")
    (folder / "grooves" / "planks.yaml").write_text(CELLS, "utf-8")
    (folder / "grooves" / "bench.yaml").write_text(PLAIN, "utf-8")
    where = Where(folder, folder.parent / "out")
    build(where)
    return where


@pytest.fixture
def where(made: Where, tmp_path: Path) -> Iterator[Where]:
    """The book under the name it was first built by, with a store of the test's own; its files are put back."""
    first = {path: path.read_bytes() for path in made.folder.rglob("*.yaml")}
    shutil.copytree(made.out, tmp_path / "out")
    yield Where(made.folder, tmp_path / "out")
    for path, content in first.items():
        path.write_bytes(content)


def change(where: Where, file: str, old: str, new: str) -> Report:
    path = where.folder / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")
    return build(where)


def reasons(report: Report) -> dict[str, tuple[str, str]]:
    return {cause.name: (cause.written, cause.engraved) for cause in report.causes}


def test_nothing_changed_writes_and_engraves_nothing_and_leaves_the_file(where: Where) -> None:
    before = where.book.stat()
    report = build(where)
    assert (report.written, report.fresh) == ((), ())
    after = where.book.stat()
    assert (after.st_ino, after.st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_a_stroke_makes_one_chapter_again(where: Where) -> None:
    report = change(where, "grooves/bench.yaml", "x-x-x-x-", "x-x-x-xx")
    assert set(report.fresh) & CHAPTERS == {"bench"} == set(report.written) & CHAPTERS
    assert reasons(report)["bench"] == ("its file changed", "its text changed")
    assert reasons(report)["planks"] == ("", "")


def test_what_the_pages_around_are_not_told_writes_and_binds_nothing_but_the_chapter(
    where: Where, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[Path] = []
    monkeypatch.setattr(bindery, "cuttings", lambda pdf: read.append(pdf) or cuttings(pdf))
    report = change(where, "grooves/bench.yaml", "tempo: 90", "tempo: 90\ntext: Sit still.")
    assert report.written == report.fresh == ("bench",)
    assert len(read) == 1


def test_of_the_pages_around_those_are_written_again_that_are_told_what_has_changed(where: Where) -> None:
    report = change(where, "grooves/bench.yaml", "tempo: 90", "tempo: 92")
    assert reasons(report)["book/contents"] == ('chapter "bench" changed', "its text changed")
    assert not {"book/log", "book/cautions", "book/title", "book/rights"} & set(report.written)


def test_an_index_whose_numbers_stay_is_engraved_once_beside_the_chapter(
    where: Where, monkeypatch: pytest.MonkeyPatch
) -> None:
    run: list[str] = []
    engrave, likely = Crew.run, Texts.likely_indexes
    guessed: list[str] = []

    def watched(self: Texts, book: BookDefinition, made: Sequence[Manuscript]) -> Iterator[tuple[str, str]]:
        for name, text in likely(self, book, made):
            guessed.append(text)
            yield name, text

    monkeypatch.setattr(Crew, "run", lambda self, text: run.append(text) or engrave(self, text))
    monkeypatch.setattr(Texts, "likely_indexes", watched)
    report = change(where, "grooves/bench.yaml", "title: Plain Bench", "title: Plain Seat")
    assert "book/index" in report.fresh and len(guessed) == 1
    assert guessed[0] in run and len(run) == len(report.fresh)


PAGE = "  Sit still and count aloud.\\n\\n" * 60


@pytest.mark.parametrize(
    ("old", "new"),
    [("x-x-x-x-", "x-x-x-xx"), ("tempo: 90", f'tempo: 90\ntext: "{PAGE}"')],
    ids=["a stroke", "so long a text that all pages behind it are called otherwise"],
)
def test_a_book_that_was_changed_is_the_same_as_one_that_was_always_so(where: Where, old: str, new: str) -> None:
    report = change(where, "grooves/bench.yaml", old, new)
    assert reasons(report)["book/index"][1] == "its text changed"
    fresh = Where(where.folder, where.out.parent / "elsewhere")
    build(fresh)
    assert where.book.read_bytes() == fresh.book.read_bytes()


def test_a_remark_in_a_groove_is_read_and_engraves_nothing(where: Where) -> None:
    report = change(where, "grooves/bench.yaml", "tempo: 90", "tempo: 90 # not too fast")
    assert report.fresh == ()
    assert reasons(report)["bench"] == ("its file changed", "")


@pytest.mark.parametrize(
    ("row", "touched", "told"),
    [
        ("kit: {cross-stick: {head: diamond}}", {"bench"}, '"kit cross-stick" changed'),
        ("kit: {bass drum: {head: diamond}}", {"planks"}, '"kit bass drum" changed'),
        ("kit: {splash: {head: diamond}}", set(), ""),
        ("staff size: 20", CHAPTERS, '"staff size" changed'),
        ("words: {practice log: Diary}", set(), ""),
        ("words: {the whole groove: All of it}", {"bench", "planks"}, '"word the whole groove" changed'),
    ],
)
def test_a_row_of_the_style_makes_again_the_chapters_that_read_it(
    where: Where, row: str, touched: set[str], told: str
) -> None:
    report = change(where, "style.yaml", "ghosts: parentheses", f"ghosts: parentheses\n{row}")
    assert set(report.written) & CHAPTERS == touched == set(report.fresh) & CHAPTERS
    assert {reasons(report)[name][0] for name in touched} == ({told} if told else set())


def test_another_order_makes_no_chapter_again(where: Where) -> None:
    report = change(where, "book.yaml", "[planks, bench]", "[bench, planks]")
    assert not set(report.written) & CHAPTERS and not set(report.fresh) & CHAPTERS
    assert "the order of the chapters" in reasons(report)["book/contents"][0]


def test_what_book_yaml_says_makes_no_chapter_again(where: Where) -> None:
    report = change(where, "book.yaml", "title: Songs", "title: More Songs")
    assert not set(report.written) & CHAPTERS
    assert reasons(report)["book/title"][1] == "its text changed"


def test_a_changed_template_makes_the_texts_again(where: Where, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("engraver.manuscript.texts.templates", lambda design: "another")
    report = build(where)
    assert reasons(report)["bench"] == ("the design's templates changed", "")


def test_a_changed_program_makes_the_texts_again(where: Where, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("engraver.manuscript.texts.program", lambda: "another")
    assert reasons(build(where))["planks"] == ("the program changed", "")


def test_going_back_finds_what_was_there_before(where: Where) -> None:
    change(where, "style.yaml", "ghosts: parentheses", "staff size: 20")
    report = change(where, "style.yaml", "staff size: 20", "ghosts: parentheses")
    assert (report.written, report.fresh) == ((), ())


def test_damaged_entries_are_noticed_and_made_again(where: Where) -> None:
    before = where.book.read_bytes()
    for path in (where.store / "texts").rglob("*"):
        if path.is_file():
            content = bytearray(path.read_bytes())
            content[len(content) // 2] ^= 1
            path.write_bytes(content)
    report = build(where)
    assert set(report.written) >= CHAPTERS and report.fresh == ()
    assert where.book.read_bytes() == before
    assert build(where).written == ()


def test_a_book_that_was_altered_is_bound_again(where: Where) -> None:
    before = where.book.read_bytes()
    where.book.write_bytes(before + b"%")
    build(where)
    assert where.book.read_bytes() == before


def test_two_builds_at_once_make_the_same_book(where: Where, tmp_path: Path) -> None:
    before = where.book.read_bytes()
    shutil.rmtree(where.store)
    command = [sys.executable, "-m", "engraver", "build", str(where.folder), "--out", str(where.out)]
    both = [subprocess.Popen(command, stdout=subprocess.DEVNULL, env=os.environ) for _ in range(2)]
    assert [process.wait(timeout=300) for process in both] == [0, 0]
    assert where.book.read_bytes() == before
    assert build(where).written == ()


# ------------------------------------------------------------------ what a build that changes nothing does without
HEAVY = (
    "jinja2",
    "pypdf",
    "markdown_it",
    "ly",
    "mido",
    "rich.progress",
    "engraver.analysis.cells",
    "engraver.lilypond",
)


def test_nothing_heavy_is_loaded_where_nothing_is_made(where: Where) -> None:
    script = f"""
import sys
sys.argv = ["engraver", "build", {str(where.folder)!r}, "--out", {str(where.out)!r}]
from engraver.cli import main
main()
print(sorted(name for name in {HEAVY!r} if name in sys.modules))
"""
    ended = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert ended.stdout.splitlines()[-1] == "[]"
