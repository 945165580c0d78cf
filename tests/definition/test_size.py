"""A long groove is read quickly, and a file of absurd size is refused quickly."""

from __future__ import annotations

import time
from collections.abc import Callable

import pytest

from engraver.definition import parse_groove
from engraver.errors import DefinitionError
from engraver.style import Style

STYLE = Style()
HEAD = "title: T\ntempo: 96\nbars: {bars}\nlayers:\n"
LANE = '  - name: {name}\n    strokes:\n      {name}: "x-g- X-x- gx-- x-xx"\n'


def seconds(read: Callable[[], object]) -> float:
    start = time.perf_counter()
    read()
    return time.perf_counter() - start


def test_sixteen_bars_of_six_instruments_are_read_in_milliseconds() -> None:
    names = ("snare", "bass drum", "hi-hat", "high tom", "floor tom")
    text = HEAD.format(bars=16) + "".join(LANE.format(name=name) for name in names)
    text += '  - name: Ride\n    strokes:\n      ride: {cycle: "xx-"}\n'
    best = min(seconds(lambda: parse_groove(text, style=STYLE)) for _ in range(10))
    assert best < 0.030, "the aim is 15 ms; twice that leaves room for a busy machine"


ONE = 'title: T\ntempo: 90\nlayers: [{name: a, strokes: {snare: "PATTERN"}}]\n'


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("".join(f"k{number}: a\n" for number in range(9000)), "this file holds more than 10,000 values"),
        ("[" + "a," * 300_000 + "]", "this file holds more than 10,000 values"),
        (ONE.replace("PATTERN", "q" * 900_000), "this pattern has 900000 characters"),
        (ONE.replace("PATTERN", "q" * 19_000), "this pattern has 19000 steps"),
        (ONE + 'text: "' + "`a` " * 4_900 + '"\n', "code cannot stand in a text"),
        (
            HEAD.format(bars=64) + "  - name: A\n    strokes: {snare: {cycle: (%s)1}}\nmeter: 64/1\n" % ("x" * 64),
            "the groove has 65536 steps",
        ),
    ],
)
def test_absurd_files_are_refused_within_a_second(text: str, message: str) -> None:
    def read() -> None:
        with pytest.raises(DefinitionError) as caught:
            parse_groove(text, style=STYLE)
        assert message in [problem.message for problem in caught.value.problems]

    assert seconds(read) < 1.0
