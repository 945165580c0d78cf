"""Results remembered under their keys: folders with the files of a run and a card that says what else it gave.

Entries appear whole or not at all, may be made by two builds at once, and are checked when they are read.
"""

from __future__ import annotations

import contextlib
import fcntl
import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from engraver.engraving.job import Complaint, Severity
from engraver.engraving.key import file_hash
from engraver.errors import EngravingError, Problem

LIMIT = 2**30  # bytes
VARIABLE = "ENGRAVER_STORE_LIMIT"  # bytes, for who wants another bound
_CARD = "card.json"


@dataclass(frozen=True, slots=True)
class Entry:
    """``files`` lie in the store, ordered by name."""

    files: tuple[Path, ...]
    complaints: tuple[Complaint, ...]
    seconds: float


class Store:
    """In use between ``open`` and ``close``; any number of builds may use one store at once."""

    def __init__(self, folder: Path, limit: int | None = None) -> None:
        self._folder = folder.absolute()
        self._limit = _limit() if limit is None else limit
        self._used: set[Path] = set()
        self._grown = False

    def open(self) -> None:
        self._entries.mkdir(parents=True, exist_ok=True)
        self._lock = (self._folder / "lock").open("ab")
        fcntl.flock(self._lock, fcntl.LOCK_SH)
        self.workplace = Path(tempfile.mkdtemp(prefix="work-", dir=self._folder))

    def close(self) -> None:
        shutil.rmtree(self.workplace, ignore_errors=True)
        with self._lock:
            if self._grown and self._is_ours_alone():
                self._tidy()

    @property
    def _entries(self) -> Path:
        return self._folder / "entries"

    def read(self, key: str) -> Entry | None:
        """The entry, or None if there is none or it is damaged; a damaged one is removed."""
        place = self._place(key)
        try:
            entry = _read_card(place)
        except (OSError, ValueError, KeyError, TypeError):
            entry = None
        if entry:
            os.utime(place)  # what was used last is dropped last
            self._used.add(place)
        elif place.exists():
            shutil.rmtree(place, ignore_errors=True)
        return entry

    def write(self, key: str, made: Path, entry: Entry) -> Entry:
        """Moves the files of ``entry``, which lie in ``made`` below the workplace, into the store."""
        for path in set(made.iterdir()) - set(entry.files):
            path.unlink() if not path.is_dir() else shutil.rmtree(path)
        _write_card(made, entry)
        place = self._place(key)
        place.parent.mkdir(exist_ok=True)
        with contextlib.suppress(FileExistsError):  # another build was faster, with the same
            _rename(made, place)
        self._grown = True
        self._used.add(place)
        return Entry(tuple(place / path.name for path in entry.files), entry.complaints, entry.seconds)

    def _place(self, key: str) -> Path:
        return self._entries / key[:2] / key[2:]

    def _is_ours_alone(self) -> bool:
        try:
            fcntl.flock(self._lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

    def _tidy(self) -> None:
        """Removes what builds that were killed left behind, then the longest unused entries beyond the limit."""
        for left in self._folder.glob("work-*"):
            shutil.rmtree(left, ignore_errors=True)
        for draft in self._folder.glob("costs-*"):
            draft.unlink()
        by_use = sorted(self._entries.glob("*/*"), key=lambda place: place.stat().st_mtime_ns, reverse=True)
        for place in _beyond(self._limit, by_use):
            if place not in self._used:
                shutil.rmtree(place, ignore_errors=True)


def _limit() -> int:
    stated = os.environ.get(VARIABLE) or str(LIMIT)
    if not stated.isdecimal():
        hint = f"write the most the store may hold in bytes, such as {LIMIT}"
        raise EngravingError(Problem(None, f'"{stated}" in ${VARIABLE} is not a number of bytes', hint))
    return int(stated)


def _beyond(limit: int, places: Iterable[Path]) -> Iterator[Path]:
    total = 0
    for place in places:
        total += sum(path.stat().st_size for path in place.iterdir())
        if total > limit:
            yield place


def _rename(made: Path, place: Path) -> None:
    try:
        made.rename(place)
    except OSError as error:
        raise FileExistsError(place) if place.exists() else error from error


def _write_card(folder: Path, entry: Entry) -> None:
    said = [[c.severity.value, c.line, c.column, c.message, c.file] for c in entry.complaints]
    files = {path.name: file_hash(path) for path in entry.files}
    body = json.dumps({"files": files, "complaints": said, "seconds": entry.seconds})
    (folder / _CARD).write_text(f"{_seal(body)}\n{body}\n", "utf-8")


def _read_card(folder: Path) -> Entry | None:
    seal, body, _ = (folder / _CARD).read_text("utf-8").split("\n")
    if seal != _seal(body):
        return None
    card: dict[str, Any] = json.loads(body)
    if any(file_hash(folder / name) != digest for name, digest in card["files"].items()):
        return None
    complaints = tuple(Complaint(Severity(kind), *rest) for kind, *rest in card["complaints"])
    return Entry(tuple(folder / name for name in card["files"]), complaints, card["seconds"])


def _seal(body: str) -> str:
    return hashlib.sha256(body.encode()).hexdigest()
