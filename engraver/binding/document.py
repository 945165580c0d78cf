"""A document in the making: plain values as `syntax` reads and writes them in, the objects of a PDF file out.

Objects that `once` was asked for under equal keys are one. Streams of engraved files stay there until they are wanted.
Source: ISO 32000-1, 7.3.8 (streams), 7.7 (catalog, tree of pages).
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from engraver.binding.syntax import Reference, Verbatim, read_value, written
from engraver.errors import EngravingError, Problem

Place = tuple[Path, int, int]  # a file, where bytes begin in it, how many they are


@dataclass(frozen=True, slots=True)
class Stream:
    """``entries`` as they are written, the length among them; ``content`` the bytes, or where they stand."""

    entries: Verbatim
    content: bytes | Place

    @property
    def raw(self) -> bytes:
        """As it stands in the file."""
        return self.content if isinstance(self.content, bytes) else cut(*self.content)

    @property
    def drawn(self) -> bytes:
        """What it holds when it is unpacked."""
        return zlib.decompress(self.raw) if self.entries.find(b"/FlateDecode") >= 0 else self.raw


def stream_of(content: bytes, entries: dict[str, Any]) -> Stream:
    return Stream(Verbatim(written({**entries, "/Length": len(content)})), content)


def packed(content: bytes, entries: dict[str, Any]) -> Stream:
    return stream_of(zlib.compress(content), {**entries, "/Filter": "/FlateDecode"})


class Document:
    """``objects`` are plain values, or streams, in the order of their numbers, which count from 1.

    ``pages``: the entries of each page; ``information``: those of the document information.
    """

    def __init__(self) -> None:
        self.objects: list[Any] = []
        self.catalog: dict[str, Any] = {"/Type": "/Catalog"}
        self.root = self.add(self.catalog)
        self.pages: list[dict[str, Any]] = []
        self.places: list[Reference] = []  # of the pages
        self.information: dict[str, Any] = {}
        self._tree = self.add({"/Type": "/Pages", "/Kids": self.places})
        self.catalog["/Pages"] = self._tree
        self._known: dict[Hashable, Reference] = {}

    def add(self, value: Any) -> Reference:
        self.objects.append(value)
        return Reference(len(self.objects))

    def add_page(self, entries: dict[str, Any]) -> None:
        entries["/Parent"] = self._tree
        self.pages.append(entries)
        self.places.append(self.add(entries))
        self.value(self._tree)["/Count"] = len(self.places)

    def once(self, key: Hashable, make: Callable[[], Any]) -> Reference:
        """What was added under an equal key, or what is made now. Making may add what it refers to."""
        if key not in self._known:
            self._known[key] = self.add(make())
        return self._known[key]

    def operators(self, drawn: bytes) -> Reference:
        """A stream of some operators of ours."""
        return self.once(drawn, lambda: stream_of(drawn, {}))

    def value(self, item: Any) -> Any:
        """What can be looked into, of what stands for it or is written already. Of a stream the `Stream`."""
        held = self.objects[item.number - 1] if isinstance(item, Reference) else item
        return read_value(held, 0)[0] if isinstance(held, Verbatim) else held


def cut(pdf: Path, start: int, length: int) -> bytes:
    """Some bytes of a file. Raises EngravingError if it is not there or does not have them."""
    try:
        with pdf.open("rb") as file:
            file.seek(start)
            found = file.read(length)
    except OSError as error:
        raise EngravingError(Problem(None, f'"{pdf}" cannot be read: {error.strerror}', "build again")) from error
    if len(found) != length:
        raise EngravingError(Problem(None, f'"{pdf}" has changed since it was read', "build again"))
    return found
