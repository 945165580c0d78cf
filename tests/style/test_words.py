"""The words of every language say the same: the same rows, forms and places, and nothing left in English."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

import pytest

from engraver.rhythm import Instrument
from engraver.style import Entry, Style, languages, places_of, words

ENGLISH = words("en").entries
OTHERS = [language for language in languages() if language != "en"]

# Rows whose form for one leaves out a place, since the word would have to change its ending there.
SAYS_ONE_ITSELF = {
    "de": {"finding hold", "finding hold exactly", "finding changes", "finding sticking near"},
}
# words that German does not have
FUNCTION_WORDS = set(
    re.findall(
        r"\w+",
        """the and of with from that this are is its your you which what where when whole every each their they then
    before after under over between does not nothing only again left right foot feet stroke strokes written counted
    spoken played played here there same length
        """,
    )
)


def forms(entry: Entry) -> dict[object, str]:
    if isinstance(entry, str):
        return {"": entry}
    pairs: Iterable[tuple[object, str]] = enumerate(entry) if isinstance(entry, tuple) else entry.items()
    return dict(pairs)


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_the_rows_of_english(language: str) -> None:
    assert words(language).entries.keys() == ENGLISH.keys()


@pytest.mark.parametrize("language", OTHERS)
def test_every_row_has_the_forms_and_places_of_english(language: str) -> None:
    for name, entry in words(language).entries.items():
        english, own = forms(ENGLISH[name]), forms(entry)
        assert own.keys() == english.keys(), name
        for form, text in own.items():
            if form == "one" and name in SAYS_ONE_ITSELF[language]:
                assert places_of(text) < places_of(english[form]), name
            else:
                assert places_of(text) == places_of(english[form]), (name, form)


@pytest.mark.parametrize("language", OTHERS)
def test_no_sentence_is_left_in_english(language: str) -> None:
    assert dict(_english_words(language)) == {}


def _english_words(language: str) -> Iterator[tuple[str, set[str]]]:
    for name, entry in words(language).entries.items():
        for form, text in forms(entry).items():
            plain = re.sub(r"\{\w+\}", "", text)
            left = {word for word in re.findall(r"\w+", plain.lower()) if word in FUNCTION_WORDS}
            same = text == forms(ENGLISH[name])[form] and len(re.findall(r"[A-Za-z]{2,}", plain)) > 2
            if left or same:
                yield f"{name} {form}".strip(), left


def test_the_check_for_english_sees_an_english_row() -> None:
    assert FUNCTION_WORDS & set(re.findall(r"\w+", str(ENGLISH["regrouped text"])))


@pytest.mark.parametrize("language", languages())
def test_every_instrument_of_the_kit_is_named(language: str) -> None:
    say = words(language)
    for row in Style().kit.rows:
        for called in (say.name, say.label, say.said):
            assert called(row.instrument), row.instrument


def test_an_instrument_of_the_author_is_called_by_its_name() -> None:
    drum = Instrument("log drum")
    assert (words("en").name(drum), words("en").said(drum)) == ("log drum", "the log drum")
    assert (words("de").name(drum), words("de").said(drum)) == ("log drum", "„log drum“")


VALUES = [
    (Fraction(1, 16), 1, "sixteenth", "Sechzehntel"),
    (Fraction(1, 16), 3, "sixteenths", "Sechzehntel"),
    (Fraction(1, 2), 2, "halves", "Halbe"),
    (Fraction(3, 16), 1, "dotted eighth", "punktiertes Achtel"),
    (Fraction(3, 16), 2, "dotted eighths", "punktierte Achtel"),
    (Fraction(1, 12), 2, "eighth triplets", "Triolen-Achtel"),
    (Fraction(1, 20), 1, "sixteenth quintuplet", "Quintolen-Sechzehntel"),
    (Fraction(5, 48), 2, "steps", "Schritte"),
]


@pytest.mark.parametrize(("value", "n", "english", "german"), VALUES)
def test_note_values_have_their_plural(value: Fraction, n: int, english: str, german: str) -> None:
    assert (words("en").value(value, n), words("de").value(value, n)) == (english, german)


def test_a_decimal_has_the_mark_of_the_language() -> None:
    assert (words("en").decimal(5.25), words("de").decimal(Fraction(21, 4))) == ("5.2", "5,2")


def test_the_author_s_wording_is_laid_over_the_language() -> None:
    style = Style(wording={"index": "Register"})
    assert (style.say("index"), style.say("contents")) == ("Register", "Contents")
