"""A chapter that is engraved in parts is one chapter of the book: in its heads, its numbers, and what is told of it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from pypdf import PdfReader

from engraver.build import Report, build
from engraver.lilypond import passage
from engraver.lilypond.source import Source
from engraver.making.where import Where
from engraver.manuscript.texts import opened_texts
from tests.bench.generated_books import LONG, write_book


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Where, Report]:
    """A book of a short chapter and a long one."""
    home = tmp_path_factory.mktemp("long")
    where = Where(write_book(home / "songs", 1, long=16), home / "out")
    return where, build(where)


@pytest.fixture
def where(made: tuple[Where, Report], tmp_path: Path) -> Iterator[Where]:
    """The book with a store of the test's own; the long groove is put back."""
    folder, groove = made[0].folder, made[0].folder / "grooves" / f"{LONG}.yaml"
    first = groove.read_bytes()
    shutil.copytree(made[0].out, tmp_path / "out")
    yield Where(folder, tmp_path / "out")
    groove.write_bytes(first)


def texts(where: Where) -> tuple[str, ...]:
    """Of the long chapter."""
    with opened_texts(where.store / "texts", where.name) as opened:
        *_, long = opened.manuscripts(opened.read(where.folder))
    return long.texts


def change_the_last_fill(where: Where) -> None:
    file = where.folder / "grooves" / f"{LONG}.yaml"
    head, fill = file.read_text("utf-8").rsplit("tom: ", 1)
    mark = fill[3]
    file.write_text(f"{head}tom: {fill[:3]}{'x' if mark == 'X' else 'X'}{fill[4:]}", "utf-8")


def test_it_is_told_of_once(made: tuple[Where, Report]) -> None:
    where, report = made
    assert len(texts(where)) > 2
    assert [name for name in report.fresh if not name.startswith("book/")] == ["groove-001", LONG]
    assert {fill.of for fill in report.fills if not fill.of.startswith("book/")} == {"groove-001", LONG}


def test_its_pages_wear_its_head_and_are_numbered_through(made: tuple[Where, Report]) -> None:
    reader = PdfReader(made[0].book)
    printed = [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(made[0].book)]
    first, after = (reader.get_destination_page_number(mark) for mark in exercises_and_what_follows(reader))
    assert after - first > 10
    assert all("Long Wall of 16 Bars · Exercises" in " ".join(text.split()) for text in printed[first + 1 : after])
    numbers = [int(label) for label in reader.page_labels[first:after]]
    assert numbers == list(range(numbers[0], numbers[0] + after - first))


def exercises_and_what_follows(reader: PdfReader) -> tuple[Any, Any]:
    """The last mark below the last chapter, and the one after the chapter."""
    outline = reader.outline
    below = max(index for index, mark in enumerate(outline) if isinstance(mark, list))
    assert outline[below - 1]["/Title"] == "2 Long Wall of 16 Bars"
    return outline[below][-1], outline[below + 1]


def test_a_stroke_engraves_the_parts_that_it_changes_and_gives_the_book_that_is_made_from_nothing(
    where: Where, tmp_path: Path
) -> None:
    before = set(texts(where))
    change_the_last_fill(where)
    report = build(where)
    after = set(texts(where))
    assert before & after and before != after
    assert LONG in report.fresh
    anew = Where(where.folder, tmp_path / "anew")
    build(anew)
    assert where.book.read_bytes() == anew.book.read_bytes()


def test_a_copy_of_a_part_that_is_gone_is_laid_out_again(where: Where) -> None:
    build(where, sources=True)
    copies = sorted((where.sources / LONG).glob("*.ly"))
    assert len(copies) == len(texts(where)) - 1
    copies[-1].unlink()
    assert build(where, sources=True).written == ()
    assert sorted((where.sources / LONG).glob("*.ly")) == copies


def test_a_complaint_about_a_later_part_leads_to_the_authors_line(
    where: Where, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = passage.staff_text
    damaged = []

    def one_bar_too_long(score: Any, staff: Any) -> Source:
        text = whole(score, staff)
        found = next((line for line in text.split("\n") if ", bar 2, lower voice, " in line), "")
        if staff.part != "exercise 40" or not found:
            return text
        damaged.append(found)
        return Source(text.replace(found, found.replace("bassDrum", "r8 bassDrum", 1)))

    monkeypatch.setattr(passage, "staff_text", one_bar_too_long)
    shutil.rmtree(where.store)
    told = {problem for problem in build(where).warnings if "barcheck failed" in problem.message}
    (place,) = {problem.position for problem in told}
    assert damaged and all(problem.message.startswith("exercise 40, bar 2, lower voice: ") for problem in told)
    assert place and "cycle: x--x-" in place.path.read_text("utf-8").splitlines()[place.line - 1]
