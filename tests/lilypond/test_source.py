"""Python values as LilyPond source: what is quoted, and what of a text is left out."""

from __future__ import annotations

from fractions import Fraction

import pytest

from engraver.lilypond.source import Source, datum, quoted, symbol

# Source of the two escapes: LilyPond 2.24.3, lily/lexer.ll, state `quote`: \\ and \" (and \n, \t, which are not used).
QUOTED = [
    ("plain words", '"plain words"'),
    ('say "one"', r'"say \"one\""'),
    ("back\\slash", r'"back\\slash"'),
    ('\\"', r'"\\\""'),
    ("#(f) $x %{ %} {}", '"#(f) $x %{ %} {}"'),
    ("one\ntwo\tthree\u00a0four", '"one two three four"'),
    ("Cafe\u0301", '"Café"'),
    ("a\x00b\x1bc\x7fd\ud800e", '"abcde"'),
    ("a\u202eb\u2066c\ue000d", '"abcd"'),
    ("שלום 鼓", '"שלום 鼓"'),
    ("", '""'),
]


@pytest.mark.parametrize(("text", "expected"), QUOTED)
def test_a_string_is_quoted(text: str, expected: str) -> None:
    assert quoted(text) == expected


DATA = [
    ("a (b)", '"a (b)"'),
    (Source("\\kit"), "\\kit"),
    (True, "#t"),
    (False, "#f"),
    (None, "#f"),
    (7, "7"),
    (Fraction(3, 8), "3/8"),
    (0.5, "0.5"),
    (2.0, "2"),
    (1 / 3, "0.3333"),
    ((), "()"),
    (("a", 1, ("b", None)), '("a" 1 ("b" #f))'),
    (["x", Source("'y")], '("x" \'y)'),
]


@pytest.mark.parametrize(("value", "expected"), DATA)
def test_a_value_becomes_a_scheme_datum(value: object, expected: str) -> None:
    assert datum(value) == expected


@pytest.mark.parametrize("value", [{"a": 1}, {1}, object(), b"bytes"])
def test_what_has_no_form_is_a_mistake_of_ours(value: object) -> None:
    with pytest.raises(TypeError):
        datum(value)


@pytest.mark.parametrize("name", ["a b", "a(b", 'a"', "", "ä", "a#b"])
def test_only_our_own_words_are_symbols(name: str) -> None:
    assert symbol("ghost-look") == "ghost-look"
    with pytest.raises(AssertionError):
        symbol(name)
