"""Writing: a finished file put in the place of the last one, whole or not at all.

In: a document, or the objects of one. Out: a file whose bytes, its identifier included, follow from them alone.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator
from io import BufferedWriter
from pathlib import Path

from engraver.binding.document import Document, Stream
from engraver.binding.syntax import Reference, Verbatim, written
from engraver.errors import EngravingError, Problem

_HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"  # ISO 32000-1


def write_book(document: Document, out: Path) -> None:
    """Raises EngravingError, leaving ``out`` as it was."""
    information = document.add(document.information)
    write_objects(_objects(document), document.root, information, out)


def write_objects(objects: Iterable[bytes], root: Reference, information: Reference, out: Path) -> None:
    """Objects in the order of their numbers, written beside ``out``, which then gives its name.

    Raises EngravingError, leaving ``out`` as it was.
    """
    draft = out.with_name(f".{out.name}.{os.getpid()}.part")
    try:
        with draft.open("wb") as file:
            _write(objects, {"/Root": root, "/Info": information}, file)
            file.flush()
            os.fsync(file.fileno())
        draft.replace(out)
    except OSError as error:
        hint = "the last book is untouched" if out.is_file() else "is there room, and may you write in this folder?"
        raise EngravingError(Problem(None, f'"{out}" could not be written: {error.strerror or error}', hint)) from error
    finally:
        draft.unlink(missing_ok=True)


def _write(objects: Iterable[bytes], trailer: dict[str, Reference], file: BufferedWriter) -> None:
    """Head, objects, table and trailer (ISO 32000-1, 7.5). The identifier (14.4) is made out of all before it."""
    identifier, places, at = hashlib.sha256(), [], 0
    for text in _parts(objects):
        places.append(at)
        at += len(text)
        identifier.update(text)
        file.write(text)
    entries = "".join(f"{place:010} 00000 n \n" for place in places[1:])
    file.write(f"xref\n0 {len(places)}\n0000000000 65535 f \n{entries}".encode())
    signs = Verbatim(f"<{identifier.hexdigest()[:32]}>".encode())
    last = written({"/Size": len(places), **trailer, "/ID": [signs, signs]})
    file.write(b"trailer\n%b\nstartxref\n%d\n%%%%EOF\n" % (last, at))


def _parts(objects: Iterable[bytes]) -> Iterator[bytes]:
    """The head of the file, then every object."""
    yield _HEAD
    for number, text in enumerate(objects, start=1):
        yield b"%d 0 obj\n%b\nendobj\n" % (number, text)


def _objects(document: Document) -> Iterator[bytes]:
    for made in document.objects:
        yield b"%b\nstream\n%b\nendstream" % (made.entries, made.raw) if isinstance(made, Stream) else written(made)
