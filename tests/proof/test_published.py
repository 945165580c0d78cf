"""The engraved staff beside the published one: what stands on the page and what sounds, not what our kit says of it."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any, NamedTuple

import pretty_midi
import pytest

from engraver import proof
from engraver.engraving import Engine, Engraved, Job, Workshop
from engraver.proof.ink import InkColumn, columns
from engraver.proof.source import lines

TABLE = Path(__file__).parents[1] / "sources" / "drumset_positions.csv"
STAFF = "the whole groove"
WORDS = {"cross": "x", "()": "normal", "diamond": "diamond", "triangle": "triangle"}


class Row(NamedTuple):
    instrument: str
    published: str
    head: str
    sign: str
    position: str
    sound: str


def rows() -> list[Row]:
    text = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
    return [Row(**row) for row in csv.DictReader(text)]


ROWS = rows()


@pytest.fixture(scope="module")
def kit(make: Callable[..., Any]) -> Any:
    """Two bars in which every instrument of the table is struck once, a sixteenth after the one before it."""
    steps = {row.instrument: "-" * n + "x" + "-" * (31 - n) for n, row in enumerate(ROWS)}
    strokes = "".join(f'      {name}: "{pattern}"\n' for name, pattern in steps.items())
    head = "title: All of it\nmeter: 4/4\ntempo: 60\nstep: sixteenth\nbars: 2\n"
    return make(f"{head}layers:\n  - name: Kit\n    strokes:\n{strokes}")


@pytest.fixture(scope="module")
def engraved(kit: Any, shop: Workshop) -> Engraved:
    """The proof's pages, and the staff played with the keys that the pages' own design gives its notes."""
    keys = "\\context { \\DrumStaff drumPitchTable = #(alist->hash-table midiDrumPitches) }"
    played = f"\\score {{ \\new DrumStaff <<\n{kit.source.staves[STAFF]}\n>> \\midi {{ {keys} }} }}\n"
    (result,) = shop.engrave([Job("kit", proof.source(kit.source) + played)])
    assert not result.failure
    return result


@pytest.fixture(scope="module")
def ink(kit: Any, engraved: Engraved) -> dict[Fraction, InkColumn]:
    (file,) = engraved.with_suffix(".ink")
    return {column.onset: column for column in columns(file, lines(kit.source))[STAFF]}


@pytest.mark.parametrize("number, row", [*enumerate(ROWS)], ids=[row.instrument for row in ROWS])
def test_the_ink_of_an_instrument_is_where_it_was_published(
    number: int, row: Row, ink: dict[Fraction, InkColumn]
) -> None:
    column = ink[Fraction(number, 16)]
    (head,) = column.heads
    assert head.shape == (int(row.position), WORDS[row.head])
    assert column.signs == (frozenset() if row.sign == "#f" else {row.sign})


def test_the_table_is_that_of_the_engine() -> None:
    """Source: the file that comes with the engine."""
    folder = Engine.find().path.parents[1] / "share" / "lilypond"
    (file,) = folder.glob("*/ly/drumpitch-init.ly")
    table = file.read_text("utf-8").split("(weinberg-drums-style .")[1].split("))\n", 1)[0]
    published = {name: rest for name, *rest in re.findall(r"\((\w+) +(\(\)|\w+) +(#f|\w+) +(-?\d+)\)", table + ")")}
    assert {row.published: [row.head, row.sign, row.position] for row in ROWS} == {
        name: rest for name, rest in published.items() if name != "closedhihat"
    }


def test_every_instrument_plays_its_general_midi_sound(engraved: Engraved) -> None:
    """Source: the percussion names of pretty_midi, which are those of the General MIDI Level 1 percussion key map."""
    (file,) = [path for path in engraved.with_suffix(".midi") if _plays_on_the_first_beat(path)]
    (drums,) = pretty_midi.PrettyMIDI(str(file)).instruments
    heard = sorted((note.start, pretty_midi.note_number_to_drum_name(note.pitch)) for note in drums.notes)
    assert drums.is_drum
    assert [name for _, name in heard] == [row.sound for row in ROWS]


def _plays_on_the_first_beat(path: Path) -> bool:
    """The proof's own music begins after a whole rest."""
    return min(note.start for one in pretty_midi.PrettyMIDI(str(path)).instruments for note in one.notes) == 0
