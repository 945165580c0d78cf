"""Random grooves for property tests: as the YAML an author would write, and as the onsets it must give.

``written_grooves`` draws both at once; ``grooves`` only the Groove. The onsets are counted here on their own, bar by
bar, so that the reader is not its own witness.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from hypothesis import assume
from hypothesis import strategies as st

from engraver.definition import parse_groove, to_groove
from engraver.rhythm import Groove, Meter, parse_value

HANDS = ("snare", "hi-hat", "open hi-hat", "ride", "crash", "high tom", "floor tom", "cowbell")
FEET = ("bass drum", "foot hi-hat")
MARKS = "xXgfFdDrRzZcC="
METERS = ("4/4", "3/4", "2/4", "6/8", "12/8", "7/8", "5/4", "(2+2+3)/8", "(3+2)/8")
STEPS = ("sixteenth", "eighth", "thirty-second")
TRIPLET_STEPS = ("eighth triplet", "sixteenth triplet")  # for meters of quarter beats

Placed = tuple[Fraction, str, str]  # onset, instrument, mark


@dataclass(frozen=True, slots=True)
class WrittenGroove:
    """``source`` is YAML; ``strokes`` what must sound, in order of onset and instrument."""

    source: str
    strokes: tuple[Placed, ...]


@st.composite
def written_grooves(draw: st.DrawFn, most_bars: int = 4, steps: tuple[str, ...] = STEPS) -> WrittenGroove:
    """One layer an instrument, each by a pattern of one bar, a pattern a bar, or a cycle."""
    meter = draw(st.sampled_from(METERS))
    step = draw(st.sampled_from(steps + TRIPLET_STEPS if meter.endswith("/4") else steps))
    bars = draw(st.integers(1, most_bars))
    in_bar = Meter.parse(meter).length / parse_value(step)
    assert in_bar.denominator == 1
    instruments = draw(st.lists(st.sampled_from(HANDS + FEET), min_size=1, max_size=4, unique=True))
    lines = [f"title: Drawn\nmeter: {meter}\ntempo: 90\nstep: {step}\nbars: {bars}\nlayers:"]
    strokes: list[Placed] = []
    for number, instrument in enumerate(instruments):
        lane, marks = draw(_lanes(int(in_bar), bars, must_strike=number == 0))
        lines.append(f"  - name: Layer {number + 1}\n    strokes:\n      {instrument}: {lane}")
        strokes += [(place * parse_value(step), instrument, mark) for place, mark in marks]
    assume(strokes)  # a cycle that begins late in a short bar may be cut off before it strikes
    return WrittenGroove("\n".join(lines) + "\n", tuple(sorted(strokes)))


@st.composite
def _lanes(draw: st.DrawFn, in_bar: int, bars: int, must_strike: bool) -> tuple[str, list[tuple[int, str]]]:
    """A lane as written, and its marks by step from the start of the groove."""
    kind = draw(st.sampled_from(("one bar", "every bar", "cycle")))
    if kind == "cycle":
        cycle = draw(_patterns(draw(st.integers(1, min(16, in_bar * bars))), must_strike))
        start = draw(st.integers(0, 3)) if len(cycle) < in_bar else 0
        marks = [(step, cycle[(step - start) % len(cycle)]) for step in range(start, in_bar * bars)]
        return f'{{cycle: "{cycle}", start: {start + 1}}}', _struck(marks)
    if kind == "one bar":
        pattern = draw(_patterns(in_bar, must_strike))
        marks = [(step, pattern[step % in_bar]) for step in range(in_bar * bars)]
        return f'"{_spaced(pattern)}"', _struck(marks)
    patterns = [draw(_patterns(in_bar, must_strike)) for _ in range(bars)]
    ranges = "".join(f'\n        bar {bar}: "{_spaced(pattern)}|"' for bar, pattern in enumerate(patterns, 1))
    return ranges, _struck(list(enumerate("".join(patterns))))


@st.composite
def _patterns(draw: st.DrawFn, length: int, must_strike: bool) -> str:
    marks = draw(st.lists(st.sampled_from("----xx" + MARKS), min_size=length, max_size=length))
    if must_strike and set(marks) == {"-"}:
        marks[0] = "x"
    return "".join(marks)


def _struck(marks: list[tuple[int, str]]) -> list[tuple[int, str]]:
    return [(step, mark) for step, mark in marks if mark != "-"]


def _spaced(pattern: str) -> str:
    return " ".join(pattern[place : place + 4] for place in range(0, len(pattern), 4))


def grooves(most_bars: int = 4, steps: tuple[str, ...] = STEPS) -> st.SearchStrategy[Groove]:
    """Random valid grooves."""
    return written_grooves(most_bars, steps).map(lambda written: to_groove(parse_groove(written.source)))
