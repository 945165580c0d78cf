"""The command line: what a terminal shows, and exit codes that scripts can use."""

from __future__ import annotations

import json
import os
import pty
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import jsonschema
import pytest
from pypdf import PdfReader

from engraver import __version__, cli, lilypond
from engraver.cli import command_line
from engraver.lilypond import passage
from engraver.lilypond.source import Source
from engraver.starter import copy_starter


@dataclass(frozen=True)
class Ended:
    code: int
    out: str
    err: str


Run = Callable[..., Ended]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Run:
    """The program as its entry point starts it, in an empty folder."""
    monkeypatch.chdir(tmp_path)

    def run(*arguments: str) -> Ended:
        monkeypatch.setattr(sys, "argv", ["engraver", *arguments])
        try:
            cli.main()
            code = 0
        except SystemExit as ended:
            code = int(ended.code or 0)
        said = capsys.readouterr()
        return Ended(code, said.out, said.err)

    return run


@pytest.fixture
def songs(tmp_path: Path) -> Path:
    copy_starter(tmp_path / "songs")
    return tmp_path / "songs"


def program(path: Path, *lines: str) -> Path:
    """A program that can be named as the LilyPond to use."""
    path.write_text("\n".join(["#!/bin/sh", *lines, ""]), "utf-8")
    path.chmod(0o755)
    return path


# ------------------------------------------------------------------ help
def test_help_lists_every_command_with_what_it_is_for(run: Run) -> None:
    ended = run("--help")
    assert ended.code == 0
    told = dict(re.findall(r"^  (\w+) +(\w.*)$", ended.out.partition("Commands:")[2], re.MULTILINE))
    assert told.keys() == command_line.commands.commands.keys() >= {"build", "check", "new", "schema", "verify"}
    assert next(iter(told)) == "new", "what a newcomer needs first stands first"
    assert [line for line in told.values() if not line.endswith(".") or line.endswith("...")] == []


@pytest.mark.parametrize("command", sorted(command_line.commands.commands))
@pytest.mark.parametrize("flag", ["-h", "--help"])
def test_every_command_has_help(run: Run, command: str, flag: str) -> None:
    ended = run(command, flag)
    assert ended.code == 0
    assert ended.out.startswith(f"Usage: engraver {command}") or f" {command} " in ended.out.splitlines()[0]


@pytest.mark.parametrize("command", sorted(command_line.commands.commands))
def test_every_option_says_what_it_does(command: str) -> None:
    options = [
        option for option in command_line.commands.commands[command].params if option.param_type_name == "option"
    ]
    assert [option.name for option in options if not getattr(option, "help", "")] == []


# ------------------------------------------------------------------ 0: all is well
def test_a_new_book_can_be_built_at_once(run: Run, tmp_path: Path) -> None:
    made = run("new", "my-book")
    assert (made.code, made.out, made.err) == (0, "my-book is ready: engraver build my-book\n", "")
    assert run("check", "my-book") == Ended(0, "my-book: no faults in 1 groove\n", "")
    built = run("build", "my-book", "--explain")
    assert (built.code, built.err) == (0, "")
    pages = len(PdfReader(tmp_path / "build" / "my-book.pdf").pages)
    *explained, last = built.out.splitlines()
    assert last == f"build/my-book.pdf: {pages} pages, 1 chapter"
    assert explained[0].startswith("first-steps ")
    told = r"\S+ +text written: for the first time; engraved: for the first time| +\d+\.\d\d s  .+|pages? .*"
    assert all(re.fullmatch(told, line) for line in explained)
    again = run("build", "my-book", "--explain").out.splitlines()
    sources = [line for line in again if "text" in line]
    assert len(sources) > 4
    assert all(line.endswith("text remembered; pages from the store") for line in sources)
    assert lilypond_seconds(explained) > 10 * lilypond_seconds(again)  # the second time it is only asked its version


def lilypond_seconds(explained: list[str]) -> float:
    [said] = [line for line in explained if "LilyPond's" in line]
    return float(said.split()[-5])


def test_the_folder_one_stands_in_is_the_book_if_none_is_named(
    run: Run, songs: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(songs)
    assert run("check") == Ended(0, ".: no faults in 1 groove\n", "")


def test_verify_counts_what_it_went_through(run: Run, songs: Path) -> None:
    ended = run("verify", "songs")
    assert (ended.code, ended.err) == (0, "")
    found = re.fullmatch(r"songs: (\d+) strokes in (\d+) scores, none lost in sound or in ink\n", ended.out)
    # the whole groove alone has 3 bass drums and 6 rides a 9 eighths, 24 eighths in all, and 2 snares a bar
    assert found and int(found[1]) > 8 + 16 + 6 and int(found[2]) >= 3


@pytest.mark.parametrize("name", ["book", "style", "groove"])
def test_schema_prints_a_schema_that_the_starter_fits(run: Run, songs: Path, name: str) -> None:
    ended = run("schema", name)
    assert (ended.code, ended.err) == (0, "")
    schema = json.loads(ended.out)
    jsonschema.Draft202012Validator.check_schema(schema)
    assert not jsonschema.Draft202012Validator(schema).is_valid({"colour": "red"})


def test_version(run: Run) -> None:
    assert run("--version") == Ended(0, f"engraver {__version__}\n", "")


# ------------------------------------------------------------------ 1: the author's files have faults
def test_check_lists_all_faults_of_all_files_as_an_editor_can_read_them(run: Run, songs: Path) -> None:
    (songs / "book.yaml").write_text("title: Songs\ndate: 2026-02-30\ncolour: red\n", "utf-8")
    groove = songs / "grooves" / "first-steps.yaml"
    groove.write_text(groove.read_text("utf-8").replace("snare:", "snar:").replace("tempo: 84", "tempo: fast"), "utf-8")
    ended = run("check", "songs")
    assert (ended.code, ended.out) == (1, "")
    faults = ended.err.strip().split("\n\n")
    assert [fault.split(": ")[0] for fault in faults] == [
        "songs/book.yaml:2:7",
        "songs/book.yaml:3:1",
        "songs/grooves/first-steps.yaml:7:8",
        "songs/grooves/first-steps.yaml:15:7",
    ]
    for fault in faults:
        where, line, mark, *hint = fault.splitlines()
        _, number, column = where.split(": ")[0].split(":")
        assert line.startswith(f"{number:>5} | ")
        assert mark.index("^") == 8 + int(column) - 1
        assert hint and all(text.startswith("hint: ") for text in hint)


@pytest.mark.parametrize("command", ["build", "check", "verify"])
def test_a_folder_that_is_not_there(run: Run, tmp_path: Path, command: str) -> None:
    ended = run(command, "nowhere")
    assert (ended.code, ended.out) == (1, "")
    assert ended.err.startswith("there is no folder nowhere\nhint: ")
    assert not (tmp_path / "build").exists()


@pytest.mark.parametrize("command", ["build", "check", "verify"])
def test_what_cannot_be_written_is_told_with_its_file(run: Run, songs: Path, command: str) -> None:
    """Every groove of the book is told of, not only the first."""
    for name in ("one", "two"):
        (songs / "grooves" / f"{name}.yaml").write_text(NO_ROOM, "utf-8")
    (songs / "book.yaml").write_text("title: Songs\ndate: 2026-01-31\nchapters: [one, two]\n", "utf-8")
    ended = run(command, "songs")
    assert ended.code == 1
    assert [line for line in ended.err.splitlines() if ".yaml" in line] == [
        f'songs/grooves/{name}.yaml:1:1: "Two at Once", bar 1, beat 1: "snare" is struck again while its double still '
        "lasts"
        for name in ("one", "two")
    ]


NO_ROOM = """\
title: Two at Once
tempo: 80
layers:
  - {name: Double, step: quarter, strokes: {snare: "=---"}}
  - {name: Stroke, step: eighth, strokes: {snare: "-x-- ----"}}
"""


def test_new_leaves_a_folder_with_something_in_it_alone(run: Run, songs: Path) -> None:
    before = {path: path.read_bytes() for path in songs.rglob("*.yaml")}
    ended = run("new", "songs")
    assert (ended.code, ended.out) == (1, "")
    assert ended.err == '"songs" is there already and not empty\nhint: name a folder that is not there yet\n'
    assert {path: path.read_bytes() for path in songs.rglob("*.yaml")} == before


# ------------------------------------------------------------------ 2: called wrongly
@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["bild"], "No such command 'bild'"),
        (["build", "--colour"], "No such option '--colour'"),
        (["build", "--jobs", "0"], "Invalid value for '--jobs'"),
        (["build", "--jobs", "many"], "Invalid value for '--jobs': 'many' is not a number of jobs: write 1 to 64"),
        (["build", "--jobs", "0"], "'0' is not a number of jobs"),
        (["schema", "page"], "Invalid value for 'NAME'"),
        (["new"], "Missing argument 'FOLDER'"),
        (["check", "one", "two"], "Got unexpected extra argument"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_a_wrong_call_is_told_with_how_to_call(run: Run, arguments: list[str], said: str) -> None:
    ended = run(*arguments)
    assert (ended.code, ended.out) == (2, "")
    assert said.replace("'", "") in ended.err.replace("'", "")
    assert ended.err.startswith("Usage: ")


# ------------------------------------------------------------------ 3: engraving failed
def test_a_lilypond_that_fails_is_told_with_the_groove(run: Run, songs: Path, tmp_path: Path) -> None:
    fake = program(tmp_path / "fake", '[ "$1" = --version ] && echo "GNU LilyPond 2.24.3" && exit 0', "exit 1")
    ended = run("build", "songs", "--lilypond", str(fake))
    assert (ended.code, ended.out) == (3, "")
    assert "songs/grooves/first-steps.yaml:2:1: first-steps could not be engraved: LilyPond ended with exit code 1" in (
        ended.err
    )
    assert not (tmp_path / "build" / "songs.pdf").exists()


def test_a_place_that_cannot_be_written_to(run: Run, songs: Path, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file\n")
    ended = run("build", "songs", "--out", "taken/out")
    assert (ended.code, ended.out) == (3, "")
    assert "taken" in ended.err and "Traceback" not in ended.err


# ------------------------------------------------------------------ 4: a program is missing
def test_a_lilypond_that_is_none(run: Run, songs: Path, tmp_path: Path) -> None:
    other = program(tmp_path / "other", "echo I draw maps")
    old = program(tmp_path / "old", 'echo "GNU LilyPond 2.18.2"')
    for named, said in (
        ("nowhere/lilypond", '"nowhere/lilypond" is not a program that can be run'),
        (str(other), f"{other} is not LilyPond: it says 'I draw maps'"),
        (str(old), f"{old} is LilyPond 2.18.2; 2.24 or 2.25 is needed"),
    ):
        ended = run("build", "songs", "--lilypond", named)
        assert (ended.code, ended.out) == (4, "")
        assert ended.err.startswith(f"{said}\nhint: install the wheel")


def test_a_lilypond_may_be_named_in_the_environment(run: Run, songs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("ENGRAVER_LILYPOND", "no-such-lilypond")
    assert run("build", "songs").code == 4


def test_a_design_that_is_not_there_is_a_fault_of_the_style(run: Run, songs: Path) -> None:
    (songs / "style.yaml").write_text("design: workbok\n", "utf-8")
    ended = run("build", "songs")
    assert ended.code == 1
    assert ended.err.startswith("songs/style.yaml:1:9: ") and ended.err.endswith('hint: did you mean "workbook"?\n')


# ------------------------------------------------------------------ 5: something is lost
def test_verify_notices_a_stroke_that_is_not_in_the_score(
    run: Run, songs: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = passage.staff_text

    def damaged(*arguments: object) -> Source:
        return Source(whole(*arguments).replace("snareAccent", "bassDrum", 1))  # type: ignore[arg-type]

    monkeypatch.setattr(passage, "staff_text", damaged)
    ended = run("verify", "songs")
    assert (ended.code, ended.out) == (5, "")
    assert ended.err.startswith("songs/grooves/first-steps.yaml:2:1: ")
    assert "bar 1" in ended.err and "snare" in ended.err


# ------------------------------------------------------------------ on a terminal and off it
def test_nothing_but_the_result_is_said_off_a_terminal(songs: Path, tmp_path: Path) -> None:
    ended = subprocess.run(
        [sys.executable, "-m", "engraver", "build", "songs"], cwd=tmp_path, capture_output=True, text=True, timeout=120
    )
    assert (ended.returncode, ended.stderr) == (0, "")
    assert re.fullmatch(r"build/songs\.pdf: \d+ pages, 1 chapter\n", ended.stdout)


def test_a_terminal_shows_how_far_the_work_is(songs: Path, tmp_path: Path) -> None:
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "engraver", "build", "songs"],
        cwd=tmp_path,
        env={**os.environ, "TERM": "xterm", "COLUMNS": "100"},
        stdout=subprocess.PIPE,
        stderr=theirs,
    )
    os.close(theirs)
    shown = b""
    while True:
        try:
            shown += os.read(ours, 4096)
        except OSError:  # Linux says so when the other end is closed
            break
    os.close(ours)
    assert process.wait(timeout=60) == 0
    assert process.stdout and b"songs.pdf" in process.stdout.read()
    assert re.search(rb"engraving.*\d/\d", shown)


def test_ctrl_c_while_the_program_is_loaded_shows_no_traceback() -> None:
    """A finder that is asked for the commands stands for the hand on the keys."""
    pressed = """
import sys
from engraver.cli import main

class Finder:
    def find_spec(self, name, path, target=None):
        if name == "engraver.cli.command_line":
            raise KeyboardInterrupt

sys.meta_path.insert(0, Finder())
main()
"""
    ended = subprocess.run([sys.executable, "-c", pressed], capture_output=True, text=True)
    assert (ended.returncode, ended.stdout, ended.stderr) == (130, "", "")


def test_ctrl_c_is_told_in_words(run: Run, songs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(lilypond, "chapter", interrupted)
    ended = run("build", "songs")
    assert ended.code == 130
    assert ended.err.strip().startswith("stopped; a book that was made before is still there\nhint: ")
