"""Beams on the page show the meter: bars full of one value beside a table from handbooks, and beside music21."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

import pytest

from engraver.notation import VoiceName
from engraver.rhythm import Meter
from engraver.style import Beams, Style
from tests.engraved.sheets import Case, Sheet, groove
from tests.notation.test_beat_groups import AGREED, _rows, music21_groups

NAMES = {8: "eighth", 16: "sixteenth", 32: "thirty-second"}
ROWS = _rows()


def full_bar(meter: str, value: int, name: str = "", style: Style | None = None) -> Case:
    count = int(Meter.parse(meter).length * value)
    written = f"({meter.split('/')[0]})/{meter.split('/')[1]}" if "+" in meter else meter
    text = groove(f"snare: {'x' * count}", f"bass drum: {'x' * count}", meter=written, step=NAMES[value])
    return Case(name or f"{meter} in {value}", text, style or Style())


# Groupings that the table has not: the author's own sums, odd meters in sixteenths, and 4/4 by the beat.
STATED = {
    "(3+2)/8 in 16": ("3+2/8", 16, "6+4"),
    "(2+3)/8 in 16": ("2+3/8", 16, "4+6"),
    "(2+3+2)/8 in 8": ("2+3+2/8", 8, "2+3+2"),
    "(3+2+2)/8 in 16": ("3+2+2/8", 16, "6+4+4"),
    "(3+3+3+2)/16": ("3+3+3+2/16", 16, "3+3+3+2"),
    "(2+2+3)/16": ("2+2+3/16", 16, "2+2+3"),
    "11/16": ("11/16", 16, "2+2+2+2+3"),
    "(3+3+2)/8 in 16": ("3+3+2/8", 16, "6+6+4"),
    "(2+2+3+2)/8": ("2+2+3+2/8", 8, "2+2+3+2"),
}
PER_BEAT = Style(beams=Beams.BEATS)
CASES = [
    *(full_bar(row["meter"], int(row["value"])) for row in ROWS),
    *(full_bar(meter, value, name) for name, (meter, value, _) in STATED.items()),
    full_bar("4/4", 8, "4/4 by the beat", PER_BEAT),
    full_bar("4/4", 32, "4/4 in 32"),
    full_bar("6/8", 32, "6/8 in 32"),
    Case("offbeats", groove("snare: -xxxxxx-", step="eighth")),
    Case("three from the middle", groove("snare: ---xxx", meter="3/4", step="eighth")),
    Case("mixed half bars", groove("snare: x-x-xxx- x-x-x-x-")),
    Case("over the middle", groove("snare: x--x--x--x--x-x-", "bass drum: ---- x-x- x-x- ----")),
]


@pytest.fixture(scope="module")
def sheets(engraved: Callable[[Sequence[Case]], Mapping[str, Sheet]]) -> Mapping[str, Sheet]:
    return engraved(CASES)


def sizes(sheet: Sheet, direction: int = 1) -> str:
    """How many notes stand under each beam in order; a note without one counts alone."""
    beams = sheet.beams(direction)
    onsets = sorted(sheet.heads(VoiceName.UPPER if direction == 1 else VoiceName.LOWER))
    found = []
    while onsets:
        joined = next((beam for beam in beams if onsets[0] in beam), (onsets[0],))
        found.append(len(joined))
        onsets = [onset for onset in onsets if onset not in joined]
    return "+".join(map(str, found))


@pytest.mark.parametrize("direction", [1, -1], ids=["hands", "feet"])
@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['meter']} in {row['value']}")
def test_beams_are_those_of_the_handbooks(row: dict[str, str], direction: int, sheets: Mapping[str, Sheet]) -> None:
    """The source stands in the table. Both voices are grouped alike (F8: memory)."""
    assert sizes(sheets[f"{row['meter']} in {row['value']}"], direction) in row["groups"].split("|"), row["source"]


@pytest.mark.parametrize(("meter", "value"), AGREED)
def test_beams_are_those_of_music21(meter: str, value: int, sheets: Mapping[str, Sheet]) -> None:
    assert sizes(sheets[f"{meter} in {value}"]) == music21_groups(meter, value)


@pytest.mark.parametrize(("name", "expected"), [(name, groups) for name, (_, _, groups) in STATED.items()])
def test_beams_follow_the_sum_that_the_author_states(name: str, expected: str, sheets: Mapping[str, Sheet]) -> None:
    """Unequal meters are beamed by the stated grouping: common practice, no source.

    LilyPond alone leaves eighths of 7/8 and 11/8 and sixteenths of 7/16 without beams: measured, 2.24.3.
    """
    assert sizes(sheets[name]) == expected


def test_4_4_by_the_beat_has_a_beam_a_beat(sheets: Mapping[str, Sheet]) -> None:
    """Eighths in twos: music21 10.5.1 groups them so."""
    assert sizes(sheets["4/4 by the beat"]) == "2+2+2+2" == music21_groups("4/4", 8)


@pytest.mark.parametrize(
    "name", ["offbeats", "over the middle", "mixed half bars", "4/4 in 8", "4/4 in 16", "4/4 in 32"]
)
def test_no_beam_crosses_the_middle_of_4_4(name: str, sheets: Mapping[str, Sheet]) -> None:
    """Source: Open University, Introduction to music theory, 3.6."""
    middle = Fraction(1, 2)
    beams = sheets[name].beams() + sheets[name].beams(-1)
    assert beams
    assert not [beam for beam in beams if beam[0] < middle <= beam[-1]]


def test_three_eighths_from_the_middle_of_3_4_do_not_share_a_beam(sheets: Mapping[str, Sheet]) -> None:
    """3/4 beamed in two halves would read as 6/8: LilyPond notation manual, which cites Gould, p. 153. LilyPond's own
    beams join the three (measured, 2.24.3)."""
    assert sizes(sheets["three from the middle"]) == "1+2"


def test_a_half_bar_with_a_sixteenth_is_beamed_by_the_beat(sheets: Mapping[str, Sheet]) -> None:
    """A beam over two beats is only for eighths: R. Thomas, Beams, part 1."""
    assert sizes(sheets["mixed half bars"]) == "2+3+4"


@pytest.mark.parametrize(("name", "eighths"), [("4/4 in 32", 8), ("6/8 in 32", 6)])
def test_inner_beams_of_thirty_seconds_end_at_the_eighths(name: str, eighths: int, sheets: Mapping[str, Sheet]) -> None:
    """Secondary beams part where the eighths are: common practice, no source."""
    for beam in sheets[name].of("Beam"):
        inner = sorted(
            {(box.left, box.right) for box in beam.boxes if box.right - box.left < beam.box.right - beam.box.left - 0.5}
        )
        assert len(inner) == len(beam.joined) // 4
    assert sum(len(beam.joined) // 4 for beam in sheets[name].of("Beam") if beam.direction == 1) == eighths
