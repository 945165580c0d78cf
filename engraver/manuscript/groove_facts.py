"""The facts of one groove: the path of its file in; what it is made of out, for a person and for a program."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from engraver import analysis, definition
from engraver.chapters.fact_sheet import fact_sheet
from engraver.chapters.ladder import ladder
from engraver.chapters.ladder_sheet import ladder_object
from engraver.errors import DefinitionError, Position, Problem
from engraver.manuscript.planning import read_facts
from engraver.style import Style


@dataclass(frozen=True, slots=True)
class GrooveFacts:
    """``sheet`` is for a person, ``plain`` for a program."""

    sheet: str
    plain: Mapping[str, object]


def facts(path: Path) -> GrooveFacts:
    """Of one groove file. If it lies in the folder grooves of a book, the book's style.yaml says what the kit is.

    A folder stands for the one groove in it. Raises DefinitionError.
    """
    file = _only_groove(path) if path.is_dir() else path
    home = file.absolute().parent
    style = definition.read_style(home.parent) if home.name == "grooves" else Style()
    written = definition.read_groove(file, style)
    groove, found = read_facts(written, style)
    steps = ladder(written, groove, found, style.kit, style.say).exercises
    sheet = fact_sheet(groove, found, style.say, steps)
    return GrooveFacts(sheet, {**analysis.facts_object(groove, found), "exercises": ladder_object(steps)})


def _only_groove(path: Path) -> Path:
    """Of a book's folder, or of a folder of grooves."""
    home = path / "grooves" if (path / "grooves").is_dir() else path
    files = sorted(home.glob("*.yaml"))
    if len(files) != 1 or files[0].name in ("book.yaml", "style.yaml"):
        hint = f"name one file, such as {files[0]}" if len(files) > 1 else "name the file of a groove"
        raise DefinitionError(Problem(Position(path, 1, 1), "facts are those of one groove, not of a folder", hint))
    return files[0]
