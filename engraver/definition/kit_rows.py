"""Rows of the kit in style.yaml: instruments changed or added. In: what is written. Out: a `Kit`, faults noted."""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any, ClassVar

from engraver.definition.keys import Json, ListOf, Reading, Record, Rejected, Written, key, quote
from engraver.definition.kinds import YES_NO, Choice, Line, Whole
from engraver.definition.kit_places import at_their_surfaces, faults
from engraver.definition.source import Entries, Node, Scalar
from engraver.errors import Position, Problem
from engraver.rhythm import Instrument, Limbs, Pedal, Side
from engraver.style import Kit, KitRow, Stem

HEADS = ("normal", "x", "diamond", "triangle", "slash", "circle x")
SIGNS = ("none", "open", "half open", "closed")
_OFF_THE_STAFF = 99
_NEEDED = {"position": "place", "limbs": "limbs", "key": "midi"}  # of a new instrument, and their fields


@dataclass(frozen=True, slots=True, kw_only=True)
class RowDefinition(Written):
    """Part of a row of the kit: what is left out stays as it was."""

    place: int | None = key(
        Whole(-12, 12, "a staff position"), "0 the middle line, 1 up for each line or space", None, "position"
    )
    head: str | None = key(Choice({head: head for head in HEADS}, "a notehead"), "the notehead", None)
    sign: str | None = key(Choice({sign: sign for sign in SIGNS}, "a sign"), "the sign over the note", None)
    limbs: Limbs | None = key(
        Choice({"hands": Limbs.HANDS, "feet": Limbs.FEET}, "hands or feet"), "who strikes it", None
    )
    stem: Stem | None = key(
        Choice({"up": Stem.UP, "down": Stem.DOWN}, "a direction of stems"),
        "its voice, where there are two; hands have stems up and feet down",
        None,
    )
    midi: int | None = key(Whole(0, 127, "a MIDI key"), "the General MIDI percussion key", None, "key")
    label: str | None = key(Line(60), "what the notation key calls it", None)
    aliases: tuple[str, ...] | None = key(ListOf(Line(60)), "other names to write it by", None)
    across: int | None = key(
        Whole(-30, 30, "a number of decimetres"),
        "decimetres to the right of the hi-hat on a right-handed player's set, to its left with a minus; left out, "
        "nothing is said of the way",
        None,
    )
    surface: str | None = key(
        Line(60), "the instrument that it is another sound of, and where it stands; left out, one of its own", None
    )
    foot: Side | None = key(
        Choice({"right": Side.RIGHT, "left": Side.LEFT}, "right or left"), "the foot that plays it", None
    )
    pedal: Pedal | None = key(
        Choice({pedal.value: pedal for pedal in Pedal}, "a use of the hi-hat's pedal"),
        "what a stroke asks of the hi-hat's pedal",
        None,
    )
    lead: bool | None = key(YES_NO, "whether the leading hand keeps time on it", None)
    small: bool | None = key(YES_NO, "whether it has no room for two sticks", None)
    noun: ClassVar[str] = "row of the kit"


Rows = tuple[tuple[Scalar, RowDefinition | None], ...]  # the name of each, and None where its row has a fault


@dataclass(frozen=True, slots=True)
class KitRows:
    def read(self, node: Node, reading: Reading) -> Rows:
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


def kit_of(rows: Rows, standard: Kit, reading: Reading) -> Kit:
    """The rows laid over a kit, what is left out in them as it is there; faults are noted."""
    own: dict[Instrument, tuple[KitRow, Position]] = {}
    written: dict[Instrument, dict[str, Position]] = {}
    for name, definition in rows:
        try:
            row = _row(name, definition, standard, reading)
        except Rejected:
            row = _stand_in(name)
        if row.instrument in own:
            line = own[row.instrument][1].line
            message = f"{row.instrument} is already written in line {line}"
            reading.problems.append(Problem(name.position, message, "write one row for each instrument"))
        own[row.instrument] = row, name.position
        written[row.instrument] = dict(definition.places) if definition else {}
    kit = at_their_surfaces(standard.with_rows(row for row, _ in own.values()), written)
    reading.problems.extend(_check(kit, {instrument: place for instrument, (_, place) in own.items()}))
    reading.problems.extend(faults(kit, written))
    return kit


def _stand_in(name: Scalar) -> KitRow:
    """A row for a name whose own has a fault: no book is made, but grooves that use the name are not blamed."""
    return KitRow(Instrument(_word(name)), name.text, _OFF_THE_STAFF, Limbs.HANDS, 0)


def _word(name: Scalar) -> str:
    return " ".join(name.text.lower().split())


def _row(name: Scalar, definition: RowDefinition | None, kit: Kit, reading: Reading) -> KitRow:
    if definition is None:
        raise Rejected
    word = _word(name)
    instrument = {each.lower(): known for each, known in kit.names().items()}.get(word, Instrument(word))
    changes = _changes(definition)
    if instrument in kit:
        return replace(kit[instrument], **changes)
    written = {name for name, _ in definition.places}
    missing = [name for name, place in _NEEDED.items() if place not in written]
    if missing:
        message = f'"{name.text}" is not in the standard kit and has no {" and no ".join(missing)}'
        raise reading.reject(name.position, message, "write all of position, limbs and key for a new instrument")
    if not changes.keys() >= _NEEDED.keys():
        raise Rejected  # what was written has a fault, and that is noted
    return KitRow(instrument=instrument, **{"label": word, **changes})


def _changes(definition: RowDefinition) -> dict[str, Any]:
    wanted = {
        "position": definition.place,
        "head": definition.head,
        "sign": "" if definition.sign == "none" else definition.sign,
        "limbs": definition.limbs,
        "stem": definition.stem,
        "key": definition.midi,
        "label": definition.label,
        "aliases": definition.aliases,
        "across": definition.across,
        "surface": definition.surface,
        "foot": definition.foot,
        "pedal": definition.pedal,
        "lead": definition.lead,
        "small": definition.small,
    }
    return {name: value for name, value in wanted.items() if value is not None}


def _check(kit: Kit, places: dict[Instrument, Position]) -> Iterator[Problem]:
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


def stems_set(rows: Rows) -> Iterable[Position]:
    """Where a row says which way stems go."""
    return (row.at("stem") for _, row in rows if row and row.stem)
