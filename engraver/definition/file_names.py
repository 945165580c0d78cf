"""Names of files that an author writes in book.yaml: of a groove, of a text beside book.yaml."""

from __future__ import annotations

from dataclasses import dataclass

from engraver.definition.keys import Json, Reading, quote
from engraver.definition.kinds import scalar
from engraver.definition.source import Node
from engraver.errors import Position


@dataclass(frozen=True, slots=True)
class FileName:
    """The name of a groove file, without .yaml."""

    name: str
    position: Position


@dataclass(frozen=True, slots=True)
class _GrooveName:
    """With or without .yaml."""

    def read(self, node: Node, reading: Reading) -> FileName:
        text = scalar(node, reading, "the name of a groove file").text
        return FileName(text.removesuffix(".yaml"), node.position)

    def json(self) -> Json:
        return {"type": ["string", "number"], "minLength": 1}


@dataclass(frozen=True, slots=True)
class _TextName:
    """A plain text beside book.yaml; no folder can be named."""

    def read(self, node: Node, reading: Reading) -> FileName:
        text = scalar(node, reading, "the name of a text file").text.strip()
        if not text.endswith(".txt") or not text.isprintable() or set(text) & set("/\\"):
            raise reading.reject(node.position, f"{quote(node)} is not the name of a text file", "write licence.txt")
        return FileName(text, node.position)

    def json(self) -> Json:
        return {"type": "string", "pattern": r"^[^/\\]+\.txt$"}


GROOVE_NAME = _GrooveName()
TEXT_NAME = _TextName()
