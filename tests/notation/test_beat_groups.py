"""Beam groups of bars full of one value: against a table gathered from handbooks, and against music21."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from music21 import meter as music21_meter
from music21 import note

from engraver.notation import Beam, Note, StaffBar, VoiceName, write
from engraver.rhythm import Meter
from engraver.style import Style
from tests.notation.rendering import groove_of, strokes

TABLE = Path(__file__).parent.parent / "sources" / "beat_groups.csv"


def _rows() -> list[dict[str, str]]:
    lines = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def groups(meter: str, value: int) -> str:
    """``3+3`` for 6/8 in eighths, from where the beams begin and end; a note without a beam counts alone."""
    step = Fraction(1, value)
    count = int(Meter.parse(meter).length / step)
    score = write(groove_of(strokes("snare", "x" * count, step), meter), Style())
    return "+".join(map(str, _sizes(score.bars[0])))


def _sizes(bar: StaffBar) -> list[int]:
    sizes: list[int] = []
    inside = False
    for item in next(voice for voice in bar.voices if voice.name is VoiceName.UPPER).items:
        assert isinstance(item, Note)
        if inside:
            sizes[-1] += 1
        else:
            sizes.append(1)
        inside = item.beam is Beam.BEGIN or (inside and item.beam is None)
    return sizes


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['meter']} in {row['value']}")
def test_groups_are_those_of_the_handbooks(row: dict[str, str]) -> None:
    assert groups(row["meter"], int(row["value"])) in row["groups"].split("|"), row["source"]


# music21 beams 4/4 eighths in twos, 5/8 as 2+3 and 5/4, 6/4, 7/4 over beats, which other sources do not; left out.
AGREED = [("2/4", 16), ("3/4", 8), ("3/4", 16), ("4/4", 16), ("2/2", 8), ("3/2", 8), ("3/8", 8), ("3/8", 16)]
AGREED += [(f"{count}/8", value) for count in (6, 7, 9, 12) for value in (8, 16)]


def music21_groups(meter: str, value: int) -> str:
    signature = music21_meter.TimeSignature(meter)
    count = int(signature.barDuration.quarterLength * value / 4)
    notes = [note.Note(quarterLength=4 / value) for _ in range(count)]
    sizes: list[int] = []
    for beams in signature.getBeams(notes):
        assert beams is not None
        if beams.getByNumber(1).type == "start":
            sizes.append(0)
        sizes[-1] += 1
    return "+".join(map(str, sizes))


@pytest.mark.parametrize(("meter", "value"), AGREED)
def test_groups_are_those_of_music21(meter: str, value: int) -> None:
    assert groups(meter, value) == music21_groups(meter, value)
