"""Daily hearing times against the published table, where it is its own formula; the source stands in niosh.csv."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from engraver.lilypond.hearing import LEVELS, allowed_minutes, doses
from engraver.style import words

TABLE = Path(__file__).parents[1] / "sources" / "niosh.csv"
ROWS = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
PUBLISHED = {
    int(row["level"]): 3600 * int(row["hours"]) + 60 * int(row["minutes"]) + int(row["seconds"])
    for row in csv.DictReader(ROWS)
}
MISPRINT = 99  # the one row that is not the formula, see niosh.csv


@pytest.mark.parametrize("level", sorted(set(PUBLISHED) - {MISPRINT}))
def test_times_are_those_of_the_table_as_far_as_it_is_given(level: int) -> None:
    rounded_to = 1 if PUBLISHED[level] % 60 or level > 94 else 60  # up to 94 dB(A) the table gives whole minutes
    assert abs(60 * allowed_minutes(level) - PUBLISHED[level]) <= rounded_to / 2


def test_every_printed_level_is_in_the_table() -> None:
    assert set(LEVELS) <= set(PUBLISHED) - {MISPRINT}


def test_times_are_told_in_hours_and_minutes() -> None:
    assert [told for _, _, told in doses(words("en"))] == ["8 h", "4 h", "2 h", "1 h", "30 min", "15 min"]
