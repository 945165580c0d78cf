"""Which LilyPond is taken, and what is said if there is none that will do."""

from __future__ import annotations

import re
from importlib.metadata import version

import pytest

from engraver.engraving import Engine
from engraver.errors import MissingTool


def program(folder, says):
    path = folder / "lilypond"
    path.write_text(f"#!/bin/sh\necho '{says}'\n")
    path.chmod(0o755)
    return path


def test_the_wheel_is_taken_if_nothing_is_named(monkeypatch):
    monkeypatch.delenv("ENGRAVER_LILYPOND", raising=False)
    engine = Engine.find()
    assert engine.version == version("lilypond")  # what the package says of itself
    assert engine.path.is_absolute()


def test_a_name_comes_before_the_variable(monkeypatch, tmp_path):
    (tmp_path / "one").mkdir()
    (tmp_path / "two").mkdir()
    monkeypatch.setenv("ENGRAVER_LILYPOND", str(program(tmp_path / "one", "GNU LilyPond 2.24.1")))
    assert Engine.find().version == "2.24.1"
    assert Engine.find(str(program(tmp_path / "two", "GNU LilyPond 2.25.9 (running Guile 3.0)"))).version == "2.25.9"


def test_a_command_is_looked_up(monkeypatch, tmp_path):
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    path = program(tmp_path, "GNU LilyPond 2.24.4")
    assert Engine.find("lilypond") == Engine(path, "2.24.4")


def test_a_program_of_the_current_folder_can_be_named(monkeypatch, tmp_path):
    program(tmp_path, "GNU LilyPond 2.24.4")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PATH", "/usr/bin:/bin")
    assert Engine.find("./lilypond").version == "2.24.4"


HINT = "hint: install the wheel with `pip install lilypond==2.24.3`, or name another one in $ENGRAVER_LILYPOND"
REFUSED = {
    "too old": ("GNU LilyPond 2.22.2", "{path} is LilyPond 2.22.2; 2.24 or 2.25 is needed"),
    "too new": ("GNU LilyPond 3.0.0", "{path} is LilyPond 3.0.0; 2.24 or 2.25 is needed"),
    "something else": ("hello", "{path} is not LilyPond: it says 'hello'"),
    "silent": ("", "{path} is not LilyPond: it says nothing"),
}


@pytest.mark.parametrize(("says", "message"), REFUSED.values(), ids=REFUSED)
def test_what_is_not_a_known_lilypond_is_refused(tmp_path, says, message):
    path = program(tmp_path, says)
    with pytest.raises(MissingTool, match=re.escape(f"{message.format(path=path)}\n{HINT}")):
        Engine.find(str(path))


def test_what_cannot_be_run_is_refused():
    with pytest.raises(MissingTool, match='"no-such-program" is not a program that can be run'):
        Engine.find("no-such-program")
