"""The staff of a good chapter is damaged in one place: the proof must say so, and name that place and no other.

Each case changes the text that LilyPond reads and leaves the groove as it was.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

import pytest

WHOLE, REGROUPED = "the whole groove", "regrouped view"
BOTH = {"sound", "ink"}


class Damage(NamedTuple):
    what: str
    part: str
    bar: int
    voice: str
    old: str
    new: str
    noticed_in: set[str]
    says: str


DAMAGES = [
    Damage("a stroke dropped", WHOLE, 1, "upper", "highTom16]", "r16]", BOTH, "bar 1, step 4: high tom is missing"),
    Damage("a stroke added", WHOLE, 3, "lower", "r8. ", "r8 bassDrum16 ", BOTH, "bar 3, step 3: bass drum is in the"),
    Damage(
        "a stroke moved", WHOLE, 1, "lower", "r16 bassDrum16[", "bassDrum16 r16", BOTH, "step 5: bass drum is in the"
    ),
    Damage("another drum", WHOLE, 1, "upper", "highTom16", "floorTom16", BOTH, "step 4: high tom is missing"),
    Damage(
        "another line", WHOLE, 1, "upper", "highTom16", "\\tweak Y-offset #1 highTom16", {"ink"}, "(normal) on line 4"
    ),
    Damage("another head", WHOLE, 1, "upper", "highTom16", "\\tweak style #'cross highTom16", {"ink"}, "(x) on line 5"),
    Damage(
        "an invisible head", WHOLE, 1, "upper", "highTom16", "\\tweak transparent ##t highTom16", {"ink"}, "high tom"
    ),
    Damage("an empty head", WHOLE, 1, "upper", "highTom16", "\\tweak stencil ##f highTom16", {"ink"}, "high tom"),
    Damage(
        "the voice of the feet",
        WHOLE,
        4,
        "upper",
        "ride8]",
        "\\stemDown ride8] \\stemUp",
        {"ink"},
        "in the lower voice",
    ),
    Damage(
        "a ghost that looks plain", WHOLE, 2, "upper", "\\ghost snare", "snare", {"ink"}, "step 2: snare, ghost is not"
    ),
    Damage(
        "a ghost that sounds plain", WHOLE, 2, "upper", "snareGhost16", "snare16", {"sound"}, "snare, ghost is plain"
    ),
    Damage(
        "a plain note in parentheses", WHOLE, 1, "upper", "highTom16", "\\ghost highTom16", {"ink"}, "is in parentheses"
    ),
    Damage(
        "an accent not printed", WHOLE, 2, "upper", "[->", "[", {"ink"}, "step 5: hi-hat and snare, accent: the sign"
    ),
    Damage(
        "an accent too many", WHOLE, 1, "upper", "hiHat16 highTom", "hiHat16-> highTom", {"ink"}, 'a sign for "accent"'
    ),
    Damage("an accent not played", WHOLE, 2, "upper", "snareAccent", "snare", {"sound"}, "snare, accent is plain"),
    Damage(
        "a flam's grace lost", WHOLE, 2, "upper", "\\slashedGrace { snareGrace8 }", "", BOTH, "flam has 0 grace notes"
    ),
    Damage(
        "one of a drag's graces lost", WHOLE, 2, "upper", "snareGrace16[ snareGrace16]", "snareGrace16", BOTH, "has 1"
    ),
    Damage("a flam played as a stroke", WHOLE, 2, "upper", "snareFlam", "snare", {"sound"}, "snare, flam is plain"),
    Damage("a grace on another drum", WHOLE, 3, "upper", "snareGrace16[", "highTom16[", BOTH, "ruff has 2 grace notes"),
    Damage(
        "a double's slash lost", WHOLE, 3, "upper", "snareDouble16:32", "snareDouble16", {"ink"}, 'sign for "double"'
    ),
    Damage(
        "a double of four strokes", WHOLE, 3, "upper", "snareDouble16:32", "snareDouble16:64", {"ink"}, '"2 slashes"'
    ),
    Damage("half a written-out double lost", WHOLE, 4, "upper", "snare16.", "r16.", BOTH, "step 3: snare, double"),
    Damage("a buzz's sign lost", WHOLE, 3, "upper", "\\buzz", "", {"ink"}, 'sign for "buzz"'),
    Damage("a choke not printed", WHOLE, 4, "upper", "-\\choke", "", {"ink"}, "choke"),
    Damage(
        "an open sign lost", WHOLE, 3, "upper", "openHiHat", "\\once \\omit Script openHiHat", {"ink"}, 'for "open"'
    ),
    Damage("an open hi-hat closed", WHOLE, 3, "upper", "openHiHat", "hiHat", BOTH, "step 15: open hi-hat is missing"),
    Damage("half open to open", WHOLE, 4, "upper", "halfOpenHiHat", "openHiHat", BOTH, '"half open" is missing'),
    Damage("a cell's line changed", REGROUPED, 2, "upper", "hiHat8 ", "ride8 ", BOTH, "hi-hat is missing"),
    Damage("the remainder lost", REGROUPED, 5, "upper", "ride16 ", "r16 ", BOTH, "ride is missing"),
    Damage(
        "a beat of a tuplet lost", WHOLE, 4, "upper", "floorTom16 floorTom16 }", "floorTom16 r16 }", BOTH, "between"
    ),
    Damage(
        "a repeat count changed",
        "exercise 1",
        1,
        "",
        "volta 6",
        "volta 5",
        {"sound"},
        "played 5 times in the sound, not 6",
    ),
]


def damaged(staff: str, damage: Damage) -> str:
    """The old text once changed, in the bar that is named; repeat signs stand in both voices, before the first bar."""
    lines = staff.split("\n")
    if not damage.voice:
        assert staff.count(damage.old) == 2
        return staff.replace(damage.old, damage.new)
    comment = f"% {damage.part}, bar {damage.bar}, {damage.voice} voice,"
    (index,) = [index for index, line in enumerate(lines) if comment in line]
    assert damage.old in lines[index], lines[index]
    lines[index] = lines[index].replace(damage.old, damage.new, 1)
    return "\n".join(lines)


def sheets(damages: Sequence[Damage]) -> list[list[Damage]]:
    """Damages that lie in different bars are engraved together."""
    together: list[list[Damage]] = []
    for damage in damages:
        free = (sheet for sheet in together if (damage.part, damage.bar) not in {(d.part, d.bar) for d in sheet})
        sheet = next(free, None)
        if sheet is None:
            together.append(sheet := [])
        sheet.append(damage)
    return together


def with_damages(chapter: Any, sheet: Sequence[Damage]) -> Any:
    for damage in sheet:
        chapter = chapter.with_staff(damage.part, damaged(chapter.source.staves[damage.part], damage))
    return chapter


@pytest.fixture(scope="module")
def noticed(slates: Any, prove: Callable[[Sequence[Any]], list[Any]]) -> dict[str, Any]:
    """What is noticed in the bar of each damage. Nothing may be noticed in a bar that is whole."""
    together = sheets(DAMAGES)
    found = prove([with_damages(slates, sheet) for sheet in together])
    for sheet, differences in zip(together, found, strict=True):
        places = {(damage.part, damage.bar) for damage in sheet}
        assert all(one.place and (one.part, one.place.bar) in places for one in differences), [*map(str, differences)]
    return {
        damage.what: [one for one in differences if (one.part, one.place.bar) == (damage.part, damage.bar)]
        for sheet, differences in zip(together, found, strict=True)
        for damage in sheet
    }


def test_the_undamaged_chapter_loses_nothing(slates: Any, prove: Callable[..., list[Any]]) -> None:
    assert prove([slates]) == [()]


@pytest.mark.parametrize("damage", DAMAGES, ids=lambda damage: damage.what)
def test_damage_is_noticed_where_it_is(damage: Damage, noticed: dict[str, Any]) -> None:
    found = noticed[damage.what]
    told = [str(difference) for difference in found]
    assert {kind for kind in BOTH for text in told if f"in the {kind}" in text} == damage.noticed_in, told
    assert any(damage.says in text for text in told), told


def test_two_bars_swapped_differ_in_both(slates: Any, prove: Callable[..., list[Any]]) -> None:
    lines = slates.source.staves[WHOLE].split("\n")
    first, second = (next(n for n, line in enumerate(lines) if f"bar {bar}, upper voice" in line) for bar in (2, 3))
    (music_first, end_first), (music_second, end_second) = lines[first].split(" | "), lines[second].split(" | ")
    lines[first], lines[second] = f"{music_second} | {end_first}", f"{music_first} | {end_second}"
    (found,) = prove([slates.with_staff(WHOLE, "\n".join(lines))])
    assert {one.place.bar for one in found} == {2, 3}
    assert {kind for kind in BOTH for one in found if f"in the {kind}" in one.what} == BOTH


def test_a_difference_reads_as_a_drummer_would_say_it(noticed: dict[str, Any]) -> None:
    (found,) = noticed["a ghost that sounds plain"]
    assert str(found) == "slates, the whole groove, bar 2, step 2: snare, ghost is plain in the sound"
