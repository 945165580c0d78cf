"""JSON Schema (draft 2020-12) of the author's files, for editors that complete and check while typing.

Made from the keys the reader reads by. A schema sees the form of each value; rules between values stay with `check`.
"""

from __future__ import annotations

from engraver.definition.book_file import BookFile
from engraver.definition.keys import Json, Record, Written
from engraver.definition.schema import GrooveDefinition
from engraver.definition.style_file import StyleFile

_FILES: dict[str, type[Written]] = {"book": BookFile, "style": StyleFile, "groove": GrooveDefinition}


def json_schema(name: str) -> Json:
    """``name`` is book, style or groove."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"{name} file",
        **Record(_FILES[name]).json(),
    }
