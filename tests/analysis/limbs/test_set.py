"""The standard set, where its instruments stand. Common practice, no source: what a drummer sees who sits behind it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from engraver.analysis.limbs import assign
from engraver.definition import read_style
from engraver.rhythm import Instrument, Limbs, Pedal, Place, Side
from engraver.style import standard_kit
from tests.analysis.limbs.played import SET, beat, sides


def test_everything_stands_somewhere_and_every_pedal_has_its_foot() -> None:
    assert all(place.across is not None for place in SET.values())
    assert all((place.foot is None) == (place.limbs is Limbs.HANDS) for place in SET.values())
    assert {place.foot for place in SET.values() if place.limbs is Limbs.FEET} == {Side.RIGHT, Side.LEFT}


def test_the_toms_go_from_left_to_right_as_they_get_lower() -> None:
    toms = ("high tom", "mid tom", "low-mid tom", "low tom", "floor tom", "low floor tom")
    across = [SET[Instrument(tom)].across for tom in toms]
    assert across == sorted(across, key=lambda place: place or 0)


def test_sounds_of_one_drum_or_cymbal_share_its_surface_and_place() -> None:
    groups = (
        ("hi-hat", "open hi-hat", "half-open hi-hat"),
        ("snare", "cross-stick", "rim shot"),
        ("ride", "ride bell"),
    )
    for group in groups:
        places = {(SET[Instrument(name)].surface, SET[Instrument(name)].across) for name in group}
        assert len(places) == 1


def test_only_the_hi_hat_asks_for_its_pedal() -> None:
    asking = {row.instrument.name: row.pedal for row in standard_kit().rows if row.pedal}
    assert asking == {
        "hi-hat": Pedal.CLOSED,
        "open hi-hat": Pedal.OPEN,
        "half-open hi-hat": Pedal.OPEN,
        "foot hi-hat": Pedal.PRESS,
        "hi-hat splash": Pedal.SPLASH,
    }


def own_drum(folder: Path, row: str) -> Mapping[Instrument, Place]:
    """The standard set with a drum of the author's, struck by hands."""
    look = "position: -2, limbs: hands, key: 77, head: triangle"
    (folder / "style.yaml").write_text(f"kit:\n  log drum: {{{look}, {row}}}\n", "utf-8")
    return read_style(folder).kit.places()


def hands(places: Mapping[Instrument, Place]) -> tuple[str, str]:
    """Who plays the snare drum and, in its gaps, the drum of the author's."""
    found = assign(beat({"snare": "x-x-" * 4, "log drum": "-x--" * 4}), places)
    return sides(found, "snare"), sides(found, "log drum")


def test_the_hand_of_its_side_plays_a_drum_of_the_author(tmp_path: Path) -> None:
    """The snare drum stands at 3: far to the right of it the right hand is nearer, far to the left the left."""
    assert hands(own_drum(tmp_path, "across: 14"))[1] == "RRRR"
    assert hands(own_drum(tmp_path, "across: -8"))[1] == "LLLL"


def test_a_sound_of_another_instrument_stands_where_that_does(tmp_path: Path) -> None:
    bell = own_drum(tmp_path, "surface: low floor tom")[Instrument("log drum")]
    assert (bell.surface, bell.across) == ("low floor tom", SET[Instrument("low floor tom")].across)


def test_a_hand_keeps_time_where_the_author_says_so(tmp_path: Path) -> None:
    """Eighths on one drum go from hand to hand; where one hand keeps time they are its own."""
    line = {"log drum": "x-x-" * 4, "snare": "----x-------x---"}
    kept = assign(beat(line), own_drum(tmp_path, "across: 4, lead: yes"))
    assert sides(kept, "log drum") == "R" * 8


def test_an_instrument_of_the_author_says_where_it_stands(tmp_path: Path) -> None:
    row = "{position: -2, limbs: feet, key: 77, head: triangle, across: 7, foot: left}"
    (tmp_path / "style.yaml").write_text(f"kit:\n  log drum: {row}\n", "utf-8")
    place = read_style(tmp_path).kit[Instrument("log drum")].place
    assert (place.limbs, place.across, place.foot, place.surface) == (Limbs.FEET, 7, Side.LEFT, "log drum")
