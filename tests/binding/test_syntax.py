"""What is written is read back by a reader that had no part in it, and by our own."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf.generic import TextStringObject, read_object

from engraver.binding.syntax import Reference, Verbatim, read_value, text_string, unescaped, written

NUMBERS = st.integers(-(2**31), 2**31) | st.floats(-1e6, 1e6).map(lambda number: round(number, 4))
NAMES = st.from_regex(r"/[A-Za-z0-9.+-]+", fullmatch=True)
SIMPLE = st.none() | st.booleans() | NUMBERS | NAMES | st.binary() | st.integers(1, 9999).map(Reference)
VALUES = st.recursive(SIMPLE, lambda below: st.lists(below) | st.dictionaries(NAMES, below), max_leaves=20)


@given(VALUES)
def test_a_value_is_read_back_as_it_was(value: Any) -> None:
    text = written(value)
    assert read_value(text, 0) == (value, len(text))


@given(st.text(st.characters(exclude_categories=["Cs"])))
def test_a_second_reader_reads_the_text_that_people_read(text: str) -> None:
    """pypdf takes a text in PDFDocEncoding for one; what it knows no letters of it leaves as bytes."""
    found = read_object(BytesIO(written(text_string(text)) + b" "), None)
    assert isinstance(found, TextStringObject) and found == text


# escapes as ISO 32000-1, 7.3.4.2 has them: table 3, its examples of line ends and of octal digits
@pytest.mark.parametrize(
    ("held", "meant"),
    [
        (rb"\n\r\t\b\f\(\)\\", b"\n\r\t\b\f()\\"),
        (b"two \\\nlines", b"two lines"),
        (b"two \\\r\nlines", b"two lines"),
        (b"two \\\rlines", b"two lines"),
        (rb"\245\307", b"\xa5\xc7"),
        (rb"\0053", b"\x053"),
        (rb"\053 and \53", b"+ and +"),
        (rb"\x", b"x"),
    ],
)
def test_escapes_mean_what_the_standard_says(held: bytes, meant: bytes) -> None:
    assert unescaped(held) == meant == read_value(b"(%b)" % held, 0)[0]


@pytest.mark.parametrize("text", ["þÿ", "ÿþx", "ï»¿a"])
def test_a_text_that_begins_like_the_mark_of_an_encoding_is_that_text(text: str) -> None:
    assert text_string(text) == b"\xfe\xff" + text.encode("utf-16-be")


def test_what_is_written_already_stays_as_it_is() -> None:
    assert (
        written({"/A": Verbatim(b"<< /B 1 >>"), "/C": [Verbatim(b"7 0 R"), b"(x)"]})
        == rb"<< /A << /B 1 >> /C [7 0 R (\(x\))] >>"
    )
