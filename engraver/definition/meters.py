"""The meter of a groove: one for all bars, or ranges of bars with their own; and the tempo that counts it."""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from engraver.definition.bars import Numbers, no_bar, read_range_key
from engraver.definition.keys import ByShape, Json, Reading, Record, Rejected, Written, key
from engraver.definition.kinds import METER, VALUE, Whole
from engraver.definition.source import Entries, Node
from engraver.errors import Position, Problem
from engraver.rhythm import Meter

BPM = Whole(20, 400, "a tempo")


@dataclass(frozen=True, slots=True)
class MeterRange:
    """``bars`` None: all bars."""

    meter: Meter
    position: Position
    bars: Numbers | None = None


@dataclass(frozen=True, slots=True)
class _OneMeter:
    def read(self, node: Node, reading: Reading) -> tuple[MeterRange, ...]:
        return (MeterRange(METER.read(node, reading), node.position),)

    def json(self) -> Json:
        return METER.json()


@dataclass(frozen=True, slots=True)
class _ChangingMeter:
    def read(self, node: Node, reading: Reading) -> tuple[MeterRange, ...]:
        assert isinstance(node, Entries)
        ranges = tuple(self._ranges(node, reading))
        if len(ranges) < len(node.entries):
            raise Rejected
        if not ranges:
            raise reading.reject(node.position, "there is no meter here", "write bars 1-3: 4/4")
        return ranges

    def _ranges(self, node: Entries, reading: Reading) -> Iterator[MeterRange]:
        for name, value in node.entries:
            try:
                bars = read_range_key(name, reading)
                yield MeterRange(METER.read(value, reading), name.position, bars)
            except Rejected:
                continue

    def json(self) -> Json:
        return {"type": "object", "additionalProperties": False, "patternProperties": {"^[Bb]ars? +": METER.json()}}


METERS = ByShape(scalar=_OneMeter(), entries=_ChangingMeter())


@dataclass(frozen=True, slots=True, kw_only=True)
class TempoDefinition(Written):
    """``beat`` None: the beat of the first meter."""

    bpm: int = key(BPM, "beats a minute")
    beat: Fraction | None = key(VALUE, "the note value that is counted", None)
    noun: ClassVar[str] = "tempo"


@dataclass(frozen=True, slots=True)
class _PlainTempo:
    def read(self, node: Node, reading: Reading) -> TempoDefinition:
        return TempoDefinition(position=node.position, bpm=BPM.read(node, reading))

    def json(self) -> Json:
        return BPM.json()


TEMPO = ByShape(scalar=_PlainTempo(), entries=Record(TempoDefinition))


def counted_beat(meter: Meter) -> Fraction:
    """What a plain tempo number counts: the dotted beat of 6/8, 9/8, 12/8; else the unit of the signature.

    Common practice, no source; 3/8 counts eighths, since its one beat would be the bar.
    """
    return Fraction(3, meter.unit) if meter.is_compound and len(meter.beats) > 1 else Fraction(1, meter.unit)


def meters_of(ranges: tuple[MeterRange, ...], bars: int) -> Iterator[tuple[Meter | None, int]]:
    """For each bar its meter, None where no range names it, and how many ranges do."""
    for number in range(1, bars + 1):
        found = [each.meter for each in ranges if each.bars is None or number in each.bars.numbers]
        yield (found[0] if found else None), len(found)


def check_meters(ranges: tuple[MeterRange, ...], bars: int) -> Iterator[Problem]:
    """Every bar has one meter, and no range names a bar that is not there."""
    for each in ranges:
        if each.bars and each.bars.last > bars:
            yield no_bar(each.position, each.bars.last, bars)
    for number, (_, count) in enumerate(meters_of(ranges, bars), 1):
        if count != 1:
            fault = "no meter" if count == 0 else f"{count} meters"
            yield Problem(ranges[0].position, f"bar {number} has {fault}", "give each bar one meter")
