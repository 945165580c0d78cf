"""Writing: the finished book put in the place of the last one, whole or not at all.

In: a document in memory. Out: a file whose bytes, its identifier included, follow from the document alone.
"""

from __future__ import annotations

import hashlib
import os
from io import BufferedRandom
from pathlib import Path

from pypdf import PdfWriter
from pypdf.generic import ArrayObject, ByteStringObject

from engraver.errors import EngravingError, Problem

_UNSET = bytes(16)
_TAIL = 4096  # the trailer is far shorter


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
    writer._ID = ArrayObject((ByteStringObject(_UNSET), ByteStringObject(_UNSET)))
    with draft.open("w+b") as file:
        writer.write(file)
        _identify(file)
        file.flush()
        os.fsync(file.fileno())


def _identify(file: BufferedRandom) -> None:
    """Make the identifier (ISO 32000-1, 14.4) out of everything else in the file."""
    file.seek(0)
    identifier = hashlib.file_digest(file, "sha256").hexdigest()[: 2 * len(_UNSET)]
    start = max(0, file.seek(0, os.SEEK_END) - _TAIL)
    file.seek(start)
    tail = file.read()
    trailer = tail.rindex(b"trailer")
    file.seek(start + trailer)
    file.write(tail[trailer:].replace(_UNSET.hex().encode(), identifier.encode()))
