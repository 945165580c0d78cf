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
        texts = ((chapter.name, part, text) for chapter in chapters for part, text in enumerate(chapter.texts))
        named = ((part_name(chapter, part), text, chapter in written) for chapter, part, text in texts)
        wanted = {name: text for name, text, is_new in named if is_new or not self._is_there(name)}
        if not wanted:
            return
        from engraver import lilypond  # python-ly is slow to load, and most builds change no text

        try:
            lilypond.lay_out(self._folder, wanted)
        except EngravingError as error:
            self._trouble = error

    def _is_there(self, name: str) -> bool:
        return (self._folder / f"{name}.ly").exists()

    def tell(self) -> None:
        """Raises EngravingError if a copy could not be written."""
        if self._trouble:
            raise self._trouble
