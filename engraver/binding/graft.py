"""Grafting: objects of engraved files put into a book, each only once.

In: values of an engraved file. Out: the same in the book's document. Objects of equal bytes, in whatever file they
stand, become one: so chapters share the fonts and forms that they have in common. Objects that no one looks into keep
the very bytes that the engraver wrote, but for the numbers of what they refer to; streams stay in their files until the
book is written.
"""

from __future__ import annotations

import hashlib
import re
from pathlib import Path
from typing import IO, Any, cast

from pypdf import PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    ByteStringObject,
    DecodedStreamObject,
    DictionaryObject,
    EncodedStreamObject,
    FloatObject,
    IndirectObject,
    NameObject,
    NullObject,
    NumberObject,
    PdfObject,
)

from engraver.binding.engraved import HEAD, EngravedFile, Stream
from engraver.binding.syntax import Reference

_REFERENCE = re.compile(rb"(?<![\w.])(\d+) +\d+ +R(?!\w)")
_LENGTH = re.compile(rb"/Length +(\d+)( +\d+ +R)?")
_DRAWN = re.compile(rb"/Subtype\s*/(?:Form|Image)\b")
_LOOKED_AT = re.compile(rb"/(?:XObject|ColorSpace|Shading|Pattern)\b|/Font\s+\d")  # of resources
_FONTS = re.compile(rb"/Font\s*<<(.*?)>>", re.S)
_NAMED = re.compile(rb"(/[^\s/]+)\s+(\d+)\s+0\s+R")

Place = tuple[Path, int, int]  # a file, where the bytes begin in it, how many they are


class Verbatim(PdfObject):
    """An object as the engraver wrote it; the bytes of a stream stay in the engraved file until the book is written."""

    def __init__(self, text: bytes, place: Place | None = None) -> None:
        self._text, self._place = text, place

    @property
    def text(self) -> bytes:
        """All of it but the bytes of a stream."""
        return self._text

    @property
    def stream(self) -> bytes:
        """The bytes of a stream as they stand in the file."""
        assert self._place, "this is no stream"
        return _cut(*self._place)

    def write_to_stream(self, stream: IO[bytes], encryption_key: str | bytes | None = None) -> None:
        stream.write(self._text)
        if self._place:
            stream.write(b"\nstream\n%b\nendstream" % _cut(*self._place))


class Kept(DictionaryObject):
    """A dictionary whose entries stand as the engraver wrote them, beside those that are added to it."""

    def __init__(self, text: bytes, writer: PdfWriter) -> None:
        super().__init__()
        self._text, self._writer = text, writer

    @property
    def fonts(self) -> DictionaryObject:
        """References to the fonts among the entries that were written."""
        written = _FONTS.search(self._text)
        named = _NAMED.findall(written[1]) if written else ()
        return DictionaryObject(
            {NameObject(name.decode("latin-1")): IndirectObject(int(number), 0, self._writer) for name, number in named}
        )

    def write_to_stream(self, stream: IO[bytes], encryption_key: str | bytes | None = None) -> None:
        stream.write(b"<<" + self._text)
        for name, item in self.items():
            name.write_to_stream(stream)
            stream.write(b" ")
            item.write_to_stream(stream)
        stream.write(b" >>")


class Excerpt(EncodedStreamObject):
    """A stream whose bytes stay in the engraved file until they are wanted, or are replaced."""

    def __init__(self, pdf: Path, start: int, length: int) -> None:
        super().__init__()
        self._place = (pdf, start, length)
        self._own: bytes | None = None

    @property
    def _data(self) -> bytes:  # where pypdf keeps the bytes of a stream
        return _cut(*self._place) if self._own is None else self._own

    @_data.setter
    def _data(self, data: bytes) -> None:
        self._own = data


class Grafts:
    """What has been put into a book so far."""

    def __init__(self, writer: PdfWriter) -> None:
        self._writer = writer
        self._known: dict[object, IndirectObject] = {}

    def file(self, file: EngravedFile) -> Graft:
        return Graft(self, file)

    def add(self, key: object, made: PdfObject) -> IndirectObject:
        """The object, or the one that was added under an equal key."""
        if key not in self._known:
            self._known[key] = self._writer._add_object(made)
        return self._known[key]

    def kept(self, entries: bytes) -> Kept:
        """A dictionary of its own whose entries are written already."""
        return Kept(entries, self._writer)

    def operators(self, drawn: bytes) -> IndirectObject:
        """A stream of some operators of ours."""
        stream = DecodedStreamObject()
        stream.set_data(drawn)
        return self.add(drawn, stream)


class Graft:
    """The objects of one engraved file in the book."""

    def __init__(self, grafts: Grafts, file: EngravedFile) -> None:
        self._grafts, self._file = grafts, file
        self._numbers: dict[int, IndirectObject] = {}

    def reference(self, number: int) -> IndirectObject:
        """An object and all that it refers to. Raises ValueError if it refers to itself in the end."""
        if number not in self._numbers:
            self._numbers[number] = self._object(number)
        return self._numbers[number]

    def value(self, item: Any) -> PdfObject:
        """A value that can be looked into; what it refers to is grafted."""
        match item:
            case Reference(number):
                return self.reference(number)
            case dict():
                return self.dictionary(item)
            case list():
                return ArrayObject(self.value(part) for part in item)
            case bool():
                return BooleanObject(item)
            case None:
                return NullObject()
            case bytes():
                return ByteStringObject(item)
            case str():
                return NameObject(item)
            case int():
                return NumberObject(item)
            case _:
                return FloatObject(item)

    def dictionary(self, entries: dict[str, Any]) -> DictionaryObject:
        return DictionaryObject({NameObject(name): self.value(item) for name, item in entries.items()})

    def resources(self, item: Any) -> DictionaryObject:
        """The resources of a page or a form, which are looked into down to the forms that they name."""
        head = self._file.head(item.number) if isinstance(item, Reference) else None
        if head is not None and not _LOOKED_AT.search(head):
            return self._grafts.kept(self._renumber(head)[2:-2])
        held = {name: self._file.value(entry) for name, entry in (self._file.value(item) or {}).items()}
        return self.dictionary(held)

    def stream(self, stream: Stream, **more: PdfObject) -> IndirectObject:
        """A stream, with more entries than it has."""
        made = Excerpt(self._file.pdf, stream.start, stream.length)
        made.update(self.dictionary(stream.entries))
        if "/Resources" in stream.entries:
            made[NameObject("/Resources")] = self.resources(stream.entries["/Resources"])
        made.update({NameObject(f"/{name}"): item for name, item in more.items()})
        return self._grafts.add((self._digest(stream.start, stream.length), repr(made)), made)

    def _object(self, number: int) -> IndirectObject:
        begin = self._file.begin(number)
        found = HEAD.match(self._file.bytes, begin)
        if found is None:
            raise ValueError(f"object {number} has no end")
        head, ends = found.groups()
        if ends:
            text = self._renumber(head)
            return self._grafts.add(text, Verbatim(text))
        if _DRAWN.search(head):
            return self.stream(cast(Stream, self._file.read(number)))
        return self._verbatim_stream(head, found.end())

    def _verbatim_stream(self, head: bytes, start: int) -> IndirectObject:
        """A font, say, into which nobody looks."""
        stated = _LENGTH.search(head)
        if stated is None:
            raise ValueError("a stream does not say how long it is")
        length = int(stated[1]) if stated[2] is None else self._file.integer(int(stated[1]))
        text = self._renumber(_LENGTH.sub(b"/Length %d" % length, head))
        place = (self._file.pdf, start, length)
        return self._grafts.add((text, self._digest(start, length)), Verbatim(text, place))

    def _digest(self, start: int, length: int) -> bytes:
        return hashlib.blake2b(self._file.view[start : start + length], digest_size=20).digest()

    def _renumber(self, text: bytes) -> bytes:
        return _REFERENCE.sub(self._renumbered, text.strip())

    def _renumbered(self, found: re.Match[bytes]) -> bytes:
        return b"%d 0 R" % self.reference(int(found[1])).idnum


def _cut(pdf: Path, start: int, length: int) -> bytes:
    with pdf.open("rb") as file:
        file.seek(start)
        return file.read(length)
