"""Sealed files under their keys: bytes in, the same bytes out, or nothing if they are not there or not whole.

Files appear whole or not at all, so any number of builds may use one shelf at once. What cannot be written is not
remembered; nothing else depends on it.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import tempfile
from pathlib import Path

LIMIT = 2**28  # bytes; a chapter takes some 100,000
_DRAFT = ".draft-"


class Shelf:
    """``damaged`` has the keys of files that were found not to be whole; they were removed."""

    def __init__(self, folder: Path, limit: int = LIMIT) -> None:
        self._folder, self._limit = folder, limit
        self._used: set[Path] = set()
        self._grown = False
        self.damaged: set[str] = set()

    def get(self, key: str) -> bytes | None:
        place = self._place(key)
        try:
            sealed = place.read_bytes()
        except OSError:
            return None
        content = _opened(sealed)
        if content is None:
            self.damaged.add(key)
            with contextlib.suppress(OSError):
                place.unlink()
        else:
            self._used.add(place)
        return content

    def put(self, key: str, content: bytes) -> None:
        place = self._place(key)
        with contextlib.suppress(OSError):  # a full disk: made again next time
            _write(place, _seal(content) + content)
            self._used.add(place)
            self._grown = True

    def close(self) -> None:
        """What was used is marked so; if the shelf grew beyond its limit, what was used longest ago is removed."""
        for place in self._used:
            with contextlib.suppress(OSError):
                os.utime(place)
        if self._grown:
            self._tidy()

    def _place(self, key: str) -> Path:
        return self._folder / key[:2] / key[2:]

    def _tidy(self) -> None:
        files = []
        for place in self._folder.glob("*/*"):
            with contextlib.suppress(OSError):  # another build is tidying too
                seen = place.stat()
                files.append((seen.st_mtime_ns, seen.st_size, place))
        total = 0
        for _, size, place in sorted(files, reverse=True):
            total += size
            if place not in self._used and (total > self._limit or place.name.startswith(_DRAFT)):
                place.unlink(missing_ok=True)


def _write(place: Path, content: bytes) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    descriptor, draft = tempfile.mkstemp(dir=place.parent, prefix=_DRAFT)
    try:
        with os.fdopen(descriptor, "wb") as file:
            file.write(content)
        Path(draft).replace(place)
    except BaseException:
        Path(draft).unlink(missing_ok=True)
        raise


def _seal(content: bytes) -> bytes:
    return hashlib.sha256(content).digest()


def _opened(sealed: bytes) -> bytes | None:
    size = hashlib.sha256().digest_size
    seal, content = sealed[:size], sealed[size:]
    return content if seal == _seal(content) else None
