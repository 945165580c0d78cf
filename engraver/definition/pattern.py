"""A pattern line such as ``x-xx-x-- | g--(xxx)2`` in, its marks with their places on the grid of steps out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from engraver.definition.keys import Json, Reading, Rejected
from engraver.definition.kinds import scalar
from engraver.definition.source import Node, Scalar
from engraver.errors import Position, counted
from engraver.rhythm import Ornament, Side, Touch

SILENCE = "-"
STRUCTURE = "()|0123456789"  # right in one place and wrong in another
DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212_"  # what word processors make of a hyphen, and what looks like it
CURLY_QUOTES = "\u2018\u2019\u201a\u201c\u201d\u201e\xab\xbb"
MOST_STEPS = 4096
LONGEST_LINE = 20_000  # characters, spaces and bar lines included
MOST_FAULTS = 8  # told of one line; a text that is no pattern at all has one in every place
ONE_STEP = Fraction(1)  # told by identity where thousands of marks are laid: comparing fractions takes longer

STROKES: Mapping[str, tuple[Touch, Ornament | None]] = {
    "x": (Touch.PLAIN, None),
    "X": (Touch.ACCENT, None),
    "g": (Touch.GHOST, None),
    "f": (Touch.PLAIN, Ornament.FLAM),
    "F": (Touch.ACCENT, Ornament.FLAM),
    "c": (Touch.PLAIN, Ornament.CHOKE),
    "C": (Touch.ACCENT, Ornament.CHOKE),
    "d": (Touch.PLAIN, Ornament.DRAG),
    "D": (Touch.ACCENT, Ornament.DRAG),
    "r": (Touch.PLAIN, Ornament.RUFF),
    "R": (Touch.ACCENT, Ornament.RUFF),
    "z": (Touch.PLAIN, Ornament.BUZZ),
    "Z": (Touch.ACCENT, Ornament.BUZZ),
    "=": (Touch.PLAIN, Ornament.DOUBLE),
}
SIDES: Mapping[str, Side] = {side.value: side for side in Side}


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark that is not a silence. ``at`` and ``length`` count steps; ``index`` is its place in the text."""

    letter: str
    at: Fraction
    length: Fraction
    index: int


@dataclass(frozen=True, slots=True)
class Spread:
    """``count`` marks in parentheses, spread evenly over ``steps`` steps from ``at``."""

    at: Fraction
    steps: int
    count: int
    index: int


@dataclass(frozen=True, slots=True)
class Pattern:
    scalar: Scalar
    steps: int
    marks: tuple[Mark, ...]
    spreads: tuple[Spread, ...] = ()
    bar_lines: tuple[tuple[int, int], ...] = ()  # after how many steps, place in the text

    @property
    def position(self) -> Position:
        return self.scalar.position

    def place(self, index: int) -> Position:
        return self.scalar.place(index)


@dataclass(frozen=True, slots=True)
class PatternLine:
    """``letters``: the marks allowed beside silence, those of strokes or those of sticking."""

    letters: frozenset[str]

    def read(self, node: Node, reading: Reading) -> Pattern:
        line = _Line(scalar(node, reading, "a pattern"), self.letters, reading)
        line.read()
        return line.pattern()

    def json(self) -> Json:
        allowed = re.escape("".join(sorted(self.letters)))
        return {"type": "string", "pattern": rf"^[{allowed}\-|()0-9\s]*$", "minLength": 1}


class _Line:
    """Reads one pattern from left to right; notes every mark that is wrong, not only the first."""

    def __init__(self, node: Scalar, letters: frozenset[str], reading: Reading) -> None:
        self.node, self.letters, self.reading = node, letters, reading
        self.sound = True
        self.faults = 0
        self.steps = 0
        self.marks: list[Mark] = []
        self.spreads: list[Spread] = []
        self.bar_lines: list[tuple[int, int]] = []

    def read(self) -> None:
        if len(self.node.text) > LONGEST_LINE:
            self.fault_as_whole(f"this pattern has {len(self.node.text)} characters", f"at most {LONGEST_LINE} fit")
            return
        index = 0
        while index < len(self.node.text):
            letter = self.node.text[index]
            if letter == "(":
                index = self.spread(index)
                continue
            if letter == "|":
                self.bar_lines.append((self.steps, index))
            elif not letter.isspace():
                if self.known(index) and letter != SILENCE:
                    self.marks.append(Mark(letter, Fraction(self.steps), ONE_STEP, index))
                self.steps += 1
            index += 1

    def spread(self, start: int) -> int:
        """Read ``(marks)steps`` that begins at ``start``; the index after it."""
        match = re.compile(r"\(([^()]*)\)\s*([0-9]{0,4})").match(self.node.text, start)
        if match is None:
            return self.fault_to_the_end(start)
        inner = [index for index in range(start + 1, match.end(1)) if not self.node.text[index].isspace()]
        sound = all([self.known(index) for index in inner])  # noqa: C419 - note every wrong mark
        if not match[2]:
            return self.fault(
                start, "this parenthesis has no number of steps", "write (xxx)2: spread over 2 steps", match
            )
        if not (1 <= int(match[2]) <= 64 and 2 <= len(inner) <= 64):
            message = f"{counted(len(inner), 'mark')} over {int(match[2])} cannot be spread"
            return self.fault(start, message, "2 to 64 marks go over 1 to 64 steps", match)
        if sound:
            self.add_spread(inner, int(match[2]))
        return match.end()

    def add_spread(self, inner: list[int], steps: int) -> None:
        length = Fraction(steps, len(inner))
        for number, index in enumerate(inner):
            if self.node.text[index] != SILENCE:
                self.marks.append(Mark(self.node.text[index], self.steps + number * length, length, index))
        self.spreads.append(Spread(Fraction(self.steps), steps, len(inner), inner[0]))
        self.steps += steps

    def fault(self, index: int, message: str, hint: str, match: re.Match[str] | None = None) -> int:
        self.sound = False
        self.faults += 1
        if self.faults <= MOST_FAULTS:
            width = match.end() - match.start() if match else 1
            self.reading.reject(self.node.place(index, width), message, hint)
        return match.end() if match else index + 1

    def fault_to_the_end(self, start: int) -> int:
        """A parenthesis that does not close leaves no way to tell where the marks go on."""
        nested = 0 <= self.node.text.find("(", start + 1) < self.node.text.find(")", start + 1)
        message = "a parenthesis cannot hold another" if nested else "this parenthesis is not closed"
        self.fault(start, message, "write (xxx)2: the marks spread over 2 steps")
        return len(self.node.text)

    def known(self, index: int) -> bool:
        letter = self.node.text[index]
        if letter == SILENCE or letter in self.letters:
            return True
        times = self.node.text.count(letter) if letter not in STRUCTURE else 1
        if times == 1 or letter not in self.node.text[:index]:
            more = f"; it stands here {times} times" if times > 1 else ""
            self.fault(index, f'"{letter}" is not a mark{more}', self.advice(letter))
        self.sound = False
        return False

    def advice(self, letter: str) -> str:
        if letter == "G" and "g" in self.letters:
            return "a ghost note is never accented: write g, or X for an accent"
        if letter in DASHES:
            return "silence is -, the hyphen of every keyboard"
        if letter in CURLY_QUOTES:
            return 'put straight quotes around a pattern: "x---"'
        if letter in ")0123456789":
            return "write (xxx)2: marks in parentheses, then the number of steps they are spread over"
        if letter == "|":
            return "no bar line can fall within a parenthesis"
        if letter.lower() in self.letters or letter.upper() in self.letters:
            return f"did you mean {letter.swapcase()}?"
        return f"the marks are - {' '.join(sorted(self.letters, key=lambda mark: (mark.lower(), mark.isupper())))}"

    def pattern(self) -> Pattern:
        if self.sound and not self.steps:
            self.fault_as_whole("this pattern is empty", "write a mark for each step, - for silence")
        if self.steps > MOST_STEPS:
            self.fault_as_whole(f"this pattern has {self.steps} steps", f"at most {MOST_STEPS} can be written")
        if not self.sound:
            raise Rejected
        return Pattern(self.node, self.steps, tuple(self.marks), tuple(self.spreads), tuple(self.bar_lines))

    def fault_as_whole(self, message: str, hint: str) -> None:
        self.sound = False
        self.reading.reject(self.node.position, message, hint)
