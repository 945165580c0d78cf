"""Writing: the finished book put in the place of the last one, whole or not at all.

In: a document in memory. Out: a file whose bytes, its identifier included, follow from the document alone.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from io import BufferedWriter, BytesIO
from pathlib import Path

from pypdf import PdfWriter
from pypdf.generic import DictionaryObject, NullObject

from engraver.errors import EngravingError, Problem


def write_book(writer: PdfWriter, out: Path) -> None:
    """Write beside ``out``, then take its name. Raises EngravingError, leaving ``out`` as it was."""
    draft = out.with_name(f".{out.name}.{os.getpid()}.part")
    try:
        _write_draft(writer, draft)
        draft.replace(out)
    except OSError as error:
        hint = "the last book is untouched" if out.is_file() else "is there room, and may you write in this folder?"
        raise EngravingError(Problem(None, f'"{out}" could not be written: {error.strerror or error}', hint)) from error
    finally:
        draft.unlink(missing_ok=True)


def _write_draft(writer: PdfWriter, draft: Path) -> None:
    with draft.open("wb") as file:
        _write(writer, file)
        file.flush()
        os.fsync(file.fileno())


def _write(writer: PdfWriter, file: BufferedWriter) -> None:
    """Head, objects, table and trailer (ISO 32000-1, 7.5). The identifier (14.4) is made out of all before it.

    The writer's own method first looks through all objects for what came from other documents; nothing here did.
    """
    identifier, places, at = hashlib.sha256(), [], 0
    for text in _parts(writer):
        places.append(at)
        at += len(text)
        identifier.update(text)
        file.write(text)
    entries = "".join(f"{place:010} 00000 n \n" for place in places[1:])
    file.write(f"xref\n0 {len(places)}\n0000000000 65535 f \n{entries}".encode())
    signs = identifier.hexdigest()[:32]
    information = f" /Info {_reference(writer._info)}" if writer._info is not None else ""
    root = f"/Root {_reference(writer.root_object)}{information} /ID [ <{signs}> <{signs}> ]"
    file.write(f"trailer\n<< /Size {len(places)} {root} >>\nstartxref\n{at}\n%%EOF\n".encode())


def _parts(writer: PdfWriter) -> Iterator[bytes]:
    """The head of the file, then every object; one that was taken out stands as null."""
    yield writer.pdf_header.encode() + b"\n%\xe2\xe3\xcf\xd3\n"
    for number, made in enumerate(writer._objects, start=1):
        buffer = BytesIO()
        (NullObject() if made is None else made).write_to_stream(buffer)
        yield b"%d 0 obj\n%b\nendobj\n" % (number, buffer.getvalue())


def _reference(item: DictionaryObject) -> str:
    place = item.indirect_reference
    assert place is not None, "it is an object of the document"
    return f"{place.idnum} 0 R"
