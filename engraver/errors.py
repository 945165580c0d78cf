"""What can go wrong, and how it reads on a terminal.

A user's mistake is a `Problem`: a place, what is wrong, what to do next. Stages collect problems and raise them
together. Only this module turns a problem into text, so that an editor can jump to the place.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path


@dataclass(frozen=True, slots=True, order=True)
class Position:
    """A place in an author's file. Lines and columns count from 1; ``width`` is how many columns to mark."""

    path: Path
    line: int
    column: int
    width: int = 1
    text: str = ""  # the whole line as the author wrote it

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault: where (if anywhere), what is wrong with the value quoted, and what would be right."""

    position: Position | None
    message: str
    hint: str = ""

    def __str__(self) -> str:
        return "\n".join(self._lines())

    def _lines(self) -> Iterable[str]:
        where = self.position
        yield f"{where}: {self.message}" if where else self.message
        if where and where.text:
            margin = f"{where.line:>5} | "
            yield margin + where.text.replace("\t", "\N{RIGHTWARDS ARROW}")
            room = max(1, len(where.text) - where.column + 1)
            yield " " * (len(margin) + where.column - 1) + "^" * max(1, min(where.width, room))
        if self.hint:
            yield f"hint: {self.hint}"


class EngraverError(Exception):
    """The root. ``problems`` is never empty; the text of the error is all of them."""

    def __init__(self, problems: Problem | Sequence[Problem]) -> None:
        self.problems: tuple[Problem, ...] = (problems,) if isinstance(problems, Problem) else tuple(problems)
        assert self.problems, "an error without a problem says nothing"
        super().__init__(str(self))

    def __str__(self) -> str:
        return "\n\n".join(str(problem) for problem in self.problems)

    def placed(self, position: Position) -> tuple[Problem, ...]:
        """The problems; those that have no place get this one."""
        return tuple(replace(problem, position=problem.position or position) for problem in self.problems)


class DefinitionError(EngraverError):
    """The author's YAML has to be edited."""


class NotationError(EngraverError):
    """A groove that cannot be written; the hint says what could."""


class EngravingError(EngraverError):
    """LilyPond refused, or the result could not be written."""


class ProofError(EngraverError):
    """What was engraved is not what was defined."""


class MissingTool(EngraverError):
    """A program has to be installed or named."""


def counted(number: int, noun: str) -> str:
    """A number of things, by a noun whose plural ends in s."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def a(noun: str) -> str:
    """The noun with its article, by its first letter."""
    return f"an {noun}" if noun[0] in "aeio" else f"a {noun}"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that ``word`` most likely was meant to be, or None if none is near."""
    matches = difflib.get_close_matches(word.lower(), list(known), n=1, cutoff=0.6)
    return matches[0] if matches else None


def meant(word: str, known: Iterable[str], otherwise: str) -> str:
    """A hint: the known word that is near, or else what can be done."""
    near = nearest(word, known)
    return f'did you mean "{near}"?' if near else otherwise
