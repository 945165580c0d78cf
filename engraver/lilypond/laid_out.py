"""Copies of the sources for a person to read, indented by python-ly. They are never engraved."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import ly.document
import ly.indent
import ly.reformat


def lay_out(folder: Path, sources: Mapping[str, str]) -> None:
    """Write ``NAME.ly`` for each source whose copy is not there yet or is of another text."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in sources.items():
        place = folder / f"{name}.ly"
        stamp = folder / f".{name}.text"
        if not (place.exists() and stamp.exists() and stamp.read_text("utf-8") == text):
            place.write_text(laid_out(text), "utf-8")
            stamp.write_text(text, "utf-8")


def laid_out(text: str) -> str:
    """The same source, indented."""
    document = ly.document.Document(text)
    ly.reformat.reformat(ly.document.Cursor(document), ly.indent.Indenter())
    return str(document.plaintext())
