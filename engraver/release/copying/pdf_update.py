"""Appended updates: objects that take the place of earlier ones, written behind the end of a PDF.

In: the objects' new bodies and what the file's own trailer says. Out: bytes to append; nothing before them changes.
Source: ISO 32000-1:2008, 7.5.4 (cross-reference sections), 7.5.5 (trailers), 7.5.6 (incremental updates), 14.4
(identifiers: the first stays, the second is made anew).
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Trailer:
    """What an update has to know of the file that it is appended to.

    ``length`` and ``start`` are bytes: of the file, and to its last cross-reference section. ``root`` and
    ``information`` are object numbers; ``size`` is one more than the highest of them.
    """

    length: int
    start: int
    size: int
    root: int
    information: int
    identifier: str


def appended(objects: Mapping[int, bytes], trailer: Trailer) -> bytes:
    """The update that gives objects of these numbers (all in use already, generation 0) new bodies."""
    assert all(0 < number < trailer.size for number in objects), "an update replaces objects that are there"
    parts, places = [b"\n"], {}
    position = trailer.length + 1
    for number, body in sorted(objects.items()):
        places[number] = position
        parts.append(b"%d 0 obj\n%b\nendobj\n" % (number, body))
        position += len(parts[-1])
    second = hashlib.sha256(b"".join(parts)).hexdigest()[:32]
    return b"".join([*parts, _section(places), _trailer(trailer, second, position)])


def _section(places: Mapping[int, int]) -> bytes:
    """Entries of exactly twenty bytes, one subsection for each object."""
    return b"xref\n" + b"".join(b"%d 1\n%010d 00000 n \n" % entry for entry in places.items())


def _trailer(old: Trailer, second: str, start: int) -> bytes:
    entries = (
        f"/Size {old.size} /Root {old.root} 0 R /Info {old.information} 0 R /Prev {old.start} "
        f"/ID [<{old.identifier}> <{second}>]"
    )
    return f"trailer\n<< {entries} >>\nstartxref\n{start}\n%%EOF\n".encode()


def stream(content: bytes, entries: str = "") -> bytes:
    """The body of a stream object."""
    return b"<< %b /Length %d >>\nstream\n%b\nendstream" % (entries.encode(), len(content), content)


def text(value: str) -> str:
    """A text string as hexadecimal UTF-16 with its byte order mark: no sign in it needs escaping."""
    marked = "\N{ZERO WIDTH NO-BREAK SPACE}" + value
    return f"<{marked.encode('utf-16-be').hex()}>"
