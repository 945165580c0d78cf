"""LilyPond's log to complaints. Knows the log of 2.24 and 2.25 at level WARNING, written in English.

A message begins with ``file:line:column: kind: text``, some of which may be missing, and can run over several lines.
If it has a column, LilyPond echoes the source line, broken in two at the column; the echo is left out here.
Source: LilyPond 2.24, Application Usage, 1.3 Error messages. There too: programming errors can mostly be ignored.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from pathlib import Path

from engraver.engraving.job import Complaint, Severity

_HEADER = re.compile(
    r"(?:(?P<file>[^\n]*?):(?P<line>\d+)(?::(?P<column>\d+))?: )?"
    r"(?P<kind>warning|error|fatal error|programming error): (?P<message>.*)"
)
_SEVERITY = {"warning": Severity.WARNING, "programming error": Severity.WARNING}  # all others are errors
_SAYS_NOTHING = ("continuing, cross fingers", "(search path: `", "GC Warning: ", "Warning: Unwind-only ")
_SUMMARY = "failed files: "  # what failed has been said before


def parse(log: str, *, source: str, roots: Sequence[Path] = ()) -> tuple[Complaint, ...]:
    """The complaints of one run, in order. ``source`` is the name of the job's own file.

    Files below one of ``roots`` are named from there, so that no message depends on the machine.
    """
    return tuple(_complaint(header, lines, source, roots) for header, lines in _messages(log.split("\n")))


def _messages(lines: Sequence[str]) -> Iterator[tuple[re.Match[str], list[str]]]:
    """Each header with the lines up to the next one; what stands before the first header is progress."""
    starts = [index for index, line in enumerate(lines) if _HEADER.fullmatch(line)]
    for start, end in pairwise([*starts, len(lines)]):
        header = _HEADER.fullmatch(lines[start])
        assert header
        if not header["message"].startswith(_SUMMARY):
            yield header, list(lines[start + 1 : end])


def _complaint(header: re.Match[str], more: list[str], source: str, roots: Sequence[Path]) -> Complaint:
    said = [line for line in more if not line.startswith(_SAYS_NOTHING)]
    said = _without_echo(said) if header["column"] else said
    file = header["file"] or ""
    return Complaint(
        severity=_SEVERITY.get(header["kind"], Severity.ERROR),
        line=int(header["line"] or 0),
        column=int(header["column"] or 0),
        message=" ".join(" ".join([header["message"], *said]).split()),
        file="" if file == source else _from_root(file, roots),
    )


def _without_echo(lines: list[str]) -> list[str]:
    """Drops the first pair of lines of which the second begins under the end of the first."""
    for index, (first, second) in enumerate(pairwise(lines)):
        if not second[: len(first)].strip():
            return lines[:index] + lines[index + 2 :]
    return lines


def _from_root(file: str, roots: Sequence[Path]) -> str:
    root = next((root for root in roots if Path(file).is_relative_to(root)), None)
    return Path(file).relative_to(root).as_posix() if root else file
