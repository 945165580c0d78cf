"""``words`` in style.yaml: the author's own wording of printed labels. In: rows. Out: entries fit for their places."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engraver.definition.keys import Json, Reading, Rejected, quote
from engraver.definition.kinds import Line
from engraver.definition.source import Entries, Items, Node, Scalar
from engraver.errors import Problem, meant
from engraver.style import Entry, Words, places_of

_TEXT = Line(600)
Rows = tuple[tuple[Scalar, Node], ...]


@dataclass(frozen=True, slots=True)
class Wording:
    """Rows as they stand: what they may hold depends on the language, which is known when the whole file is read."""

    def read(self, node: Node, reading: Reading) -> Rows:
        if not isinstance(node, Entries):
            raise reading.reject(node.position, f"{quote(node)} is not a mapping of words", "write index: Register")
        return node.entries

    def json(self) -> Json:
        text = {"type": ["string", "number"]}
        plural = {"type": "object", "properties": {"one": text, "other": text}, "additionalProperties": False}
        return {
            "type": "object",
            "additionalProperties": {"anyOf": [text, plural, {"type": "array", "items": text}]},
        }


def wording_of(rows: Iterable[tuple[Scalar, Node]], words: Words, reading: Reading) -> Mapping[str, Entry]:
    """The entries that these rows put in other words; each fault is noted, and that entry left as it was."""
    found: dict[str, Entry] = {}
    for name, node in rows:
        try:
            found[name.text] = _entry(name, node, words, reading)
        except Rejected:
            continue
    return found


def _entry(name: Scalar, node: Node, words: Words, reading: Reading) -> Entry:
    was = words.entries.get(name.text)
    if was is None:
        hint = meant(name.text, words.entries, 'the rows are those that "engraver words" prints')
        raise reading.reject(name.position, f'"{name.text}" is not a row of the words', hint)
    if isinstance(was, tuple):
        return _list(name, node, was, reading)
    if isinstance(was, Mapping) and (isinstance(node, Entries) or "other" not in was):
        return _forms_of(name, node, was, reading)
    if not isinstance(node, Scalar):
        raise reading.reject(node.position, f'{quote(node)} cannot stand for "{name.text}"', "write one line of text")
    return _text(name, node, was if isinstance(was, str) else was["other"], reading, all_places=True)


def _list(name: Scalar, node: Node, was: tuple[str, ...], reading: Reading) -> Entry:
    if not isinstance(node, Items) or len(node.items) != len(was):
        hint = f"write as many as there are: [{', '.join(was)}]"
        raise reading.reject(node.position, f'"{name.text}" is a list of {len(was)}', hint)
    return tuple(_text(name, item, text, reading) for item, text in zip(node.items, was, strict=True))


def _forms_of(name: Scalar, node: Node, was: Mapping[str, str], reading: Reading) -> Entry:
    if not isinstance(node, Entries):
        hint = f"write {{{', '.join(f'{form}: ...' for form in was)}}}"
        raise reading.reject(node.position, f'"{name.text}" has the forms {", ".join(was)}', hint)
    return _forms(name, node, was, reading)


def _forms(name: Scalar, node: Entries, was: Mapping[str, str], reading: Reading) -> Entry:
    """``one`` and ``other``, or the forms of an instrument; what is said of ``one`` need not say the number."""
    needed = f"write {{{', '.join(f'{form}: ...' for form in was)}}}"
    forms: dict[str, str] = {}
    for form, text in node.entries:
        if form.text not in was:
            raise reading.reject(form.position, f'"{form.text}" is not a form of "{name.text}"', needed)
        forms[form.text] = _text(name, text, was[form.text], reading, all_places=form.text != "one")
    if forms.keys() != was.keys():
        raise reading.reject(node.position, f'"{name.text}" has the forms {", ".join(was)}', needed)
    return forms


def _text(name: Scalar, node: Node, was: str, reading: Reading, *, all_places: bool = False) -> str:
    text = _TEXT.read(node, reading)
    try:
        wanted, known = places_of(text), places_of(was)
    except ValueError:
        hint = "write {{ and }} for braces that are printed"
        raise reading.reject(node.position, f'the braces of "{name.text}" do not come out even', hint) from None
    told = ", ".join(f"{{{place}}}" for place in sorted(known))
    for place in sorted(wanted - known):
        hint = f"it has {told}" if told else "it has none"
        raise reading.reject(node.position, f'"{name.text}" has no place {{{place}}}', hint)
    if all_places and (missing := sorted(known - wanted)):
        message = f'the wording of "{name.text}" leaves out {{{missing[0]}}}'
        reading.problems.append(Problem(node.position, message, f"{told} is filled in when the page is made"))
        raise Rejected
    return text
