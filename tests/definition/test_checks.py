"""What an author reads when a groove file is wrong, word for word, and that no rule is left without a row."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path

import pytest

from engraver.definition import checks, parse_groove
from engraver.definition.checks import CHECKS
from engraver.definition.subject import Subject
from engraver.errors import DefinitionError, Problem

TABLE = Path(__file__).with_name("faults.txt").read_text("utf-8")
ROWS = [
    pytest.param(source, expected, id=name)
    for name, source, expected in re.findall(
        r"^=== ([^\n]+)\n(.*?)^\.\.\.\.\n(.*?)\n(?=\n===|\Z)", TABLE, re.DOTALL | re.MULTILINE
    )
]
REST = 'tempo: 96\nlayers: [{name: A, strokes: {snare: "x---------------"}}]\n'


def faults(source: str) -> str:
    with pytest.raises(DefinitionError) as caught:
        parse_groove(source)
    return str(caught.value)


def test_the_table_is_read_whole() -> None:
    assert len(ROWS) == TABLE.count("\n=== ") >= 90


@pytest.mark.parametrize(("source", "expected"), ROWS)
def test_a_fault_reads(source: str, expected: str) -> None:
    assert faults(source) == expected


def test_every_rule_has_a_row(monkeypatch: pytest.MonkeyPatch) -> None:
    found: set[str] = set()

    def noting(rule: Callable[[Subject], Iterable[Problem]]) -> Callable[[Subject], tuple[Problem, ...]]:
        def noted(subject: Subject) -> tuple[Problem, ...]:
            problems = tuple(rule(subject))
            found.update({rule.__name__} if problems else ())
            return problems

        return noted

    monkeypatch.setattr(checks, "CHECKS", tuple(replace(check, rule=noting(check.rule)) for check in CHECKS))
    for row in ROWS:
        faults(str(row.values[0]))
    assert found == {check.rule.__name__ for check in CHECKS}


def test_a_misspelt_instrument_reads_as_the_house_style_shows_it() -> None:
    source = (
        "title: Slate Stairs\nmeter: 4/4\ntempo: 96\nstep: sixteenth\nbars: 1\n\n\n\n\nlayers:\n  - name: Hands\n"
        '    role: time\n    strokes:\n      opne hi-hat: "x---x---"\n'
    )
    with pytest.raises(DefinitionError) as caught:
        parse_groove(source, Path("book/grooves/slate-stairs.yaml"))
    assert str(caught.value) == (
        'book/grooves/slate-stairs.yaml:14:7: "opne hi-hat" is not an instrument\n'
        '   14 |       opne hi-hat: "x---x---"\n'
        "              ^^^^^^^^^^^\n"
        'hint: did you mean "open hi-hat"?'
    )


@pytest.mark.parametrize(
    ("title", "message"),
    [
        ('"a\\u0007b"', "1:8: the character U+0007 cannot be printed"),
        ("a\u202eb", "1:9: the character U+202E cannot be printed"),
        ("ab \u2066c", "1:11: the character U+2066 cannot be printed"),
        ("a\x07b", "1:9: the character U+0007 cannot stand in a text"),
        ("a\ud800b", "1:9: the character U+D800 cannot stand in a text"),
        ("a" * 121, "1:8: this word has 121 characters"),
        ("ab " * 80, "1:8: this text has 239 characters"),
        ("[" * 40, "1:31: this is nested more than 24 deep"),
    ],
)
def test_titles_that_cannot_be_printed_are_refused(title: str, message: str) -> None:
    text = faults(f"title: {title}\n{REST}")
    assert text.startswith(f"groove.yaml:{message}\n")
    assert not re.search("[\x07\u202e\u2066\ud800]", text), "a terminal must not be given such characters"


def test_all_faults_of_a_file_are_told_in_order() -> None:
    text = faults("title: T\nstep: sixtenth\nlayers:\n  - name: A\n    strokes: {snar: x}\nmetr: 4/4\n")
    assert re.findall(r"^groove\.yaml:(\d+):", text, re.MULTILINE) == ["1", "2", "5", "6"]


@pytest.mark.parametrize(
    "scalar",
    [
        '"x--- --q- x--- ----"',
        "x--- --q- x--- ----",
        "'x--- --q- x--- ----'",
        "|\n        x--- --q-\n        x--- ----",
        ">-\n        x--- ----\n\n        x--- -q--",
        '"x--- ----\n        x--- -q--"',
        "x--- ----\n        x--- -q--",
    ],
)
def test_a_wrong_mark_is_marked_in_every_kind_of_scalar(scalar: str) -> None:
    source = f"title: T\ntempo: 96\nlayers:\n  - name: A\n    strokes:\n      snare: {scalar}\n"
    before = source[: source.index("q")]
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    assert faults(source).startswith(f'groove.yaml:{line}:{column}: "q" is not a mark\n')
