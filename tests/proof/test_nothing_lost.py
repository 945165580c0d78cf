"""Grooves of every kind are engraved, read back, and nothing is lost: the demo book's, and some made to be awkward."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from engraver.style import GhostLook, Style

HEAD = "title: Awkward\ntempo: 90\n"
GROOVES = {
    "pickup, repeat, endings": """meter: 4/4
step: eighth
bars: 4
pickup: 1
repeats:
  - {bars: 1-3, times: 3, endings: ["2", "3"]}
layers:
  - name: All
    strokes:
      snare: {pickup: "g", bar 1: "x-f-X-g-", bar 2: "--x-d-x-", bar 3: "xxxx----", bar 4: "----r---"}
""",
    "fives, sevens and nines": """meter: 4/4
step: sixteenth
bars: 1
layers:
  - name: All
    strokes:
      snare: "(xgxXx)4 (xxxgxxx)4 (xxxxxxxxx)4 (xxx)4"
      bass drum: "x--- x--- x-x- (xxxxx)4"
""",
    "graces close together": """meter: 2/4
step: thirty-second
bars: 2
layers:
  - name: All
    strokes:
      snare: "rrxr xrxx dfdf xfxd"
      floor tom: "---r -r-- d-d- ---d"
""",
    "the first note has a grace, in both voices": """meter: 3/4
step: eighth
bars: 2
layers:
  - name: All
    strokes:
      snare: "f--x--"
      bass drum: "d-x--f"
""",
    "doubles of every length": """meter: 4/4
step: eighth
bars: 2
layers:
  - name: All
    strokes:
      snare: {step: quarter, bar 1: "=x=-", bar 2: "-==="}
      hi-hat: "=-=-===="
      bass drum: {step: sixteenth, bar 1: "=-==----=-==----", bar 2: "----========----"}
""",
    "doubles of halves": """meter: 4/4
step: half
bars: 1
layers:
  - name: All
    strokes:
      snare: "x="
""",
    "triplets and signs together": """meter: 6/8
step: eighth triplet
bars: 2
layers:
  - name: All
    strokes:
      open hi-hat: "x-xg-Xx-x"
      half-open hi-hat: "-x------- "
      snare: "gg-X--gz-"
      hi-hat splash: "x--x--x--"
      china: "--------C"
""",
    "long notes": """meter: 4/4
step: quarter
bars: 3
layers:
  - name: All
    strokes:
      ride bell: {bar 1: "x---", bar 2: "x-x-", bar 3: "---X"}
      rim shot: {bar 1: "--x-", bar 2: "----", bar 3: "----"}
      cowbell: {bar 1: "----", bar 2: "----", bar 3: "x---"}
      foot hi-hat: {bar 1: "x---", bar 2: "----", bar 3: "x-x-"}
""",
    "doubles of quarters": """meter: 4/4
step: quarter
bars: 2
layers:
  - name: All
    strokes:
      snare: {bar 1: "=x=-", bar 2: "-=x="}
      bass drum: {bar 1: "x-=-", bar 2: "x-zx"}
""",
    "flam and drag in one chord": """meter: 2/4
step: eighth
bars: 1
layers:
  - name: All
    strokes:
      snare: "x-d-"
      floor tom: "--f-"
""",
}
LOOKS = pytest.mark.parametrize("look", GhostLook, ids=lambda look: look.value)


def test_the_demo_book_loses_nothing(book: list[Any], prove: Callable[..., list[Any]]) -> None:
    assert len(book) >= 8
    lost = [str(difference) for differences in prove(book) for difference in differences]
    assert lost == []


@pytest.fixture(scope="module")
def proved(make: Callable[..., Any], prove: Callable[..., list[Any]]) -> dict[str, Any]:
    return dict(zip(GROOVES, prove([make(HEAD + text) for text in GROOVES.values()]), strict=True))


@pytest.mark.parametrize("name", GROOVES)
def test_an_awkward_groove_loses_nothing(name: str, proved: dict[str, Any]) -> None:
    assert [str(difference) for difference in proved[name]] == []


@LOOKS
def test_a_ghost_may_look_as_the_style_says(
    look: GhostLook, make: Callable[..., Any], prove: Callable[..., list[Any]]
) -> None:
    chapter = make(HEAD + GROOVES["triplets and signs together"], Style(ghosts=look))
    assert prove([chapter]) == [()]


def test_one_slash_on_an_open_head_is_no_double(make: Callable[..., Any], prove: Callable[..., list[Any]]) -> None:
    chapter = make(HEAD + GROOVES["doubles of halves"])
    staff = chapter.source.staves["the whole groove"]
    assert staff.count("snare4 snare4 |") == 1
    (found,) = prove([chapter.with_staff("the whole groove", staff.replace("snare4 snare4 |", "snareDouble2:8 |"))])
    assert [one.what for one in found] == [
        'snare, double: a sign for "1 slash on an open head" is in the ink but not in the groove',
        'snare, double: the sign for "double" is missing in the ink',
    ]
