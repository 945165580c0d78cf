"""Buyers: a CSV file of the shop goes in, the buyers whose copies can be made and the rows that cannot come out.

The first row names the columns; ``name`` and ``order`` must be among them. ``printed`` is what stands on the pages
instead of the name, for a name in a script that the nameplate's font does not have. Other columns are passed over.
Every row is one line, so that a quotation mark that is never closed costs its own row and no other.
"""

from __future__ import annotations

import csv
import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from engraver.errors import DefinitionError, Position, Problem
from engraver.file_name import plain_name, slug

NAME, ORDER, PRINTED = "name", "order", "printed"
LONGEST_ORDER = 40  # characters, so that the name of a copy's file keeps all of them
SEPARATORS = ",;\t"


@dataclass(frozen=True, slots=True)
class Buyer:
    """``name`` is what the file says of itself, ``printed`` what stands on its pages."""

    name: str
    order: str
    printed: str
    position: Position

    @property
    def file_stem(self) -> str:
        """The order number for file systems. A name never is part of it."""
        return slug(self.order)


@dataclass(frozen=True, slots=True)
class Buyers:
    """Every row that is not blank is a buyer or a problem: ``len(buyers) + len(problems)`` rows in all."""

    buyers: tuple[Buyer, ...]
    problems: tuple[Problem, ...]


class _BadRow(Exception):
    """Carries what is wrong with a row, and what would be right."""


def always(buyer: Buyer) -> bool:
    """As long as anybody likes."""
    return True


def read_buyers(path: Path, unsettable: Callable[[str], str], fits: Callable[[Buyer], bool] = always) -> Buyers:
    """``unsettable`` gives the characters of a text that the nameplate cannot show; ``fits`` whether there is room.

    Raises DefinitionError if the file is not there, does not name its columns or has no row below them.
    """
    try:
        raw = path.read_bytes()
    except OSError as error:
        place = Position(path, 1, 1)
        raise DefinitionError(Problem(place, f"cannot be read: {error.strerror}", "name a CSV file")) from error
    found = parse_buyers(raw, path, unsettable, fits)
    if not found.buyers and not found.problems:
        raise DefinitionError(Problem(Position(path, 1, 1), "no buyer is in this file", "write a row for each of them"))
    return found


def parse_buyers(
    raw: bytes, path: Path, unsettable: Callable[[str], str], fits: Callable[[Buyer], bool] = always
) -> Buyers:
    """The bytes of a file; ``path`` is for messages. Raises DefinitionError if it does not name its columns."""
    header, *lines = _lines(raw)
    separator = max(SEPARATORS, key=header.count)
    columns = _columns(Position(path, 1, 1, max(1, len(header)), _visible(header)), header, separator)
    good: dict[str, Buyer] = {}
    problems = []
    for number, line in enumerate(lines, start=2):
        if not line.strip(" \t,;"):
            continue
        place = Position(path, number, 1, len(line), _visible(line))
        try:
            buyer = _buyer(_fields(line, separator), columns, place, unsettable)
            if (earlier := good.get(buyer.file_stem)) is not None:
                raise _BadRow(f'order "{buyer.order}" is already in line {earlier.position.line}', _ONE_ORDER)
            if not fits(buyer):
                raise _BadRow(f'"{buyer.printed}" is too long for the foot of a page', _PRINTED)
            good[buyer.file_stem] = buyer
        except _BadRow as bad:
            problems.append(Problem(place, *bad.args))
    return Buyers(tuple(good.values()), tuple(problems))


_USAGE = "the first row names the columns, such as: name,order"
_PRINTED = f'add a column "{PRINTED}" with the name as it shall stand on the pages'
_ONE_ORDER = "each copy is named by its order number: give every row its own"


def _lines(raw: bytes) -> list[str]:
    """Line by line, so that damage in one is known only there: what is not UTF-8 becomes lone surrogates."""
    text = raw.removeprefix(b"\xef\xbb\xbf").decode("utf-8", "surrogateescape")
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _columns(place: Position, header: str, separator: str) -> Sequence[str]:
    if not header.strip():
        raise DefinitionError(Problem(place, "the first line is empty", _USAGE))
    try:
        columns = [" ".join(column.lower().split()) for column in _fields(header, separator)]
    except _BadRow as bad:
        raise DefinitionError(Problem(place, *bad.args)) from bad
    for needed in (NAME, ORDER):
        if columns.count(needed) != 1:
            message = f'there is no column "{needed}"' if needed not in columns else f'"{needed}" names two columns'
            raise DefinitionError(Problem(place, message, _USAGE))
    return columns


def _fields(line: str, separator: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=separator, strict=True), [])
    except csv.Error as error:
        hint = 'write a quotation mark inside a field twice: "Jo ""Bee"" Low", and each row in one line'
        raise _BadRow(f"this row cannot be read: {error}", hint) from error


def _buyer(fields: Sequence[str], columns: Sequence[str], place: Position, unsettable: Callable[[str], str]) -> Buyer:
    if len(fields) != len(columns):
        message = f"this row has {len(fields)} fields, the first row {len(columns)}"
        raise _BadRow(message, "put quotation marks around a field with a separator in it")
    row = dict(zip(columns, fields, strict=True))
    name, order = _text(row[NAME], NAME), _text(row[ORDER], ORDER)
    if len(order) > LONGEST_ORDER or not plain_name(order):
        raise _BadRow(f'"{order}" is not an order number', f"letters and figures, at most {LONGEST_ORDER} characters")
    printed = _text(row[PRINTED], PRINTED) if row.get(PRINTED, "").strip() else name
    if missing := unsettable(printed + order):
        signs = ", ".join(f"{sign} (U+{ord(sign):04X})" for sign in missing)
        raise _BadRow(f"the font of the pages does not have {signs}", _PRINTED)
    return Buyer(name, order, printed, place)


def _text(field: str, column: str) -> str:
    text = " ".join(unicodedata.normalize("NFC", field).split())
    if not text:
        raise _BadRow(f"this row has no {column}", "fill it in")
    if any("\udc80" <= sign <= "\udcff" for sign in text):
        raise _BadRow(f"the {column} in this row is not UTF-8", "save the file as UTF-8")
    if not text.isprintable():
        raise _BadRow(f"the {column} in this row has signs that cannot be printed", "type it again")
    return text


def _visible(line: str) -> str:
    return "".join(sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in line)
