"""Watching a style: which of its rows are read while something is made of it.

In: a style. Out: the same style, which notes each row that is read: a setting ("ghosts"), an instrument ("kit snare"),
the whole kit ("kit"), or an entry of the words ("word tempo"). So what was made is known to depend on these rows and on
no others; nobody has to keep a list.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields
from typing import Any

from engraver.rhythm import Instrument
from engraver.style.kit import Kit, KitRow
from engraver.style.style import Style
from engraver.style.words import Entry, Words

Note = Callable[[str], None]

# by their names in the program, those in style.yaml
_SETTINGS = {each.name: each.name.replace("_", " ") for each in fields(Style) if each.name not in ("kit", "wording")}
_KIT, _WORD = "kit ", "word "


def watched(style: Style, note: Note) -> Style:
    """A style that reads like this one."""
    seen = object.__new__(_WatchedStyle)
    for field in fields(Style):
        object.__setattr__(seen, field.name, getattr(style, field.name))
    object.__setattr__(seen, "kit", _watched_kit(style.kit, note))
    object.__setattr__(seen, "_words", style.say)
    object.__setattr__(seen, "_note", note)
    return seen


class Rows:
    """What each row of a style says, for comparing; the rows are those that watching notes."""

    def __init__(self, style: Style) -> None:
        self._style, self._words = style, style.say.entries
        self._known: dict[str, str] = {}

    def __call__(self, name: str) -> str:
        if name not in self._known:
            self._known[name] = repr(self._row(name))
        return self._known[name]

    def _row(self, name: str) -> object:
        if name.startswith(_WORD):
            return self._words.get(name.removeprefix(_WORD))
        if name.startswith(_KIT):
            instrument = Instrument(name.removeprefix(_KIT))
            return next((row for row in self._style.kit.rows if row.instrument == instrument), None)
        return getattr(self._style, name.replace(" ", "_"))


class _WatchedStyle(Style):
    __slots__ = ("_note", "_words")
    _note: Note
    _words: Words

    def __getattribute__(self, name: str) -> Any:
        if name in _SETTINGS:
            object.__getattribute__(self, "_note")(_SETTINGS[name])
        return object.__getattribute__(self, name)

    @property
    def say(self) -> Words:
        self._note("language")
        return Words(self._words.language, _WatchedEntries(self._words.entries, self._note))


class _WatchedKit(Kit):
    __slots__ = ("_note",)
    _note: Note

    def __getattribute__(self, name: str) -> Any:
        if name == "rows":
            object.__getattribute__(self, "_note")("kit")
        return object.__getattribute__(self, name)

    def __getitem__(self, instrument: Instrument) -> KitRow:
        self._note(_KIT + instrument.name)
        return self._by_name[instrument.name]

    def __contains__(self, instrument: Instrument) -> bool:
        self._note(_KIT + instrument.name)
        return instrument.name in self._by_name


def _watched_kit(kit: Kit, note: Note) -> Kit:
    seen = object.__new__(_WatchedKit)
    for name, value in (("rows", kit.rows), ("_by_name", kit._by_name), ("_note", note)):
        object.__setattr__(seen, name, value)
    return seen


class _WatchedEntries(Mapping[str, Entry]):
    def __init__(self, entries: Mapping[str, Entry], note: Note) -> None:
        self._entries, self._note = entries, note

    def __getitem__(self, name: str) -> Entry:
        self._note(_WORD + name)
        return self._entries[name]

    def __iter__(self) -> Iterator[str]:
        for name in self._entries:
            self._note(_WORD + name)
            yield name

    def __len__(self) -> int:
        return len(self._entries)
