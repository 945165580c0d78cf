"""Engraved PDFs as they lie on the disk: their objects where they stand in the file, and their pages.

In: a PDF as Cairo writes it, with a plain cross-reference table and no encryption. Out: values, and the places
of streams. Source: ISO 32000-1, 7.5. What is not so raises ValueError.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from engraver.binding.syntax import Reference, read_value

_START = re.compile(rb"startxref\s+(\d+)\s+%%EOF\s*$")
_SECTION = re.compile(rb"\s*(\d+)\s+(\d+)[ \r]*\n")
_INTEGER = re.compile(rb"\s*(\d+)\s*endobj")
_ENTRY = 20  # bytes in the table, by the standard
_OBJECT = re.compile(rb"\s*\d+\s+\d+\s+obj")
_HEAD = re.compile(rb"(.*?)\s(?:(endobj)|stream\r?\n)", re.S)
_INHERITED = ("/Resources", "/MediaBox")


@dataclass(frozen=True, slots=True)
class Box:
    """Corners in points."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def corners(self) -> list[float]:
        return [self.left, self.bottom, self.right, self.top]

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.top - self.bottom


class EngravedFile:
    """``pdf`` is read as a whole, once; nobody holds it longer than the binding of its pages."""

    def __init__(self, pdf: Path) -> None:
        self.pdf = pdf
        self.bytes = pdf.read_bytes()
        self.view = memoryview(self.bytes)
        if not self.bytes.startswith(b"%PDF-"):
            raise ValueError("it does not begin as a PDF does")
        self._places, self._trailer = _read_table(self.bytes)

    def pages(self) -> list[EngravedPage]:
        root = self.value(self._trailer["/Root"])
        return [EngravedPage(self, entries) for entries in self._leaves(root["/Pages"], {}, 0)]

    def value(self, item: Any) -> Any:
        """What a reference stands for; anything else stands for itself. Of a stream its entries."""
        return read_value(self.bytes, self._begin(item.number))[0] if isinstance(item, Reference) else item

    def integer(self, number: int) -> int:
        """An object that is a whole number: the length of nearly every stream is one."""
        found = _INTEGER.match(self.bytes, self._begin(number))
        if found is None:
            raise ValueError(f"object {number} is no number")
        return int(found[1])

    def head(self, number: int) -> tuple[bytes, int | None]:
        """An object as it is written, up to its stream, and where that begins if it has one."""
        found = _HEAD.match(self.bytes, self._begin(number))
        if found is None:
            raise ValueError(f"object {number} has no end")
        return found[1].strip(), None if found[2] else found.end()

    def _begin(self, number: int) -> int:
        """Where the value of an object begins."""
        head = _OBJECT.match(self.bytes, self._places[number])
        if head is None:
            raise ValueError(f"there is no object {number} where the table says")
        return head.end()

    def _leaves(self, item: Any, inherited: dict[str, Any], depth: int) -> Iterator[dict[str, Any]]:
        node = self.value(item)
        own = {name: node[name] for name in _INHERITED if name in node}
        if "/Kids" not in node:
            yield {**inherited, **node}
            return
        if depth > 50:
            raise ValueError("its tree of pages has no end")
        for kid in node["/Kids"]:
            yield from self._leaves(kid, {**inherited, **own}, depth + 1)


@dataclass(frozen=True, slots=True)
class EngravedPage:
    file: EngravedFile
    entries: dict[str, Any]

    @property
    def mediabox(self) -> Box:
        corners = self.file.value(self.entries["/MediaBox"])
        return Box(*(float(self.file.value(corner)) for corner in corners))

    @property
    def annotations(self) -> Iterator[dict[str, Any]]:
        """In the order of the file."""
        for item in self.file.value(self.entries.get("/Annots", [])):
            yield self.file.value(item)


def _read_table(text: bytes) -> tuple[dict[int, int], dict[str, Any]]:
    """Where each object begins, and the trailer."""
    found = _START.search(text, max(0, len(text) - 1024))
    if found is None or not text.startswith(b"xref", at := int(found[1])):
        raise ValueError("it has no table of its objects at its end")
    at += len(b"xref")
    places: dict[int, int] = {}
    while section := _SECTION.match(text, at):
        first, count, at = int(section[1]), int(section[2]), section.end()
        for number in range(first, first + count):
            if text[at + 17 : at + 18] == b"n":
                places[number] = int(text[at : at + 10])
            at += _ENTRY
    trailer, _ = read_value(text, text.index(b"trailer", at) + len(b"trailer"))
    return places, trailer
