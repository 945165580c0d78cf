"""A package: files by name in, a folder with their checksums and an archive of it out; the same files, the same bytes.

Both appear whole or not at all, so that a release that was stopped is made again by making it again. The checksums are
in the form that ``sha256sum --check`` reads. No clock is read: every file in the archive has the date of the book.
Sources: FIPS 180-4 (SHA-256); GNU coreutils, sha256sum (its lines); ZIP: PKWARE's APPNOTE 4.4.6 (dates from 1980 on).
"""

from __future__ import annotations

import hashlib
import shutil
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from engraver.errors import EngravingError, Problem

CHECKSUMS = "SHA256SUMS"
_EARLIEST = 1980  # the year that the dates of an archive begin with
_MODE = 0o100644 << 16  # a plain file that its owner may write


@contextmanager
def whole_folder(final: Path) -> Iterator[Path]:
    """A draft to fill; it takes the place of ``final`` when all went well. A draft that was left behind is cleared."""
    draft, old = final.with_name(f".{final.name}.part"), final.with_name(f".{final.name}.old")
    try:
        for left in (draft, old):
            shutil.rmtree(left, ignore_errors=True)
        draft.mkdir(parents=True)
        yield draft
        if final.exists():
            final.rename(old)
        draft.rename(final)
        shutil.rmtree(old, ignore_errors=True)
    except OSError as error:
        raise EngravingError(Problem(None, f'"{final}" could not be written: {error.strerror or error}')) from error
    finally:
        shutil.rmtree(draft, ignore_errors=True)


def write_checksums(folder: Path) -> None:
    """A line for every file below the folder, in order of name."""
    lines = [f"{sha256(folder / name)}  {name}\n" for name in _names(folder)]
    (folder / CHECKSUMS).write_text("".join(lines), encoding="utf-8", newline="\n")


def sha256(file: Path) -> str:
    with file.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").hexdigest()


def pack(folder: Path, archive: Path, day: date, inside: str) -> None:
    """Everything below the folder, in order of name, under the folder name ``inside``.

    Raises EngravingError if the archive cannot be written; one that was there then stays.
    """
    draft = archive.with_name(f".{archive.name}.part")
    try:
        with zipfile.ZipFile(draft, "w") as packed:
            for name in _names(folder):
                _add(packed, folder / name, f"{inside}/{name}", day)
        draft.replace(archive)
    except OSError as error:
        raise EngravingError(Problem(None, f'"{archive}" could not be written: {error.strerror or error}')) from error
    finally:
        draft.unlink(missing_ok=True)


def _add(packed: zipfile.ZipFile, file: Path, name: str, day: date) -> None:
    # stored, not deflated: pages are compressed already, and what a compressor makes is not the same everywhere
    entry = zipfile.ZipInfo(name, (max(day.year, _EARLIEST), day.month, day.day, 0, 0, 0))
    entry.create_system, entry.external_attr = 3, _MODE
    with file.open("rb") as opened, packed.open(entry, "w") as into:
        shutil.copyfileobj(opened, into)


def _names(folder: Path) -> list[str]:
    return sorted(file.relative_to(folder).as_posix() for file in folder.rglob("*") if file.is_file())
