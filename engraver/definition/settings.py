"""The settings of style.yaml as a table: what each may be, what it is when left out, and what it is in a style.

Made from the keys that the reader reads by, so that nothing told of a setting can differ from what is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from enum import Enum

from engraver.definition.keys import ByShape, Key, Kind, Written, keys_of
from engraver.definition.kinds import Choice, Whole, YesNo
from engraver.definition.page_keys import Decimal
from engraver.definition.style_file import StyleFile
from engraver.style import Family, Fonts, Kit, Margins, Paper, Style, Syllables, standard_kit


@dataclass(frozen=True, slots=True)
class Setting:
    """``values`` and ``default`` as an author writes them; "" where they are told in ``doc`` alone."""

    name: str
    values: str
    default: str
    doc: str


def settings(record: type[Written] = StyleFile) -> tuple[Setting, ...]:
    """Every key of a record in the order in which it is declared."""
    return tuple(Setting(key.name, _values(key.kind), _default(record, key), key.doc) for key in keys_of(record))


def in_force(style: Style) -> Iterator[tuple[str, str]]:
    """Each setting and what it is in a style."""
    for key in keys_of(StyleFile):
        if key.field == "handedness":
            yield key.name, "left" if style.left_handed else "right"
        elif key.field == "kit":
            yield key.name, _kit(style)
        elif key.field == "words":
            yield key.name, ", ".join(style.wording) or "those of the language"
        elif key.field != "preset":
            yield key.name, said(getattr(style, key.field))


def said(value: object) -> str:
    """A value as an author writes it, or as it can be told in a line."""
    match value:
        case bool():
            return "yes" if value else "no"
        case Enum():
            return str(value.value)
        case float():
            return f"{value:g}"
        case Paper() | Syllables():
            return value.name
        case Margins():
            sides = ("top", "bottom", "inner", "outer")
            return ", ".join(f"{side} {getattr(value, side):g}" for side in sides) + " mm"
        case Fonts():
            return f"{_family(value.text)}; {_family(value.labels)}"
    return str(value)


def _family(family: Family | None) -> str:
    return family.regular.name if family else "the design's own"


def _kit(style: Style) -> str:
    standard: Kit = standard_kit(style.say)
    changed = [row.instrument.name for row in style.kit.rows if row not in standard.rows]
    return ", ".join(changed) or "the standard kit"


def _values(kind: Kind) -> str:
    match kind:
        case YesNo():
            return "yes, no"
        case Choice():
            return ", ".join(kind.words)
        case Whole() | Decimal():
            return f"{kind.low:g} to {kind.high:g}"
        case ByShape():
            return ", ".join(_values(each) for each in (kind.scalar, kind.entries) if each and _values(each))
    return ""


def _default(record: type[Written], key: Key) -> str:
    if key.required:
        return "must be there"
    value = next(each.default for each in fields(record) if each.name == key.field)
    if isinstance(key.kind, Choice) and not isinstance(key.kind, YesNo):
        return next((word for word, each in key.kind.words.items() if each == value), "")
    return "" if value in (None, ()) else said(value)
