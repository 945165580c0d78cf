"""The ink read back: what `ink.ily` wrote about each column of note heads, in a drummer's words.

Glyph names are those of LilyPond's own music font.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from engraver.notation import VoiceName
from engraver.proof.source import Lines

# Heads by the end of their glyph's name, whatever the length of the note.
HEADS: Mapping[str, str] = {
    "": "normal",
    "cross": "x",
    "harmonic": "diamond",
    "do": "triangle",
    "slash": "slash",
    "xcircle": "circle x",
}
SIGNS: Mapping[str, str] = {
    "scripts.sforzato": "accent",
    "scripts.open": "open",
    "scripts.halfopen": "half open",
    "scripts.halfopenvertical": "half open",
    "scripts.stopped": "closed",
    "scripts.rcomma": "choke",
    "z": "buzz",
}


@dataclass(frozen=True, slots=True)
class InkHead:
    position: int
    head: str
    parenthesised: bool
    small: bool

    @property
    def shape(self) -> tuple[int, str]:
        return self.position, self.head


@dataclass(frozen=True, slots=True)
class InkColumn:
    """What one voice strikes at a written moment. ``graces``: the columns of grace notes before it, in order."""

    onset: Fraction
    voice: VoiceName | None
    heads: tuple[InkHead, ...]
    signs: frozenset[str]
    graces: tuple[tuple[InkHead, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class _Record:
    """One column as it stands in the file."""

    line: int
    moment: Fraction
    grace: Fraction
    stem: int
    heads: tuple[InkHead, ...]
    signs: frozenset[str]


def columns(file: Path, lines: Lines) -> Mapping[str | None, tuple[InkColumn, ...]]:
    """By passage; under None what no passage accounts for."""
    found: dict[str | None, list[_Record]] = defaultdict(list)
    for record in _records(file.read_text("utf-8")):
        found[lines.passage(record.line)].append(record)
    return {name: tuple(_with_graces(records)) for name, records in found.items()}


def repeated_bars(file: Path, lines: Lines) -> Mapping[str | None, tuple[Fraction, ...]]:
    """By passage: where the bars begin that are a sign for the bar before them."""
    found: dict[str | None, list[Fraction]] = defaultdict(list)
    for line, moment in re.findall(r"^repeated (\d+) (\S+)$", file.read_text("utf-8"), re.MULTILINE):
        found[lines.passage(int(line))].append(Fraction(moment))
    return {name: tuple(moments) for name, moments in found.items()}


def _with_graces(records: Iterable[_Record]) -> Iterator[InkColumn]:
    """Grace notes stand on the line of the source, and at the moment, of the note they lead to."""
    together: dict[tuple[int, Fraction], list[_Record]] = defaultdict(list)
    for record in records:
        together[record.line, record.moment].append(record)
    for group in together.values():
        graces = tuple(r.heads for r in sorted(group, key=lambda r: r.grace) if r.grace)
        plain = [record for record in group if not record.grace]
        for record in plain:
            voice = {1: VoiceName.UPPER, -1: VoiceName.LOWER}.get(record.stem)
            yield InkColumn(record.moment, voice, record.heads, record.signs, graces)
        if not plain:
            yield InkColumn(group[0].moment, None, (), frozenset(), graces)


def _records(text: str) -> Iterator[_Record]:
    for block in re.split(r"^column ", text, flags=re.MULTILINE)[1:]:
        first, *rest = block.splitlines()
        line, moment, grace, stem = first.split(" ")
        heads = tuple(_head(row) for row in rest if row.startswith("head "))
        is_open = bool(re.search(r"^head .*noteheads\.[sud]-?[01]", block, re.MULTILINE))
        signs = frozenset(_sign(row, is_open) for row in rest if not row.startswith("head "))
        yield _Record(int(line), Fraction(moment), Fraction(grace), int(stem), heads, signs)


def _head(row: str) -> InkHead:
    _, position, glyph, size, look = row.split(" ")
    shape = re.fullmatch(r"noteheads\.[sud]-?\d(\w*)", glyph)
    name = HEADS.get(shape[1], shape[1]) if shape else glyph or "invisible"
    return InkHead(int(position), name, look == "(", float(size) < 0)


def _sign(row: str, is_open: bool) -> str:
    """One slash is two strokes on a black head only: on an open one it divides into eighths too, and these are more."""
    kind, *drawn = row.split(" ")
    if kind == "slashes" and "z" not in drawn:
        slashes = f"{drawn[0]} slash{'' if drawn[0] == '1' else 'es'}"
        return f"{slashes} on an open head" if is_open else "double" if drawn[0] == "1" else slashes
    words = [word for word in drawn if not word.isdigit()]
    return SIGNS.get(words[0], words[0]) if words and words[0] else "invisible sign"
