"""Buyers' files: every row is a buyer or is told about with its line."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from engraver.errors import DefinitionError
from engraver.release.buyers import Buyers, parse_buyers, read_buyers

FILE = Path("shop.csv")


def anything(text: str) -> str:
    """A font that has every sign."""
    return ""


def latin(text: str) -> str:
    return "".join(sign for sign in text if ord(sign) > 0x24F)


def read(text: str | bytes) -> Buyers:
    return parse_buyers(text if isinstance(text, bytes) else text.encode(), FILE, latin)


def test_columns_are_found_by_their_names_in_any_order() -> None:
    found = read("Country, Order ,NAME\nXX,A-1,Ida Low\nYY,A-2,Jo March\n")
    assert [(buyer.name, buyer.order) for buyer in found.buyers] == [("Ida Low", "A-1"), ("Jo March", "A-2")]
    assert found.problems == ()


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_a_spreadsheets_separators_byte_order_mark_and_line_ends_are_understood(separator: str) -> None:
    text = f"\ufeffname{separator}order\r\nÉva Low{separator}7\r\n"
    assert [(buyer.name, buyer.order) for buyer in read(text).buyers] == [("Éva Low", "7")]


def test_a_field_may_stand_in_quotation_marks() -> None:
    assert read('name,order\n"Low, Ida ""Bee""",7\n').buyers[0].name == 'Low, Ida "Bee"'


def test_a_name_that_the_font_does_not_have_can_be_printed_as_another() -> None:
    found = read("name,order,printed\n山田,7,Yamada\n")
    assert (found.buyers[0].name, found.buyers[0].printed) == ("山田", "Yamada")


# a row, and what is said about it
BAD_ROWS = {
    ",7": "this row has no name",
    "Ida Low,": "this row has no order",
    "Ida Low": "this row has 1 fields, the first row 2",
    "Low, Ida,7": "this row has 3 fields, the first row 2",
    '"Ida Low,7': "this row cannot be read: unexpected end of data",
    "山,7": "the font of the pages does not have 山 (U+5C71)",
    "Ida Low,-/-": '"-/-" is not an order number',
    "Ida Low," + "9" * 41: f'"{"9" * 41}" is not an order number',
    "Ida Low,a/1": 'order "a/1" is already in line 2',
    "Ida\u202eLow,7": "the name in this row has signs that cannot be printed",
}


@pytest.mark.parametrize("row", BAD_ROWS)
def test_a_bad_row_is_told_with_its_line_and_costs_no_other(row: str) -> None:
    found = read(f"name,order\nAda First,A-1\n{row}\n\nZoe Last,Z-9\n")
    assert [buyer.name for buyer in found.buyers] == ["Ada First", "Zoe Last"]
    (problem,) = found.problems
    assert problem.message == BAD_ROWS[row]
    assert problem.position is not None and problem.position.line == 3
    assert problem.hint


def test_a_name_that_does_not_fit_is_told_with_its_line() -> None:
    text = "name,order\nAda,1\nAda Longer,2\nZoe,3\n"
    found = parse_buyers(text.encode(), FILE, anything, lambda buyer: len(buyer.printed) < 10)
    assert [buyer.name for buyer in found.buyers] == ["Ada", "Zoe"]
    assert str(found.problems[0]).startswith('shop.csv:3:1: "Ada Longer" is too long for the foot of a page')


def test_a_row_that_is_not_utf_8_is_told_with_its_line() -> None:
    found = read(b"name,order\nAda,1\n\xc9va,2\nZoe,3\n")
    assert [buyer.name for buyer in found.buyers] == ["Ada", "Zoe"]
    assert str(found.problems[0]).startswith("shop.csv:3:1: the name in this row is not UTF-8")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the first line is empty"),
        ("\n\n", "the first line is empty"),
        ("Ida Low,7\n", 'there is no column "name"'),
        ("name,mail\nIda,x\n", 'there is no column "order"'),
        ("name,order,name\nIda,7,Low\n", '"name" names two columns'),
    ],
)
def test_a_file_that_does_not_name_its_columns_is_refused(text: str, message: str) -> None:
    with pytest.raises(DefinitionError, match=message):
        read(text)


@given(some.lists(some.text(some.characters(exclude_characters="\r\n", exclude_categories=["Cs"]), max_size=30)))
def test_no_row_is_ever_lost(texts: list[str]) -> None:
    found = parse_buyers(("name,order\n" + "\n".join(texts)).encode(), FILE, anything)
    blank = sum(not text.strip(" \t,;") for text in texts)
    assert len(found.buyers) + len(found.problems) == len(texts) - blank


def test_a_file_without_a_row_is_a_fault(tmp_path: Path) -> None:
    (tmp_path / "shop.csv").write_text("name,order\n\n", "utf-8")
    with pytest.raises(DefinitionError, match=r"shop\.csv:1:1: no buyer is in this file\nhint: write a row"):
        read_buyers(tmp_path / "shop.csv", anything)
