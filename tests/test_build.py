"""A build that fails leaves the last good book in place and says what happened; what LilyPond says is told in the
author's own places.
"""

from __future__ import annotations

import errno
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from engraver import build, definition, lilypond
from engraver.binding import writing
from engraver.engraving import Engine
from engraver.errors import DefinitionError, EngraverError, EngravingError, Problem
from engraver.lilypond import passage
from engraver.lilypond.source import Source
from engraver.making.where import Where
from engraver.manuscript.planning import plan_book

GROOVE = """\
title: Loose Gravel
meter: 4/4
tempo: 80
step: eighth
bars: 3
layers:
  - name: Hands
    role: meter
    strokes:
      ride: "x-x-x-x-"
      snare:
        bars 1-2: "--X---X-"
        bar 3: "--X---xx"
  - name: Feet
    strokes:
      bass drum: {cycle: "x--"}
cells: {length: 3}
"""
TRIPLETS = """\
title: Loose Sand
tempo: 80
step: eighth triplet
bars: 2
layers:
  - name: Backbeat
    role: meter
    strokes:
      snare: "--- X-- --- X--"
  - name: Fives
    strokes:
      bass drum: {cycle: "x----"}
      ride:
        cycle: "x-x--"
cells: {length: 5}
"""


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Engraved pages that the tests of this file share."""
    return tmp_path_factory.mktemp("build")


@pytest.fixture
def where(store: Path, tmp_path: Path) -> Where:
    """A book that was made, in a folder of its own name."""
    folder = tmp_path / f"gravel-{tmp_path.name}"
    (folder / "grooves").mkdir(parents=True)
    (folder / "book.yaml").write_text("title: Gravel\ndate: 2026-01-31\n", "utf-8")
    (folder / "grooves" / "gravel.yaml").write_text(GROOVE, "utf-8")
    made = Where(folder, store)
    build.build(made)
    return made


@pytest.fixture
def last(where: Where) -> Iterator[Callable[[], None]]:
    """A book that will be another when it is built again, and what looks whether it is still the last one."""
    before = where.book.read_bytes()
    (where.folder / "book.yaml").write_text("title: Coarser Gravel\ndate: 2026-01-31\n", "utf-8")

    def still_there() -> None:
        assert where.book.read_bytes() == before
        assert [path.name for path in where.out.glob(".*.part")] == []

    yield still_there
    build.build(where)  # when the trouble is over the next book is made
    assert PdfReader(where.book).metadata.title == "Coarser Gravel"  # type: ignore[union-attr]


def refused(where: Where) -> EngraverError:
    with pytest.raises(EngraverError) as caught:
        build.build(where)
    return caught.value


def rewrite(where: Where, adjective: str) -> None:
    """A title that no other test uses, so that the chapter has to be engraved."""
    (where.folder / "grooves" / "gravel.yaml").write_text(GROOVE.replace("Loose", adjective), "utf-8")


def full(*_: object, **__: object) -> Any:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


# ------------------------------------------------------------------ the last good book stays
@pytest.mark.parametrize("call", ["replace", "fsync"])
def test_a_disk_that_is_full_when_the_book_is_written(
    where: Where, last: Callable[[], None], monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    with monkeypatch.context() as patched:
        patched.setattr(*((Path, "replace") if call == "replace" else (writing.os, "fsync")), full)
        error = refused(where)
    assert isinstance(error, EngravingError)
    assert error.problems == (
        Problem(None, f'"{where.book}" could not be written: No space left on device', "the last book is untouched"),
    )
    last()


def test_a_disk_that_is_full_when_pages_are_engraved(
    where: Where, last: Callable[[], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    rewrite(where, "Sticky")
    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_text", full)
        error = refused(where)
    assert isinstance(error, EngravingError) and "No space left on device" in str(error)
    last()


def test_a_disk_that_is_full_when_copies_of_the_sources_are_laid_out(
    where: Where, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The book is made by then."""
    rewrite(where, "Coarse")
    write = Path.write_text
    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_text", lambda path, *a: full() if path.suffix == ".ly" else write(path, *a))
        with pytest.raises(EngraverError) as caught:
            build.build(where, sources=True)
    error = caught.value
    assert isinstance(error, EngravingError)
    assert str(error).startswith(f'"{where.sources / "gravel.ly"}" could not be written: No space left on device')
    assert "Coarse Gravel" in "".join(page.extract_text() for page in PdfReader(where.book).pages)


def test_a_limit_of_the_system_on_the_size_of_files(where: Where, last: Callable[[], None]) -> None:
    """A write that really fails, in a process of its own: no file may be larger than half the book."""
    half = where.book.stat().st_size // 2 // 1024
    command = f'ulimit -f {half}; exec "$0" -m engraver build "$1" --out "$2"'
    arguments = ["bash", "-c", command, sys.executable, str(where.folder), str(where.out)]
    ended = subprocess.run(arguments, capture_output=True, text=True, timeout=120)
    assert ended.returncode == 3, ended.stdout + ended.stderr
    assert "File too large" in ended.stderr or "could not be engraved" in ended.stderr
    assert "Traceback" not in ended.stderr
    last()


def test_a_lilypond_that_is_killed(where: Where, last: Callable[[], None], tmp_path: Path) -> None:
    real = Engine.find().path
    killed = tmp_path / "lilypond"
    killed.write_text(f'#!/bin/sh\n[ "$1" = --version ] && exec "{real}" --version\nkill -9 $$\n', "utf-8")
    killed.chmod(0o755)
    rewrite(where, "Sharp")
    error = refused(Where(where.folder, where.out, engine=str(killed)))
    assert isinstance(error, EngravingError)
    [mine, *rest] = error.problems
    assert mine.message == "gravel could not be engraved: LilyPond was killed by signal 9 (Killed)"
    assert mine.position and mine.position.path == where.folder / "grooves" / "gravel.yaml"
    assert all("could not be engraved: LilyPond was killed by signal 9" in problem.message for problem in rest)
    last()


def test_a_groove_file_that_is_missing(where: Where, last: Callable[[], None]) -> None:
    book = where.folder / "book.yaml"
    whole = book.read_text("utf-8")
    book.write_text(whole + "chapters: [gravel, sand]\n", "utf-8")
    error = refused(where)
    assert isinstance(error, DefinitionError)
    assert str(error).startswith(f'{book}:3:20: there is no groove "sand"')
    book.write_text(whole, "utf-8")
    last()


def test_a_fault_in_one_groove(where: Where, last: Callable[[], None]) -> None:
    groove = where.folder / "grooves" / "gravel.yaml"
    groove.write_text(GROOVE.replace("x-x-x-x-", "x-x-x-"), "utf-8")
    assert str(refused(where)).startswith(f"{groove}:10:13: 6 steps found")
    groove.write_text(GROOVE, "utf-8")
    last()


def test_a_build_that_is_stopped_while_it_writes(
    where: Where, last: Callable[[], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(_: int) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(writing.os, "fsync", stopped)
        with pytest.raises(KeyboardInterrupt):
            build.build(where)
    last()


# ------------------------------------------------------------------ what LilyPond says, in the author's places
Damage = Callable[[str, str, str], None]


def forget(where: Where) -> None:
    """Texts that are remembered are not written, so not damaged either."""
    shutil.rmtree(where.store / "texts")


@pytest.fixture
def damage(where: Where, monkeypatch: pytest.MonkeyPatch) -> Damage:
    """Changes one line of the music of one passage, known by the end of its comment."""

    def damage(where_from: str, old: str, new: str) -> None:
        forget(where)
        whole = passage.staff_text
        done = []

        def damaged(score: Any, staff: Any) -> Source:
            lines = whole(score, staff).split("\n")
            for index, line in enumerate(lines):
                if line.endswith(where_from):
                    assert old in line, line
                    lines[index] = line.replace(old, new, 1)
                    done.append(line)
            return Source("\n".join(lines))

        monkeypatch.setattr(passage, "staff_text", damaged)

    return damage


def only_warning(where: Where) -> tuple[int, str]:
    """The author's line, and what is said."""
    warnings = build.build(where).warnings
    assert {problem.position.path.name for problem in warnings if problem.position} == {"gravel.yaml"}
    [found] = {(problem.position.line, problem.message) for problem in warnings if problem.position}
    return found


PLACES = [
    ("bar 2, upper voice", "1 to 2", "ride4", "ride8", '      ride: "x-x-x-x-"'),
    ("bar 3, upper voice", "2 to 3", "ride4", "ride8", '      ride: "x-x-x-x-"'),
    ("bar 1, lower voice", "0 to 1", "bassDrum", "r8 bassDrum", '      bass drum: {cycle: "x--"}'),
    ("bar 2, lower voice", "1 to 2", "bassDrum", "r8 bassDrum", '      bass drum: {cycle: "x--"}'),
]


@pytest.mark.parametrize(("bar", "times", "old", "new", "pattern"), PLACES)
def test_a_bar_that_does_not_add_up_is_told_with_the_pattern_that_wrote_it(
    where: Where, damage: Damage, bar: str, times: str, old: str, new: str, pattern: str
) -> None:
    damage(f"the whole groove, {bar}, {times}", old, new)
    number, message = only_warning(where)
    assert message.startswith(f"the whole groove, {bar}: LilyPond says: barcheck failed")
    assert GROOVE.splitlines()[number - 1] == pattern


def test_a_line_of_the_respelled_view_leads_to_the_triplets_it_came_from(where: Where, damage: Damage) -> None:
    """Five triplet eighths are five eighths there: the second cell begins at 5/12 of the groove."""
    (where.folder / "grooves" / "gravel.yaml").write_text(TRIPLETS, "utf-8")
    text = plan_book(definition.read(where.folder))[0].source.staves["regrouped view"]
    second = next(line for line in text.split("\n") if ", bar 2, lower voice, " in line)
    assert second.endswith(("5/12 to 5/6", "5/6 to 5/3")), second
    damage(second[second.index("regrouped view") :], "bassDrum", "r8 bassDrum")
    number, message = only_warning(where)
    assert message.startswith("regrouped view, bar 2, lower voice: LilyPond says: barcheck failed")
    assert TRIPLETS.splitlines()[number - 1] == '      bass drum: {cycle: "x----"}'


@pytest.mark.parametrize(("bar", "told"), [("bar 0, upper voice", "the pickup"), ("bar 2, upper voice", "bar 2")])
def test_bars_are_counted_as_the_author_counts_them(where: Where, damage: Damage, bar: str, told: str) -> None:
    text = GROOVE.replace("bars: 3", "bars: 3\npickup: 2").replace('"x-x-x-x-"', '{pickup: "xx", bars 1-3: "x-x-x-x-"}')
    (where.folder / "grooves" / "gravel.yaml").write_text(text, "utf-8")
    music = plan_book(definition.read(where.folder))[0].source.staves["the whole groove"]
    line = next(line for line in music.split("\n") if f", {bar}, " in line)
    damage(line[line.index("the whole groove") :], "ride", "r8 ride")
    assert only_warning(where)[1].startswith(f"the whole groove, {told}, upper voice: LilyPond says: barcheck failed")


def test_what_lilypond_refuses_is_told_with_the_pattern_too(
    where: Where,
    damage: Damage,
    last: Callable[[], None],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    damage("the whole groove, bar 3, upper voice, 2 to 3", "ride4", "no4")
    error = refused(where)
    assert isinstance(error, EngravingError)
    first, second = error.problems[:2]
    assert first.message == "gravel could not be engraved: LilyPond ended with exit code 1"
    assert second.position and second.position.line == 10
    assert second.message == "the whole groove, bar 3, upper voice: LilyPond says: not a note name: no"
    monkeypatch.undo()
    forget(where)
    last()


def test_a_complaint_about_no_line_of_music_is_told_with_the_groove(
    where: Where, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = lilypond.chapter

    def warned(*arguments: Any) -> lilypond.ChapterSource:
        made = whole(*arguments)
        return replace(made, text=Source(f'{made.text}\n#(ly:warning "too much gravel")\n'))

    forget(where)
    monkeypatch.setattr(lilypond, "chapter", warned)
    number, message = only_warning(where)
    assert (number, message) == (1, "gravel: LilyPond says: warning: too much gravel")


def test_a_character_that_no_font_has_is_told_once_with_what_to_do(
    where: Where, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = lilypond.chapter

    def warned(*arguments: Any) -> lilypond.ChapterSource:
        made = whole(*arguments)
        said = "no glyph for character U+1F941 in font `/fonts/Sans.otf'"  # as LilyPond 2.24.3 says it of a title
        return replace(made, text=Source(f'{made.text}\n#(ly:warning "{said}")\n#(ly:warning "{said}")\n'))

    forget(where)
    monkeypatch.setattr(lilypond, "chapter", warned)
    number, message = only_warning(where)
    assert (number, message) == (1, "the fonts do not have \N{DRUM WITH DRUMSTICKS} (U+1F941)")
