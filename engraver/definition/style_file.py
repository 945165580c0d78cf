"""style.yaml: notation and page decisions, each with a default; the author's own rows of the kit."""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, ClassVar

from engraver.definition.keys import Json, ListOf, Reading, Record, Rejected, Written, key, quote
from engraver.definition.kinds import YES_NO, Choice, Line, Parsed, Whole
from engraver.definition.source import Entries, Node, Scalar
from engraver.errors import Position, Problem
from engraver.rhythm import Instrument, Limbs
from engraver.style import PAPERS, Counting, GhostLook, Kit, KitRow, Rests, Style, languages

HEADS = ("normal", "x", "diamond", "triangle", "slash", "circle x")
SIGNS = ("none", "open", "half open", "closed")
_OFF_THE_STAFF = 99
_NEEDED = {"position": "place", "limbs": "limbs", "key": "midi"}  # of a new instrument, and their fields


def _staff_size(text: str) -> float:
    if not text.replace(".", "", 1).isascii() or not 8 <= float(text) <= 40:
        raise ValueError(text)
    return float(text)


def _design(text: str) -> str:
    if not text.isidentifier() or not text.isascii():
        raise ValueError(text)
    return text


@dataclass(frozen=True, slots=True, kw_only=True)
class RowDefinition(Written):
    """Part of a row of the kit: what is left out stays as it was."""

    place: int | None = key(
        Whole(-12, 12, "a staff position"), "0 the middle line, 1 up each line or space", None, "position"
    )
    head: str | None = key(Choice({head: head for head in HEADS}, "a notehead"), "the notehead", None)
    sign: str | None = key(Choice({sign: sign for sign in SIGNS}, "a sign"), "the sign over the note", None)
    limbs: Limbs | None = key(
        Choice({"hands": Limbs.HANDS, "feet": Limbs.FEET}, "hands or feet"), "who strikes it", None
    )
    midi: int | None = key(Whole(0, 127, "a MIDI key"), "the General MIDI percussion key", None, "key")
    label: str | None = key(Line(60), "what the notation key calls it", None)
    aliases: tuple[str, ...] | None = key(ListOf(Line(60)), "other names to write it by", None)
    noun: ClassVar[str] = "row of the kit"


@dataclass(frozen=True, slots=True)
class _KitRows:
    def read(self, node: Node, reading: Reading) -> tuple[tuple[Scalar, RowDefinition | None], ...]:
        if not isinstance(node, Entries):
            raise reading.reject(node.position, f"{quote(node)} is not a kit", "write snare: {head: x}")
        return tuple(self._rows(node, reading))

    def _rows(self, node: Entries, reading: Reading) -> Iterator[tuple[Scalar, RowDefinition | None]]:
        for name, value in node.entries:
            try:
                Line(60).read(name, reading)
                yield name, Record(RowDefinition).read(value, reading)
            except Rejected:
                yield name, None

    def json(self) -> Json:
        return {"type": "object", "additionalProperties": Record(RowDefinition).json()}


@dataclass(frozen=True, slots=True, kw_only=True)
class StyleFile(Written):
    design: str = key(
        Parsed(_design, "the name of a design", "write workbook"), "the folder of page templates", "workbook"
    )
    paper: str = key(Choice({name: name for name in PAPERS}, "a paper"), "the page", "A4")
    staff_size: float = key(Parsed(_staff_size, "a staff size", "write 8 to 40"), "height of the staff in points", 21.0)
    language: str = key(
        Choice({name: name for name in languages()}, "a language that there are words for"),
        "the language of the printed words",
        "en",
    )
    ghosts: GhostLook = key(
        Choice({look.value: look for look in GhostLook}, "a look"), "how ghosts look", GhostLook.PARENTHESES
    )
    counting: Counting = key(
        Choice({c.value: c for c in Counting}, "a choice"), "where syllables stand", Counting.FIRST_BAR
    )
    rests: Rests = key(Choice({rests.value: rests for rests in Rests}, "a choice"), "how many rests", Rests.SPARING)
    sticking: bool = key(YES_NO, "whether sticking is printed", True)
    colours: bool = key(YES_NO, "whether cells are coloured", True)
    handedness: bool = key(Choice({"right": False, "left": True}, "a hand"), "the leading hand", False)
    kit: tuple[tuple[Scalar, RowDefinition | None], ...] = key(_KitRows(), "instruments changed or added", ())
    noun: ClassVar[str] = "style"


def style_of(file: StyleFile, reading: Reading) -> Style:
    """The style that a file describes; faults in its kit are noted and the standard kit kept."""
    kit = _kit(file, reading)
    return Style(
        design=file.design,
        paper=PAPERS[file.paper],
        staff_size=file.staff_size,
        language=file.language,
        ghosts=file.ghosts,
        counting=file.counting,
        rests=file.rests,
        sticking=file.sticking,
        colours=file.colours,
        left_handed=file.handedness,
        kit=kit,
    )


def _kit(file: StyleFile, reading: Reading) -> Kit:
    standard = Style().kit
    rows: dict[Instrument, tuple[KitRow, Position]] = {}
    for name, definition in file.kit:
        try:
            row = _row(name, definition, standard, reading)
        except Rejected:
            row = _stand_in(name)
        if row.instrument in rows:
            line = rows[row.instrument][1].line
            reading.problems.append(Problem(name.position, f"{row.instrument} is already written in line {line}"))
        rows[row.instrument] = row, name.position
    kit = standard.with_rows(row for row, _ in rows.values())
    reading.problems.extend(_check_kit(kit, {instrument: place for instrument, (_, place) in rows.items()}))
    return kit


def _stand_in(name: Scalar) -> KitRow:
    """A row for a name whose own has a fault: no book is made, but grooves that use the name are not blamed."""
    return KitRow(Instrument(" ".join(name.text.lower().split())), name.text, _OFF_THE_STAFF, Limbs.HANDS, 0)


def _row(name: Scalar, definition: RowDefinition | None, kit: Kit, reading: Reading) -> KitRow:
    if definition is None:
        raise Rejected
    word = " ".join(name.text.lower().split())
    instrument = {each.lower(): known for each, known in kit.names().items()}.get(word, Instrument(word))
    changes = _changes(definition)
    if instrument in kit:
        return replace(kit[instrument], **changes)
    written = {name for name, _ in definition.places}
    missing = [name for name, place in _NEEDED.items() if place not in written]
    if missing:
        message = f'"{name.text}" is not in the standard kit and has no {", ".join(missing)}'
        raise reading.reject(name.position, message, "write all of position, limbs and key for a new instrument")
    if not changes.keys() >= _NEEDED.keys():
        raise Rejected  # what was written has a fault, and that is noted
    return KitRow(instrument=instrument, **{"label": word, **changes})


def _changes(definition: RowDefinition) -> dict[str, Any]:
    sign = "" if definition.sign == "none" else definition.sign
    wanted = {
        "position": definition.place,
        "head": definition.head,
        "sign": sign,
        "limbs": definition.limbs,
        "key": definition.midi,
        "label": definition.label,
        "aliases": definition.aliases,
    }
    return {name: value for name, value in wanted.items() if value is not None}


def _check_kit(kit: Kit, places: dict[Instrument, Position]) -> Iterator[Problem]:
    """Two instruments that look the same cannot be told apart; two of one name cannot be written."""
    seen: dict[tuple[int, str, str], KitRow] = {}
    names: dict[str, Instrument] = {}
    for row in sorted(kit.rows, key=lambda row: row.instrument in places):
        other = seen.setdefault((row.position, row.head, row.sign), row)
        if other is not row and row.position != _OFF_THE_STAFF:
            message = f"{row.instrument} looks like {other.instrument}: position {row.position}, head {row.head}"
            message += f", sign {row.sign}" if row.sign else ""
            yield Problem(places[row.instrument], message, "give it another position, head or sign")
        for name in (row.instrument.name, *row.aliases):
            owner = names.setdefault(name.lower(), row.instrument)
            if owner != row.instrument:
                yield Problem(places[row.instrument], f'"{name}" already names {owner}', "give it another name")
