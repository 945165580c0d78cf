"""An author's text becomes paragraphs and lists with emphasis.

What the marks mean: CommonMark 0.31.2, sections 5.2-5.3 (lists), 6.2 (emphasis), 6.7 (breaks), 2.4 (escapes).
"""

from __future__ import annotations

import pytest

from engraver.definition import parse_groove
from engraver.prose import Block, Prose, Run, Weight


def prose(text: str) -> Prose:
    indented = "".join(f"  {line}\n" for line in text.splitlines())
    source = f"title: T\ntempo: 96\ntext: |\n{indented}layers: [{{name: A, strokes: {{snare: {{cycle: x}}}}}}]\n"
    return parse_groove(source).text


@pytest.mark.parametrize(
    ("text", "runs"),
    [
        ("one\ntwo", [Run("one two")]),
        ("one  \ntwo", [Run("one two")]),
        ("a *b* c", [Run("a "), Run("b", Weight.EMPHASIS), Run(" c")]),
        ("a **b**", [Run("a "), Run("b", Weight.STRONG)]),
        ("***b***", [Run("b", Weight.STRONG)]),
        ("**a *b***", [Run("a ", Weight.STRONG), Run("b", Weight.STRONG)]),
        (r"\*b\* \# c", [Run("*b* # c")]),
        ("Cafe\u0301 &amp; bar", [Run("Café & bar")]),
        (r"$x \\ { } \relative", [Run(r"$x \ { } \relative")]),
    ],
)
def test_a_paragraph_is_runs_of_one_weight(text: str, runs: list[Run]) -> None:
    assert prose(text) == (Block(tuple(runs)),)


def test_a_blank_line_parts_paragraphs() -> None:
    assert [block.text for block in prose("one\n\ntwo")] == ["one", "two"]


def test_entries_of_a_list_carry_their_marks() -> None:
    text = "- one\n- two\n\n3. three\n4. four\n\nlast"
    assert [(block.mark, block.text) for block in prose(text)] == [
        ("•", "one"),
        ("•", "two"),
        ("3.", "three"),
        ("4.", "four"),
        ("", "last"),
    ]


def test_only_the_first_paragraph_of_an_entry_has_the_mark() -> None:
    assert [(block.mark, block.text) for block in prose("- one\n\n  more\n- two")] == [
        ("•", "one"),
        ("", "more"),
        ("•", "two"),
    ]


def test_a_title_is_in_normal_form_with_single_spaces() -> None:
    source = 'title: "  Cafe\u0301 \\t  Steps "\ntempo: 96\nlayers: [{name: A, strokes: {snare: {cycle: x}}}]\n'
    assert parse_groove(source).title == "Café Steps"
