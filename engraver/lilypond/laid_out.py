"""Copies of the sources for a person to read, indented by python-ly. They are never engraved."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from engraver.errors import EngravingError, Problem


def lay_out(folder: Path, sources: Mapping[str, str]) -> None:
    """Write ``NAME.ly`` for each source whose copy is not there yet or is of another text. Raises EngravingError."""
    for name, text in sources.items():
        place = folder / f"{name}.ly"
        try:
            _lay_out(place, text)
        except OSError as error:
            message = f'"{place}" could not be written: {error.strerror or error}'
            raise EngravingError(Problem(None, message, "the book itself is made; this is a copy to read")) from error


def _lay_out(place: Path, text: str) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    stamp = place.with_name(f".{place.stem}.text")
    if not (place.exists() and stamp.exists() and stamp.read_text("utf-8") == text):
        place.write_text(laid_out(text), "utf-8")
        stamp.write_text(text, "utf-8")


def laid_out(text: str) -> str:
    """The same source, indented."""
    import ly.document  # slow to load, and seldom wanted
    import ly.indent
    import ly.reformat

    document = ly.document.Document(text)
    ly.reformat.reformat(ly.document.Cursor(document), ly.indent.Indenter())
    return str(document.plaintext())
