"""Copies of the texts for a person to read: chapters in, indented files in a folder out. Nothing is made of them."""

from __future__ import annotations

from collections.abc import Container, Iterable
from pathlib import Path

from engraver.errors import EngravingError
from engraver.manuscript.collation import part_name
from engraver.manuscript.manuscript import Manuscript


class Copies:
    """They are laid out while LilyPond works; what went wrong is told when the book is made."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._trouble: EngravingError | None = None

    def lay_out(self, chapters: Iterable[Manuscript], written: Container[str]) -> None:
        """Those that were ``written`` now, and those of which there is no copy."""
        wanted = {
            part_name(chapter.name, part): text
            for chapter in chapters
            if self._is_wanted(chapter.name, written)
            for part, text in enumerate(chapter.texts)
        }
        if not wanted:
            return
        from engraver import lilypond  # python-ly is slow to load, and most builds change no text

        try:
            lilypond.lay_out(self._folder, wanted)
        except EngravingError as error:
            self._trouble = error

    def _is_wanted(self, name: str, written: Container[str]) -> bool:
        return name in written or not (self._folder / f"{name}.ly").exists()

    def tell(self) -> None:
        """Raises EngravingError if a copy could not be written."""
        if self._trouble:
            raise self._trouble
