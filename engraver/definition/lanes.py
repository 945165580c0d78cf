"""A lane: what one instrument (or a pair of limbs) does, as a pattern, by ranges of bars, or as a cycle."""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from engraver.definition.bars import Numbers, parse_numbers, read_range_key
from engraver.definition.keys import Json, Reading, Record, Rejected, Written, key, keys_of, quote, refuse_parted
from engraver.definition.kinds import VALUE, InstrumentName, Parsed, Whole
from engraver.definition.pattern import SIDES, STROKES, Pattern, PatternLine
from engraver.definition.source import Entries, Node, Scalar
from engraver.errors import Position, Problem, a, nearest
from engraver.rhythm import Instrument

STROKE_LINE = PatternLine(frozenset(STROKES))
STICKING_LINE = PatternLine(frozenset(SIDES))
PICKUP = "pickup"


def _restart(text: str) -> int:
    match = re.fullmatch(r"\s*([0-9]{1,2})(\s+bars?)?\s*", text)
    if not match or int(match[1]) < 1:
        raise ValueError(text)
    return int(match[1])


RESTART = Parsed(_restart, "a number of bars", "write 2 bars")


@dataclass(frozen=True, slots=True)
class Copy:
    """``as bar 1``, ``as bars 1-2``."""

    bars: Numbers
    position: Position


@dataclass(frozen=True, slots=True, kw_only=True)
class StrokeContent(Written):
    """A pattern that fills its range, or a cycle that runs through it."""

    pattern: Pattern | None = key(STROKE_LINE, "marks that fill the range", None)
    cycle: Pattern | None = key(STROKE_LINE, "marks that repeat without regard to bar lines", None)
    start: int = key(Whole(1, 4096, "a step"), "the step, from 1, on which the cycle begins", 1)
    restart: int | None = key(RESTART, "bars after which the cycle starts over", None)
    step: Fraction | None = key(VALUE, "the note value of one mark", None)
    noun: ClassVar[str] = "row of strokes"


@dataclass(frozen=True, slots=True, kw_only=True)
class StickingContent(StrokeContent):
    """The same for a row of sticking."""

    pattern: Pattern | None = key(STICKING_LINE, "letters that fill the range", None)
    cycle: Pattern | None = key(STICKING_LINE, "letters that repeat without regard to bar lines", None)
    noun: ClassVar[str] = "row of sticking"


@dataclass(frozen=True, slots=True)
class Part:
    """What fills some bars of a lane. ``bars`` None: all that the layer has; ``is_pickup``: the pickup alone."""

    content: StrokeContent | Copy
    position: Position
    bars: Numbers | None = None
    is_pickup: bool = False
    step: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Lane:
    """``position`` is that of the name the lane was written under."""

    parts: tuple[Part, ...]
    position: Position


@dataclass(frozen=True, slots=True)
class LaneKind:
    """Reads the parts of a lane: a pattern, or a mapping of its own keys, ranges of bars and the pickup."""

    content: type[StrokeContent]
    line: PatternLine

    def read(self, node: Node, reading: Reading) -> tuple[Part, ...]:
        if isinstance(node, Entries) and node.entries:
            return self._mapping(node, reading)
        return (Part(self._plain(node, reading), node.position),)

    def _plain(self, node: Node, reading: Reading) -> StrokeContent:
        if not isinstance(node, Scalar):
            hint = 'write a pattern, bars 1-2: "x---", or {cycle: "x--"}'
            raise reading.reject(node.position, f"{quote(node)} is not a pattern", hint)
        return self.content(position=node.position, pattern=self.line.read(node, reading))

    def _mapping(self, node: Entries, reading: Reading) -> tuple[Part, ...]:
        refuse_parted(node, reading)
        own_names = {each.name for each in keys_of(self.content)}
        own = tuple((name, value) for name, value in node.entries if name.text in own_names)
        ranges = [(name, value) for name, value in node.entries if name.text not in own_names]
        before = len(reading.problems)
        parts = [part for name, value in ranges if (part := self._range(name, value, own_names, reading))]
        if any(name.text != "step" for name, _ in own) or not ranges:
            content = self._content(Entries(own, node.position), reading)
            parts.append(Part(content, content.position))
        elif own:
            step = VALUE.read(own[0][1], reading)
            parts = [Part(part.content, part.position, part.bars, part.is_pickup, step) for part in parts]
        if len(reading.problems) > before:
            raise Rejected
        return tuple(parts)

    def _range(self, name: Scalar, value: Node, own_names: set[str], reading: Reading) -> Part | None:
        try:
            if name.text == PICKUP:
                return Part(self._content(value, reading), name.position, is_pickup=True)
            near = nearest(name.text, own_names)
            if near and not name.text.lower().startswith("bar"):
                message = f"{quote(name)} is not a key of {a(self.content.noun)}"
                raise reading.reject(name.position, message, f'did you mean "{near}"?')
            bars = read_range_key(name, reading)
            return Part(self._copy(value, reading) or self._content(value, reading), name.position, bars)
        except Rejected:
            return None

    def _copy(self, node: Node, reading: Reading) -> Copy | None:
        match = re.fullmatch(r"\s*as\s+bars?\s+(.*?)\s*", node.text) if isinstance(node, Scalar) else None
        if match is None:
            return None
        try:
            return Copy(parse_numbers(match[1]), node.position)
        except ValueError:
            hint = "write as bar 1, or as bars 1-2"
            raise reading.reject(node.position, f"{quote(node)} does not name bars", hint) from None

    def _content(self, node: Node, reading: Reading) -> StrokeContent:
        if isinstance(node, Scalar):
            return self._plain(node, reading)
        content: StrokeContent = Record(self.content).read(node, reading)
        if (content.pattern is None) == (content.cycle is None):
            if any(content.at(name) != content.position for name in ("pattern", "cycle")) and not content.pattern:
                raise Rejected  # what was written has a fault, and that is noted
            both = "a pattern and a cycle" if content.pattern else "neither a pattern nor a cycle"
            raise reading.reject(
                content.position, f"this {self.content.noun} has {both}", 'write pattern: "x---" or cycle: "x--"'
            )
        stray = next((name for name in ("start", "restart") if content.at(name) != content.position), None)
        if stray and content.cycle is None:
            raise reading.reject(content.at(stray), f"{stray} is for a cycle only", "write cycle: instead of pattern:")
        return content

    def json(self) -> Json:
        line = self.line.json()
        own = Record(self.content).json()
        within = {"anyOf": [line, own]}
        copied = {"type": "string", "pattern": "^ *as +bars? +[0-9]"}
        return {
            "anyOf": [
                line,
                {
                    **own,
                    "properties": {**own["properties"], PICKUP: within},
                    "patternProperties": {"^[Bb]ars? +[0-9]": {"anyOf": [copied, line, own]}},
                },
            ]
        }


@dataclass(frozen=True, slots=True)
class StrokesKind:
    """A mapping of instruments to their lanes; two names of one instrument are one instrument."""

    lane: LaneKind = LaneKind(StrokeContent, STROKE_LINE)

    def read(self, node: Node, reading: Reading) -> tuple[tuple[Instrument, Lane], ...]:
        if not isinstance(node, Entries):
            hint = 'write snare: "----X---"'
            raise reading.reject(node.position, f"{quote(node)} is not a mapping of instruments to patterns", hint)
        lanes: dict[Instrument, Lane] = {}
        for name, value in node.entries:
            try:
                self._add(name, value, lanes, reading)
            except Rejected:
                continue
        return tuple(lanes.items())

    def _add(self, name: Scalar, value: Node, lanes: dict[Instrument, Lane], reading: Reading) -> None:
        parts: Any = None
        try:
            instrument = InstrumentName().read(name, reading)
        finally:
            parts = self.lane.read(value, reading)
        if instrument in lanes:
            line = lanes[instrument].position.line
            reading.problems.append(
                Problem(
                    name.position,
                    f'"{name.text}" is {instrument}, which is already written in line {line}',
                    "write one row for each instrument",
                )
            )
        else:
            lanes[instrument] = Lane(parts, name.position)

    def json(self) -> Json:
        return {"type": "object", "additionalProperties": self.lane.json()}
