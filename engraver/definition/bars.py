"""Bars and beats as the author counts them, from 1: ``4``, ``1-4``, ``1,3-4``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from engraver.definition.keys import Json, Reading, quote
from engraver.definition.kinds import scalar
from engraver.definition.source import Node, Scalar
from engraver.errors import Position, Problem

_RUN = r"[0-9]{1,3}(?:\s*-\s*[0-9]{1,3})?"
_RUNS = rf"{_RUN}(?:\s*,\s*{_RUN})*"


@dataclass(frozen=True, slots=True)
class Numbers:
    """Bars or beats counted from 1, in rising order, each once."""

    numbers: tuple[int, ...]

    def __str__(self) -> str:
        return ",".join(f"{a}" if a == b else f"{a}-{b}" for a, b in self.runs)

    @property
    def name(self) -> str:
        return f"{'bar' if len(self.numbers) == 1 else 'bars'} {self}"

    @property
    def runs(self) -> tuple[tuple[int, int], ...]:
        """First and last of each run without a gap."""
        runs: list[tuple[int, int]] = []
        for number in self.numbers:
            if runs and runs[-1][1] == number - 1:
                runs[-1] = (runs[-1][0], number)
            else:
                runs.append((number, number))
        return tuple(runs)

    @property
    def first(self) -> int:
        return self.numbers[0]

    @property
    def last(self) -> int:
        return self.numbers[-1]


def no_bar(place: Position, number: int, bars: int) -> Problem:
    return Problem(place, f"there is no bar {number}: the groove has {bars}", "bars: says how many there are")


def parse_numbers(text: str) -> Numbers:
    """Raises ValueError for anything but rising numbers and runs from 1 up."""
    if not re.fullmatch(_RUNS, text.strip()):
        raise ValueError(text)
    numbers: list[int] = []
    for run in text.split(","):
        ends = [int(end) for end in run.split("-")]
        numbers.extend(range(ends[0], ends[-1] + 1))
        if ends[-1] < ends[0]:
            raise ValueError(text)
    if numbers[0] < 1 or sorted(set(numbers)) != numbers:
        raise ValueError(text)
    return Numbers(tuple(numbers))


@dataclass(frozen=True, slots=True)
class NumbersKind:
    """``unit`` is bars or beats; ``whole``: one run without a gap."""

    unit: str = "bars"
    whole: bool = False

    def read(self, node: Node, reading: Reading) -> Numbers:
        node = scalar(node, reading, self._usage())
        try:
            numbers = parse_numbers(node.text)
        except ValueError:
            numbers = None
        if numbers is None or (self.whole and len(numbers.runs) > 1):
            raise reading.reject(node.position, f"{quote(node)} does not name {self.unit}", self._usage())
        return numbers

    def _usage(self) -> str:
        return "write 3 or 1-4, counted from 1" if self.whole else "write 3, 1-4 or 1,3-4, rising, counted from 1"

    def json(self) -> Json:
        pattern = _RUN if self.whole else _RUNS
        return {"anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "pattern": f"^{pattern}$"}]}


RANGE_KEY = re.compile(rf"bars?\s+({_RUNS})")


def read_range_key(name: Scalar, reading: Reading) -> Numbers:
    """The key of a range: ``bar 2``, ``bars 1,3-4``."""
    match = RANGE_KEY.fullmatch(" ".join(name.text.lower().split()))
    try:
        return parse_numbers(match[1] if match else "")
    except ValueError:
        hint = "write bar 2, or bars 1,3-4 with rising numbers counted from 1"
        raise reading.reject(name.position, f"{quote(name)} does not name bars", hint) from None
