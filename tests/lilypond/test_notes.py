"""Names of notes: letters only, one for each sound, whatever an author calls an instrument."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engraver.lilypond.notes import Sound, note_names, sounds_of
from engraver.rhythm import Instrument, Ornament, Stroke, Touch
from engraver.style import standard_kit

SNARE = Instrument("snare")


def every_sound(*names: str) -> tuple[Sound, ...]:
    instruments = [Instrument(name) for name in names]
    struck = [Sound(i, touch, ornament) for i, touch, ornament in product(instruments, Touch, [None, *Ornament])]
    return (*struck, *(Sound(instrument, grace=True) for instrument in instruments))


def test_a_name_says_what_it_stands_for() -> None:
    hat = Instrument("open hi-hat")
    sounds = (
        Sound(SNARE),
        Sound(SNARE, Touch.GHOST),
        Sound(SNARE, Touch.ACCENT, Ornament.FLAM),
        Sound(SNARE, grace=True),
        Sound(hat, Touch.ACCENT),
    )
    assert [note_names(sounds)[sound] for sound in sounds] == [
        "snare",
        "snareGhost",
        "snareAccentFlam",
        "snareGrace",
        "openHiHatAccent",
    ]


CLASHES = [
    ("snare", "snare ghost"),
    ("snare", "snare grace", "snare accent flam"),
    ("snare", "snare x", "snare ghost", "snare ghost x"),
    ("tom 1", "tom 2", "tom 3", "tom x", "tom"),
    ("鼓", "тамтам", "!!!", "sound"),
    ("a", "b", "s", "r", "drum a"),
    ("Ä bell", "a bell", "à-bell"),
    tuple(row.instrument.name for row in standard_kit().rows),
]


@pytest.mark.parametrize("names", CLASHES, ids=lambda names: ", ".join(names[:4]))
def test_no_two_sounds_have_one_name(names: tuple[str, ...]) -> None:
    sounds = every_sound(*names)
    found = note_names(sounds)
    assert len({*found.values()}) == len(found) == len(sounds)
    assert all(name.isascii() and name.isalpha() and len(name) > 2 for name in found.values())


@given(st.sets(st.text(min_size=1, max_size=12), min_size=1, max_size=5))
@settings(max_examples=60, deadline=None)
def test_no_two_sounds_have_one_name_whatever_the_author_writes(names: set[str]) -> None:
    sounds = every_sound(*names)
    found = note_names(sounds)
    assert len({*found.values()}) == len(sounds)
    assert all(name.isascii() and name.isalpha() for name in found.values())


def test_the_order_of_the_sounds_does_not_matter() -> None:
    sounds = every_sound("snare", "snare ghost", "tom")
    assert dict(note_names(sounds)) == dict(note_names(reversed(sounds)))


def test_an_ornament_needs_its_grace_note_and_a_double_its_halves() -> None:
    flam = Stroke(Fraction(0), SNARE, Touch.ACCENT, Ornament.FLAM)
    assert set(sounds_of([flam])) == {Sound(SNARE, Touch.ACCENT, Ornament.FLAM), Sound(SNARE, grace=True)}
    double = Stroke(Fraction(0), SNARE, Touch.ACCENT, Ornament.DOUBLE)
    assert {Sound(SNARE, Touch.ACCENT), Sound(SNARE)} < set(sounds_of([double]))
