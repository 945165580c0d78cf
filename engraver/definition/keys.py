"""What a key of the author's YAML may hold: one declaration that the reader reads by and the JSON Schema is made from.

A definition is a dataclass whose fields are declared with `key`; `Record` reads a mapping into one.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, dataclass, field
from itertools import pairwise
from typing import Any, ClassVar, Protocol

from engraver.definition.source import Entries, Items, Node, Scalar
from engraver.errors import Position, Problem, a, meant
from engraver.rhythm import Instrument
from engraver.style import Style

Json = dict[str, Any]


class Rejected(Exception):
    """This node was no good; the problem is noted already."""


@dataclass(slots=True)
class Reading:
    """One file being read: what may be named in it, and the faults found so far."""

    style: Style
    problems: list[Problem] = field(default_factory=list)
    unsound: set[str] = field(default_factory=set)  # outermost keys with a fault somewhere below
    instruments: Mapping[str, Instrument] = field(init=False, repr=False)  # by every name, in small letters

    def __post_init__(self) -> None:
        self.instruments = {name.lower(): instrument for name, instrument in self.style.kit.names().items()}

    def reject(self, position: Position, message: str, hint: str = "") -> Rejected:
        self.problems.append(Problem(position, message, hint))
        return Rejected()


class Kind(Protocol):
    """How one value is read, and what JSON Schema says of it."""

    def read(self, node: Node, reading: Reading) -> Any:
        """The value; raises Rejected once the problem is noted."""

    def json(self) -> Json: ...


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a mapping. ``name`` is what the author writes."""

    name: str
    kind: Kind
    doc: str
    required: bool
    field: str


def key(kind: Kind, doc: str, default: Any = MISSING, name: str = "") -> Any:
    """Declare a field that the author writes; without a default it is required."""
    metadata = {"kind": kind, "doc": doc, "name": name}
    return field(metadata=metadata) if default is MISSING else field(default=default, metadata=metadata)


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What the author wrote in a mapping. ``position`` is where it begins, ``places`` where its values stand."""

    position: Position
    places: tuple[tuple[str, Position], ...] = field(default=(), repr=False)
    noun: ClassVar[str] = "mapping"

    def at(self, name: str) -> Position:
        """Where the value of a field stands; the mapping itself if the author left it out."""
        return next((place for key_name, place in self.places if key_name == name), self.position)


def keys_of(record: type[Written]) -> Iterator[Key]:
    for declared in dataclasses.fields(record):
        if "kind" in declared.metadata:
            name = declared.metadata["name"] or declared.name.replace("_", " ")
            required = declared.default is MISSING
            yield Key(name, declared.metadata["kind"], declared.metadata["doc"], required, declared.name)


def refuse_parted(node: Entries, reading: Reading) -> None:
    """Raises Rejected where a comma within braces has cut ``bars 1,3-4`` in two: the rest then is a key of its own."""
    for (before, _), (name, _) in pairwise(node.entries):
        in_braces = before.position.line == name.position.line
        if in_braces and name.is_plain and re.fullmatch(r"[0-9]+( *- *[0-9]+)?", name.text):
            hint = "put quotes around numbers with a comma between them, or write them on a line of their own"
            raise reading.reject(name.position, f"the comma before {name.text} begins another key within braces", hint)


def quote(node: Node) -> str:
    """A node as messages name it."""
    if isinstance(node, Scalar):
        return f'"{node.text if len(node.text) <= 60 else node.text[:57] + "..."}"'
    return "a list" if isinstance(node, Items) else "a mapping"


@dataclass(frozen=True, slots=True)
class Record:
    """A mapping of known keys. A key with a fault takes its default, so that the rest can still be checked."""

    record: type[Written]

    def read(self, node: Node, reading: Reading) -> Any:
        return self._read(node, reading, outermost=False)

    def read_file(self, node: Node, reading: Reading) -> Any:
        """The mapping of a whole file: notes in ``reading.unsound`` which of its keys have faults."""
        return self._read(node, reading, outermost=True)

    def _read(self, node: Node, reading: Reading, outermost: bool) -> Any:
        if not isinstance(node, Entries):
            raise reading.reject(node.position, f"{quote(node)} is not {a(self.record.noun)}", self._shape())
        refuse_parted(node, reading)
        known = {each.name: each for each in keys_of(self.record)}
        values: dict[str, Any] = {}
        places: list[tuple[str, Position]] = []
        for name, value in node.entries:
            if (declared := known.get(name.text)) is None:
                self._unknown(name, known, reading)
            elif not (isinstance(value, Scalar) and value.is_blank):
                places.append((declared.field, value.position))
                before = len(reading.problems)
                try:
                    values[declared.field] = declared.kind.read(value, reading)
                except Rejected:
                    values.setdefault("", None)
                if outermost and len(reading.problems) > before:
                    reading.unsound.add(declared.field)
        self._demand(node, known, values, places, reading)
        values.pop("", None)
        return self.record(position=node.position, places=tuple(places), **values)

    def _demand(
        self,
        node: Entries,
        known: Mapping[str, Key],
        values: Mapping[str, Any],
        places: list[tuple[str, Position]],
        reading: Reading,
    ) -> None:
        written = {name for name, _ in places}
        needed = [each for each in known.values() if each.required]
        for each in needed:
            if each.field not in written:
                hint = f"add {each.name}: {each.doc}"
                reading.problems.append(Problem(node.position, f'this {self.record.noun} has no "{each.name}"', hint))
        if any(each.field not in values for each in needed):
            raise Rejected

    def _unknown(self, name: Scalar, known: Mapping[str, Key], reading: Reading) -> None:
        hint = meant(name.text, known, self._usage())
        if "strokes" in known and name.text.lower() in reading.instruments:
            hint = "indent it farther than strokes:, which holds the instruments"
        reading.problems.append(Problem(name.position, f'"{name.text}" is not a key of {a(self.record.noun)}', hint))

    def _shape(self) -> str:
        keys = tuple(keys_of(self.record))
        needed = [each.name for each in keys if each.required] or [keys[0].name]
        return f"write {', '.join(f'{name}: ...' for name in needed)}; {self._usage()}"

    def _usage(self) -> str:
        return f"{a(self.record.noun)} has {', '.join(each.name for each in keys_of(self.record))}"

    def json(self) -> Json:
        keys = list(keys_of(self.record))
        properties = {each.name: {"description": each.doc, **each.kind.json()} for each in keys}
        required = [each.name for each in keys if each.required]
        return {"type": "object", "additionalProperties": False, "properties": properties, "required": required}


@dataclass(frozen=True, slots=True)
class ListOf:
    """A list of one kind; items with a fault are left out so that the rest can still be checked."""

    kind: Kind
    most: int = 200
    least: int = 0
    what: str = "a list"

    def read(self, node: Node, reading: Reading) -> tuple[Any, ...]:
        if not isinstance(node, Items):
            raise reading.reject(
                node.position, f"{quote(node)} is not {self.what}", "begin each item with -, or use [ ]"
            )
        if not self.least <= len(node.items) <= self.most:
            if not node.items:
                raise reading.reject(node.position, "this list is empty", "fill it, or leave the key out")
            limit = f"at least {self.least}" if len(node.items) < self.least else f"at most {self.most}"
            raise reading.reject(node.position, f"this list has {len(node.items)} items", f"{limit} can stand here")
        values = []
        for item in node.items:
            try:
                values.append(self.kind.read(item, reading))
            except Rejected:
                continue
        return tuple(values)

    def json(self) -> Json:
        return {"type": "array", "items": self.kind.json(), "minItems": self.least, "maxItems": self.most}


@dataclass(frozen=True, slots=True)
class ByShape:
    """Which kind applies is seen from the YAML itself: a scalar, a list or a mapping."""

    scalar: Kind | None = None
    items: Kind | None = None
    entries: Kind | None = None

    def read(self, node: Node, reading: Reading) -> Any:
        kind = {Scalar: self.scalar, Items: self.items, Entries: self.entries}[type(node)]
        if kind is None:
            shapes = (("one value", self.scalar), ("a list", self.items), ("a mapping", self.entries))
            hint = f"write {' or '.join(name for name, shape in shapes if shape)}"
            raise reading.reject(node.position, f"{quote(node)} cannot stand here", hint)
        return kind.read(node, reading)

    def json(self) -> Json:
        return {"anyOf": [kind.json() for kind in (self.scalar, self.items, self.entries) if kind]}
