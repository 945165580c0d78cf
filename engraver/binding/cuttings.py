"""Cuttings: what of an engraved file goes into a book, cut where it refers to something else.

In: an engraved PDF. Out: its objects as the engraver wrote them, the numbers of what they refer to left open, and what
its pages are made of. All of it is values that can be kept: a file that did not change is not read for its next book,
where binding has only to fill in numbers. The bytes of streams stay in the file.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from engraver.binding.engraved import Box, EngravedFile, EngravedPage
from engraver.binding.sheaf import legible, read_pages
from engraver.binding.syntax import Reference, written

_REFERENCE = re.compile(rb"(?<![\w.])(\d+) +\d+ +R(?!\w)")
_LENGTH = re.compile(rb"/Length +(\d+)( +\d+ +R)?")


@dataclass(frozen=True, slots=True)
class Cutting:
    """``text`` has a %d for the number of each object that it needs; ``needs``: their places among the cuttings.

    ``digest`` stands for the whole: text, stream, and all that is needed. ``stream``: where its bytes begin in the file
    and how many they are.
    """

    text: bytes
    needs: tuple[int, ...]
    digest: bytes
    stream: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class CutPage:
    """``resources`` without the forms that are drawn, of which ``forms`` has the names and places.

    ``drawn``: the streams that draw it, in order; ``group``: how its ink lies on the paper, where that is said.
    """

    box: Box
    resources: Cutting
    forms: tuple[tuple[str, int], ...]
    drawn: tuple[Cutting, ...]
    group: Cutting | None


@dataclass(frozen=True, slots=True)
class Cuttings:
    """Of one file. What a cutting needs has a place before its own."""

    objects: tuple[Cutting, ...]
    pages: tuple[CutPage, ...]


Cut = Callable[[Path], Cuttings]  # `cuttings`, or what remembers them


def cuttings(pdf: Path) -> Cuttings:
    """Raises EngravingError for a file that is missing or damaged."""
    pages = read_pages(pdf)
    with legible(pdf):
        knife = _Knife(pages[0].file)
        cut = tuple(knife.page(page) for page in pages)
    return Cuttings(tuple(knife.objects), cut)


class _Knife:
    def __init__(self, file: EngravedFile) -> None:
        self._file = file
        self._places: dict[int, int | None] = {}  # None: it is being cut
        self.objects: list[Cutting] = []

    def page(self, page: EngravedPage) -> CutPage:
        held = {name: self._file.value(item) for name, item in self._held(page.entries.get("/Resources")).items()}
        forms = held.pop("/XObject", {})
        group = self._file.value(page.entries.get("/Group"))
        return CutPage(
            page.mediabox,
            self._cut(_within(held)),
            tuple((name, self._place(form.number)) for name, form in forms.items()),
            tuple(self._object(part.number) for part in _contents(page)),
            None if group is None else self._cut(written(group)),
        )

    def _held(self, item: Any) -> dict[str, Any]:
        return self._file.value(item) or {}

    def _place(self, number: int) -> int:
        """Where an object stands among the cuttings. Raises ValueError if it refers to itself in the end."""
        if number not in self._places:
            self._places[number] = None
            self.objects.append(self._object(number))
            self._places[number] = len(self.objects) - 1
        place = self._places[number]
        if place is None:
            raise ValueError(f"object {number} refers to itself")
        return place

    def _object(self, number: int) -> Cutting:
        head, start = self._file.head(number)
        if start is None:
            return self._cut(head)
        stated = _LENGTH.search(head)
        if stated is None:
            raise ValueError(f"stream {number} does not say how long it is")
        length = int(stated[1]) if stated[2] is None else self._file.integer(int(stated[1]))
        if self._file.bytes[start + length : start + length + 20].lstrip()[:9] != b"endstream":
            raise ValueError(f"stream {number} is not as long as it says")
        return self._cut(_LENGTH.sub(b"/Length %d" % length, head), (start, length))

    def _cut(self, text: bytes, stream: tuple[int, int] | None = None) -> Cutting:
        needs = tuple(self._place(int(number)) for number in _REFERENCE.findall(text))
        left_open = _REFERENCE.sub(b"%d 0 R", text.replace(b"%", b"%%"))
        total = hashlib.blake2b(b"%d:" % len(left_open) + left_open, digest_size=20)
        for need in needs:
            total.update(self.objects[need].digest)
        if stream is not None:
            start, length = stream
            total.update(self._file.view[start : start + length])
        return Cutting(left_open, needs, total.digest(), stream)


def _within(entries: dict[str, Any]) -> bytes:
    """Entries as they stand in a dictionary, without its brackets."""
    return written(entries)[2:-2].strip()


def _contents(page: EngravedPage) -> list[Reference]:
    """The streams that draw a page, in order."""
    contents: Any = page.entries.get("/Contents", [])
    if isinstance(contents, Reference) and isinstance(held := page.file.value(contents), list):
        contents = held
    return [contents] if isinstance(contents, Reference) else list(contents)
