"""YAML text in, nodes out: every scalar is still text, and every node remembers its place.

Built on the parser's events and not on its composer: so aliases, tags, merge keys and bottomless nesting are refused
with a place before anything is made of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import yaml

from engraver.errors import DefinitionError, Position, Problem

LARGEST = 1_000_000  # bytes; a groove file is a few thousand
DEEPEST = 24  # levels; a groove file has seven
MOST_VALUES = 10_000  # in one file; 64 bars of 20 instruments are some 2,600
LONGEST_SHOWN = 1_000  # characters of a line that a message repeats

# Bidirectional controls turn the order of what is printed and read; source: Unicode Standard Annex 9, tables 4 and 5.
BIDIRECTIONAL = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
_UNSHOWN = re.compile(f"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff{BIDIRECTIONAL}]")
_LINE_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")  # those of YAML 1.1, so that our lines are the parser's
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Scalar:
    """``raw``: from here on, the lines as the author wrote them. ``is_plain``: without quotes."""

    text: str
    position: Position
    is_plain: bool
    raw: tuple[str, ...] = field(repr=False)

    @property
    def is_blank(self) -> bool:
        """Nothing was written after the key."""
        return self.is_plain and not self.text

    def place(self, index: int, width: int = 1) -> Position:
        """The place of one character of the text, whatever quotes or folding the author used.

        Found by counting what is not white space, which YAML never folds; a text with escapes is marked as a whole.
        """
        wanted = sum(not mark.isspace() for mark in self.text[:index])
        for line, column, mark in self._ink():
            if wanted == 0 and mark == self.text[index]:
                return replace(
                    self.position,
                    line=self.position.line + line,
                    column=column,
                    width=width,
                    text=_shown(self.raw[line]),
                )
            wanted -= 1
        return self.position

    def _ink(self) -> Iterator[tuple[int, int, str]]:
        """Every mark that is not white space: its line from here, its column, itself."""
        begin = self.position.column - 1
        opener = self.raw[0][begin : begin + 1]
        first = len(self.raw[0]) if opener in "|>" and not self.is_plain else begin + (not self.is_plain)
        for number, line in enumerate(self.raw):
            for column in range(first if number == 0 else 0, len(line)):
                if not line[column].isspace():
                    yield number, column + 1, line[column]


@dataclass(frozen=True, slots=True)
class Items:
    """A YAML sequence."""

    items: tuple[Node, ...]
    position: Position


@dataclass(frozen=True, slots=True)
class Entries:
    """A YAML mapping, in the order written; keys are scalars and differ."""

    entries: tuple[tuple[Scalar, Node], ...]
    position: Position


Node = Scalar | Items | Entries


def _shown(line: str) -> str:
    """A line fit for a terminal; nothing if it is too long to look at."""
    return _UNSHOWN.sub("\ufffd", line) if len(line) <= LONGEST_SHOWN else ""


@dataclass(frozen=True, slots=True)
class _Source:
    path: Path
    lines: tuple[str, ...]
    shown: tuple[str, ...]  # the same, fit for a terminal

    @classmethod
    def of(cls, path: Path, text: str) -> _Source:
        lines = tuple(_LINE_BREAK.split(text))
        return cls(path, lines, tuple(map(_shown, lines)))

    def place(self, start: Any, end: Any = None) -> Position:
        if start.line >= len(self.lines):  # the parser counts a line after the last
            return Position(self.path, len(self.lines), len(self.lines[-1]) + 1, 1, self.shown[-1])
        line, shown = self.lines[start.line], self.shown[start.line]
        same_line = end is not None and end.line == start.line
        width = end.column - start.column if same_line else len(line) - start.column
        return Position(self.path, start.line + 1, start.column + 1, max(1, width), shown)

    def reject(self, start: Any, message: str, hint: str = "") -> DefinitionError:
        return DefinitionError(Problem(self.place(start, start), message, hint))


def read_text(path: Path) -> str:
    """The text of a file. Raises DefinitionError if it is no readable UTF-8 text of a sensible size."""
    try:
        if not path.is_file():
            message = "this is not a file" if path.exists() else "there is no such file"
            raise _unreadable(path, message, "see that the name is right, and from which folder it is read")
        if path.stat().st_size > LARGEST:
            raise _unreadable(path, f"the file is larger than {LARGEST:,} bytes", "one file holds one groove")
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        problem = f"byte {error.object[error.start]:#04x} is not UTF-8 text"
        raise DefinitionError(Problem(Position(path, line, 1), problem, "save the file as UTF-8")) from None
    except (OSError, RuntimeError) as error:  # RuntimeError: a loop of symbolic links, before Python 3.13
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "a loop of links"
        raise _unreadable(path, f"the file cannot be read: {reason}") from None


def _unreadable(path: Path, message: str, hint: str = "") -> DefinitionError:
    return DefinitionError(Problem(Position(path, 1, 1), message, hint))


@dataclass(frozen=True, slots=True)
class Document:
    """``root`` is None if nothing is written; ``repeated``: a fault for each key written a second time."""

    root: Node | None
    repeated: tuple[Problem, ...]


def parse(text: str, path: Path) -> Document:
    """The nodes of one YAML document. Raises DefinitionError with what stops reading."""
    text = text.removeprefix("\ufeff")
    source = _Source.of(path, text)
    try:
        return _Builder(source).document(yaml.parse(text, Loader=_LOADER))
    except yaml.MarkedYAMLError as error:
        raise _not_yaml(source, error) from None
    except (yaml.YAMLError, UnicodeError) as error:
        raise _odd_character(source, error) from None


def _not_yaml(source: _Source, error: yaml.MarkedYAMLError) -> DefinitionError:
    mark, problem = error.problem_mark or error.context_mark, str(error.problem or error.context)
    if mark is None:
        return _unreadable(source.path, f"this is not YAML: {problem}", _QUOTES)
    if error.context_mark and not "".join(source.lines[mark.line :]).strip():
        mark = error.context_mark  # the end of the file tells nobody what was left open
    if error.context_mark and "expected ',' or" in problem:
        mark = error.context_mark  # the bracket, not the line where the parser gave up
    message, hint = _in_plain_words(problem, source.lines[min(mark.line, len(source.lines) - 1)], mark.column)
    return source.reject(mark, f"this is not YAML: {message}", hint)


_QUOTES = "put quotes around a text that holds : # [ ] { } or begins with - ? * & ! % @ `"
_COLUMNS = "lines that belong together begin in one column, with a - before each item of a list"
_PARSER_WORDS: tuple[
    tuple[str, str, str], ...
] = (  # what the parser says, and the same for who never heard of tokens and scalars
    ("block sequence entries", "no text or pattern can begin with - here", 'put quotes around it: "- x--"'),
    ("expected '-' indicator", "this line is in another column than those before it", _COLUMNS),
    (
        "expected key",
        "this line is in another column than those before it, or a quotation mark is missing above",
        _COLUMNS,
    ),
    ("unexpected end of stream", "this quotation mark is never closed", "put another one behind the text"),
    ("expected ',' or", "this bracket is not closed", f"close [ with ] and {{ with }}, or {_QUOTES}"),
    ("cannot start any token", "no text can begin with this character", _QUOTES),
    ("expected alphabetic or numeric", "no text can begin with * or &", _QUOTES),
)


def _in_plain_words(problem: str, line: str, column: int) -> tuple[str, str]:
    """What is wrong and what would be right, by what the parser says and the line that it stopped in."""
    if "\t" in line[: column + 1]:
        return "a tab stands here", "indent with spaces; YAML does not allow tabs there"
    if problem.startswith("mapping values"):
        if ": " in line[:column]:
            return "a second colon in one line", _QUOTES
        return "this line belongs to no key above it", _COLUMNS
    known = ((message, hint) for words, message, hint in _PARSER_WORDS if words in problem)
    return next(known, (problem, _QUOTES))


def _odd_character(source: _Source, error: Exception) -> DefinitionError:
    """The parser refuses some characters without saying where."""
    for number, line in enumerate(source.lines, 1):
        if (match := _UNSHOWN.search(line)) or (match := re.search("[\ufeff\ufffe\uffff]", line)):
            position = Position(source.path, number, match.start() + 1, 1, source.shown[number - 1])
            message = f"the character U+{ord(match[0]):04X} cannot stand in a text"
            return DefinitionError(Problem(position, message, "take it out"))
    return _unreadable(source.path, f"this is not YAML: {error!s}".splitlines()[0])


class _Builder:
    """Turns parser events into nodes. Notes repeated keys; stops at what cannot be read at all."""

    def __init__(self, source: _Source) -> None:
        self.source = source
        self.repeated: list[Problem] = []
        self.values = 0

    def document(self, events: Iterator[Any]) -> Document:
        root: Node | None = None
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if root is not None:
                    raise self.source.reject(
                        event.start_mark, "a second document begins here", "one file, one document"
                    )
            elif isinstance(event, yaml.NodeEvent):
                root = self.node(event, events, 1)
        blank = isinstance(root, Scalar) and root.is_blank
        return Document(None if blank else root, tuple(self.repeated))

    def node(self, event: Any, events: Iterator[Any], depth: int) -> Node:
        self.refuse_references(event)
        self.values += 1
        if self.values > MOST_VALUES:
            raise self.source.reject(event.start_mark, f"this file holds more than {MOST_VALUES:,} values")
        if depth > DEEPEST:
            raise self.source.reject(event.start_mark, f"this is nested more than {DEEPEST} deep")
        if isinstance(event, yaml.ScalarEvent):
            return self.scalar(event)
        position = self.source.place(event.start_mark)
        if isinstance(event, yaml.SequenceStartEvent):
            return Items(tuple(self.children(events, depth)), position)
        return Entries(tuple(self.pairs(events, depth)), position)

    def refuse_references(self, event: Any) -> None:
        if isinstance(event, yaml.AliasEvent):
            raise self.source.reject(event.start_mark, f"the alias *{event.anchor} is not allowed", "write it out")
        if event.anchor:
            raise self.source.reject(event.start_mark, f"the anchor &{event.anchor} is not allowed", "leave it out")
        if event.tag not in (None, "!"):
            raise self.source.reject(event.start_mark, f"the tag {event.tag} is not allowed", "leave it out")

    def scalar(self, event: Any) -> Scalar:
        start, end = event.start_mark, event.end_mark
        return Scalar(
            text=event.value,
            position=self.source.place(start, end),
            is_plain=event.style in (None, ""),
            raw=self.source.lines[start.line : end.line + 1] or ("",),
        )

    def children(self, events: Iterator[Any], depth: int) -> Iterator[Node]:
        while not isinstance(event := next(events), yaml.CollectionEndEvent):
            yield self.node(event, events, depth + 1)

    def pairs(self, events: Iterator[Any], depth: int) -> Iterator[tuple[Scalar, Node]]:
        seen: dict[str, Scalar] = {}
        while not isinstance(event := next(events), yaml.CollectionEndEvent):
            key = self.node(event, events, depth + 1)
            if not isinstance(key, Scalar):
                hint = "take a bracket away, or put quotes around the text"
                raise self.source.reject(event.start_mark, "a list or mapping cannot be a key", hint)
            if key.text == "<<" and key.is_plain:
                raise self.source.reject(event.start_mark, "the merge key << is not allowed", "write it out")
            value = self.node(next(events), events, depth + 1)
            if key.text in seen:
                first = seen[key.text].position.line
                message = f'"{key.text}" is already written in line {first}'
                self.repeated.append(Problem(key.position, message, "leave one of the two out"))
            else:
                seen[key.text] = key
                yield key, value
