"""A long groove costs no more for each bar than a short one, and a file of absurd size is refused before it is made."""

from __future__ import annotations

import pytest

from engraver.definition import parse_groove
from engraver.errors import DefinitionError
from engraver.style import Style
from tests.work import calls

STYLE = Style()
HEAD = "title: T\ntempo: 96\nbars: {bars}\nlayers:\n"
LANE = '  - name: {name}\n    strokes:\n      {name}: "x-g- X-x- gx-- x-xx"\n'


def six_instruments(bars: int) -> str:
    names = ("snare", "bass drum", "hi-hat", "high tom", "floor tom")
    lanes = "".join(LANE.format(name=name) for name in names)
    return HEAD.format(bars=bars) + lanes + '  - name: Ride\n    strokes:\n      ride: {cycle: "xx-"}\n'


def test_twice_as_many_bars_take_at_most_twice_the_work_to_read() -> None:
    parse_groove(six_instruments(1), style=STYLE)  # what is read once a run
    short, long = (calls(lambda n=bars: parse_groove(six_instruments(n), style=STYLE)) for bars in (16, 32))  # type: ignore[misc]
    assert long <= 2.1 * short


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
def test_absurd_files_are_refused_for_what_is_written_not_for_what_it_would_make(text: str, message: str) -> None:
    """The work goes with the length of the file; our own bound. The last file is short, and would make 65,536 steps."""

    def read() -> None:
        with pytest.raises(DefinitionError) as caught:
            parse_groove(text, style=STYLE)
        assert message in [problem.message for problem in caught.value.problems]

    assert calls(read) < 10_000 + 60 * len(text)
