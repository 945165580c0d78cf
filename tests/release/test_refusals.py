"""What keeps a book from being sold is told, and nothing is made."""

from __future__ import annotations

import re
from pathlib import Path

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
from tests.release.sold import BUYERS, engraver, two_chapters


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
    damaged = lambda *arguments: Source(whole(*arguments).replace("snareAccent", "bassDrum", 1))  # noqa: E731
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
