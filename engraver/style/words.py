"""The words that are printed: every label and sentence, one file a language, beside this one.

An entry is a text with ``{places}``, a list, or a mapping of forms: ``one`` and ``other``, chosen by ``n``, or the
``name``, ``label`` and ``said`` of an instrument.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib import resources
from string import Formatter

from engraver.rhythm import Instrument, value_name
from engraver.style.shipped import read_shipped

Entry = str | Mapping[str, str] | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Words:
    language: str
    entries: Mapping[str, Entry]

    def __call__(self, entry: str, /, **places: object) -> str:
        """The text of an entry with its places filled. An unknown entry is a mistake of ours."""
        text = self.entries[entry]
        if isinstance(text, Mapping):
            text = text["one" if places.get("n") == 1 else "other"]
        assert isinstance(text, str), entry
        return text.format(**places)

    def several(self, entry: str) -> tuple[str, ...]:
        """An entry that is a list, such as counting syllables."""
        texts = self.entries[entry]
        assert isinstance(texts, tuple), entry
        return texts

    def value(self, duration: Fraction, n: int = 1) -> str:
        """A note value, or ``n`` of them; one that has no name of its own is called a step."""
        word, *tuplet = (name := value_name(duration)).removeprefix("dotted ").split()
        if f"value {word}" not in self.entries:
            return self("value step", n=n)
        if tuplet:
            return self(f"value {tuplet[0]}", n=n, value=self(f"value {word}", n=1))
        plain = self(f"value {word}", n=n)
        return self("value dotted", n=n, value=plain) if name.startswith("dotted ") else plain

    def name(self, instrument: Instrument) -> str:
        """An instrument by itself; an author's own is called what its row of the kit is called."""
        return self._instrument(instrument, "name") or instrument.name

    def label(self, instrument: Instrument) -> str:
        """How the notation key calls it if its row of the kit does not say."""
        return self._instrument(instrument, "label") or instrument.name

    def said(self, instrument: Instrument) -> str:
        """An instrument as the subject of a sentence."""
        return self._instrument(instrument, "said") or self("finding instrument", instrument=instrument.name)

    def _instrument(self, instrument: Instrument, form: str) -> str:
        forms = self.entries.get(f"instrument {instrument.name}", {})
        return forms[form] if isinstance(forms, Mapping) and forms else ""

    def decimal(self, value: float | Fraction, places: int = 1) -> str:
        """A number with the decimal mark of the language."""
        return f"{float(value):.{places}f}".replace(".", self("decimal mark"))

    def number(self, n: int) -> str:
        """A small number in words, a larger one in figures."""
        names = self.several("numbers")
        return names[n] if 0 <= n < len(names) else str(n)

    def reworded(self, wording: Mapping[str, Entry]) -> Words:
        """The same with some entries put in other words."""
        return Words(self.language, {**self.entries, **wording}) if wording else self


def capital(text: str) -> str:
    """With a capital letter, as at the beginning of a sentence or a title; the rest stays as it is."""
    return text[:1].upper() + text[1:]


def places_of(text: str) -> frozenset[str]:
    """The names of the ``{places}`` in a text. Raises ValueError where its braces are wrong."""
    found = set()
    for _, name, form, conversion in Formatter().parse(text):
        if name is None:
            continue
        if form or conversion or not name.replace("_", "").isalnum():
            raise ValueError(text)
        found.add(name)
    return frozenset(found)


def languages() -> tuple[str, ...]:
    """The languages that there are words for."""
    names = (file.name for file in resources.files(__package__).iterdir())
    return tuple(sorted(n.removeprefix("words-").removesuffix(".yaml") for n in names if n.startswith("words-")))


def words_text(language: str) -> str:
    """The file of a language as it is written."""
    return resources.files(__package__).joinpath(f"words-{language}.yaml").read_text("utf-8")


@cache
def words(language: str) -> Words:
    """The words for one of the `languages`."""
    raw = read_shipped(words_text(language))
    return Words(language, {key: tuple(text) if isinstance(text, list) else text for key, text in raw.items()})
