"""Where the files go, when they are written, and the command that writes them."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import mido
import pytest

from engraver import cli, definition
from engraver.export import Click, in_folders, midi_files, write_files
from engraver.file_name import slug
from engraver.manuscript.planning import plan_book
from engraver.starter import copy_starter
from engraver.style import Style


@pytest.mark.parametrize(
    ("title", "expected"),
    [
        ("Slate Stairs", "slate-stairs"),
        ("Bar 4: in & out", "bar-4-in-out"),
        ("Grüne Stufe", "grune-stufe"),
        ("Die Füße: ÆØŁ", "die-fusse-aeol"),
        ("../../etc", "etc"),
        ("CON.", "con"),
        ("a" * 300, "a" * 60),
    ],
)
def test_names_are_safe_on_every_file_system(title: str, expected: str) -> None:
    assert slug(title) == expected


def test_titles_without_a_letter_that_can_be_spelled_are_told_apart() -> None:
    one, other = slug("梯"), slug("路")
    assert one != other and one == slug("梯")
    assert one.startswith("untitled-") and one.isascii()


def test_chapters_whose_names_come_out_alike_keep_their_own_folders() -> None:
    files = in_folders({"a b": {"00-one.mid": b"1"}, "a-b": {"00-one.mid": b"2"}, "A_b": {"00-one.mid": b"3"}})
    assert files == {"a-b/00-one.mid": b"1", "a-b-2/00-one.mid": b"2", "a-b-3/00-one.mid": b"3"}


def test_only_what_differs_is_written_and_what_is_gone_is_deleted(tmp_path: Path) -> None:
    first = {"one/00-a.mid": b"a", "one/01-b.mid": b"b"}
    assert write_files(tmp_path, first) == ("one/00-a.mid", "one/01-b.mid")
    (tmp_path / "one" / "notes.txt").write_text("the author's own", "utf-8")
    os.utime(tmp_path / "one" / "00-a.mid", (1, 1))
    assert write_files(tmp_path, {"one/00-a.mid": b"a", "one/02-c.mid": b"c"}) == ("one/02-c.mid",)
    assert (tmp_path / "one" / "00-a.mid").stat().st_mtime == 1
    assert sorted(file.name for file in (tmp_path / "one").iterdir()) == ["00-a.mid", "02-c.mid", "notes.txt"]
    assert write_files(tmp_path, {}) == ()
    assert [file.name for file in (tmp_path / "one").iterdir()] == ["notes.txt"]


PRINT = """
import hashlib, sys
from pathlib import Path
from engraver import definition
from engraver.export import Click
from engraver.manuscript.planning import plan_book
from engraver.manuscript.playing import play_book
book = definition.read(Path(sys.argv[1]))
files = play_book(plan_book(book), book.style, Click.CELL)
print(hashlib.sha256(repr(sorted(files.items())).encode()).hexdigest())
"""


def test_two_runs_make_the_same_bytes(tmp_path: Path) -> None:
    copy_starter(tmp_path / "songs")
    prints = {
        subprocess.run(
            [sys.executable, "-c", PRINT, str(tmp_path / "songs")],
            capture_output=True, text=True, check=True, env=os.environ | {"PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2")
    }  # fmt: skip
    assert len(prints) == 1 and len(prints.pop().strip()) == len(hashlib.sha256().hexdigest())


def call(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> int:
    monkeypatch.setattr(sys, "argv", ["engraver", *arguments])
    try:
        cli.main()
    except SystemExit as ended:
        return int(ended.code or 0)
    return 0


def test_build_writes_a_file_for_the_groove_and_every_exercise_if_told_to(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    copy_starter(Path("songs"))
    assert call(monkeypatch, "build", "songs") == 0
    assert not Path("build/midi").exists()
    assert call(monkeypatch, "build", "songs", "--midi", "--click", "beat") == 0
    made = plan_book(definition.read(Path("songs")))
    files = sorted(Path("build/midi/songs").rglob("*.mid"))
    assert len(files) == sum(1 + len(chapter.plan.exercises) for chapter in made)
    assert f"build/midi/songs: {len(files)} MIDI files" in capsys.readouterr().out
    assert {file.name[:2] for file in files} == {f"{n:02}" for n in range(len(files))}
    assert all(len(mido.MidiFile(file).tracks) == 3 for file in files)


def test_there_can_be_a_file_for_every_tempo_of_an_exercise(tmp_path: Path) -> None:
    copy_starter(tmp_path / "songs")
    [chapter, *_] = plan_book(definition.read(tmp_path / "songs"))
    files = midi_files(chapter.plan, Style(), every_tempo=True)
    exercise = chapter.plan.exercises[-1]
    number = f"{len(chapter.plan.exercises):02}"
    mine = {name: content for name, content in files.items() if name.startswith(number)}
    assert [int(name[-7:-4]) for name in mine] == list(exercise.tempi)
    for bpm, content in zip(exercise.tempi, mine.values(), strict=True):
        conductor = mido.MidiFile(file=BytesIO(content)).tracks[0]
        assert [m.tempo for m in conductor if m.type == "set_tempo"] == [round(60_000_000 / bpm)]
        assert [m.text for m in conductor if m.type == "text"] == [f"quarter = {bpm}"]
    assert len(files) == 1 + sum(len(each.tempi) for each in chapter.plan.exercises)


def test_a_groove_that_no_file_can_hold_is_told_at_its_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    copy_starter(tmp_path / "songs")
    file = next((tmp_path / "songs" / "grooves").iterdir())
    lines = file.read_text("utf-8").splitlines()
    slow = ["tempo: {beat: thirty-second, bpm: 20}" if line.startswith("tempo:") else line for line in lines]
    file.write_text("\n".join(slow) + "\n", "utf-8")
    code = call(monkeypatch, "build", str(tmp_path / "songs"), "--midi", "--out", str(tmp_path / "out"))
    said = capsys.readouterr().err
    assert code == 1
    line = next(number for number, text in enumerate(slow, 1) if text.startswith("title:"))
    assert f"{file}:{line}:1: " in said and "slower than a MIDI file can say" in said


def test_a_click_without_files_is_a_wrong_call(monkeypatch: pytest.MonkeyPatch) -> None:
    assert call(monkeypatch, "build", "nowhere", "--click", Click.BEAT.value) == 2
