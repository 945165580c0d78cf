"""Memory: a subject and all that it is made from in; what was made of it last time out, or what is made of it now.

Two things decide: the ``ground``, which is known beforehand, and the rows of a table that were read in the making,
which are known only afterwards. So the names of the rows are kept under the ground, and the result under the ground and
the values of these rows. The idea is that of compiler caches, which keep a list of the headers that a source included.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from engraver.memory.program import fingerprint
from engraver.memory.shelf import Shelf

Row = Callable[[str], str]  # the value of a row, in words that differ when it does
Note = Callable[[str], None]  # to be called with the name of each row that is read
_SETS = 8  # of rows that one ground may read: which are read can depend on what they say
_FORMAT = "2"  # of what is kept of a build
_SHORT = 16  # signs of a hash that are enough to tell a reason


@dataclass(frozen=True, slots=True)
class Recalled:
    """``key`` stands for the content; ``reason`` says why it was made again, "" if it was remembered."""

    content: bytes
    key: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class _Trace:
    """What a subject was made from: hashes of the parts of its ground and of the rows read, by name."""

    ground: Mapping[str, str]
    rows: Mapping[str, str]


@dataclass(slots=True)
class _Build:
    """What is kept of a build for the next one, filled as it goes on: to tell its reasons, and what it noted."""

    traces: dict[str, _Trace] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)

    def as_json(self) -> bytes:
        traces = {subject: [trace.ground, trace.rows] for subject, trace in self.traces.items()}
        return json.dumps([traces, self.texts, self.notes]).encode()

    @staticmethod
    def of_json(kept: bytes | None) -> _Build:
        traces, *more = json.loads(kept) if kept else [{}]
        return _Build({subject: _Trace(*parts) for subject, parts in traces.items()}, *more)


class Memory:
    """Of one book. Several books and several builds may share its folder."""

    def __init__(self, folder: Path, book: str) -> None:
        self._shelf = Shelf(folder)
        self._book = fingerprint(["last", _FORMAT, book])
        self._last = _Build.of_json(self._shelf.get(self._book))
        self._now = _Build()

    def recall(self, subject: str, ground: Mapping[str, str], row: Row, make: Callable[[Note], bytes]) -> Recalled:
        """``ground`` has the parts by the names that a reason calls them; ``make`` may raise, nothing is kept then."""
        base = fingerprint(["ground", subject, *(word for part in sorted(ground.items()) for word in part)])
        sets = self._row_sets(base)
        for rows in sets:
            key = _key(base, rows, row)
            content = self._shelf.get(key)
            if content is not None:
                self._now.traces[subject] = _trace(ground, rows, row)
                return Recalled(content, key)
        return self._made(subject, ground, row, make, base, sets)

    def compare(self, subject: str, text: str) -> bool | None:
        """Whether the text is that of the last time; None if there was none."""
        before, now = self._last.texts.get(subject), _short(text)
        self._now.texts[subject] = now
        return None if before is None else before == now

    @property
    def notes(self) -> Mapping[str, str]:
        """Those of the last build. What was made cannot depend on them: they are no part of any ground."""
        return self._last.notes

    def leave(self, name: str, note: str) -> None:
        """For the next build of this book."""
        self._now.notes[name] = note

    def close(self) -> None:
        if self._now != self._last:
            self._shelf.put(self._book, self._now.as_json())
        self._shelf.close()

    def _made(
        self,
        subject: str,
        ground: Mapping[str, str],
        row: Row,
        make: Callable[[Note], bytes],
        base: str,
        sets: list[tuple[str, ...]],
    ) -> Recalled:
        read: set[str] = set()
        content = make(read.add)
        rows = tuple(sorted(read))
        key = _key(base, rows, row)
        self._shelf.put(key, content)
        if rows not in sets:
            self._shelf.put(base, json.dumps([rows, *sets][:_SETS]).encode())
        self._now.traces[subject] = _trace(ground, rows, row)
        return Recalled(content, key, self._reason(subject, ground, row))

    def _row_sets(self, base: str) -> list[tuple[str, ...]]:
        kept = self._shelf.get(base)
        return [tuple(names) for names in json.loads(kept)] if kept else []

    def _reason(self, subject: str, ground: Mapping[str, str], row: Row) -> str:
        before = self._last.traces.get(subject)
        if before is None:
            return "for the first time"
        grounds = {name: _short(text) for name, text in ground.items()}
        changed = [name for name in grounds if before.ground.get(name) != grounds[name]]
        rows = [name for name, value in before.rows.items() if _short(row(name)) != value]
        changed += [f'"{name}"' for name in sorted(rows, key=_width)]
        if changed:
            return f"{_listed(changed)} changed"
        return "it was damaged in the store" if self._shelf.damaged else "it was no longer in the store"


def _key(base: str, rows: Iterable[str], row: Row) -> str:
    return fingerprint([base, *(word for name in rows for word in (name, row(name)))])


def _trace(ground: Mapping[str, str], rows: Iterable[str], row: Row) -> _Trace:
    return _Trace({name: _short(text) for name, text in ground.items()}, {name: _short(row(name)) for name in rows})


def _short(text: str) -> str:
    return fingerprint([text])[:_SHORT]


def _width(name: str) -> int:
    """A name of fewer words stands for more and is told first: a language changes many words."""
    return name.count(" ")


def _listed(names: list[str]) -> str:
    shown = names[:3] + ([f"{len(names) - 3} more"] if len(names) > 3 else [])
    return shown[0] if len(shown) == 1 else f"{', '.join(shown[:-1])} and {shown[-1]}"
