"""Bars that are a sign for the bar before them are proved like any other, and so is a groove in one voice."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from engraver.style import Style, Voices

WHOLE = "the whole groove"
TEXT = """title: Even Slates
meter: 4/4
tempo: 80
step: eighth
bars: 8
layers:
  - name: All
    strokes:
      hi-hat: "xxxx xxxx"
      snare:
        bars 1-3,5-8: "--X- g-X-"
        bar 4: "--X- --Xx"
      bass drum: "x--x x---"
"""
LOOKS = {"two voices": Style(repeat_bars=True), "one voice": Style(repeat_bars=True, voices=Voices.ONE)}


@pytest.mark.parametrize("look", LOOKS)
def test_repeat_bars_lose_nothing(look: str, make: Callable[..., Any], prove: Callable[..., list[Any]]) -> None:
    chapter = make(TEXT, LOOKS[look])
    assert "\\repeat percent" in chapter.source.staves[WHOLE]
    assert prove([chapter]) == [()]


def test_a_sign_for_a_bar_that_is_not_the_same_is_noticed(
    make: Callable[..., Any], prove: Callable[..., list[Any]]
) -> None:
    """The bar that the signs stand for is damaged, so each of them is."""
    chapter = make(TEXT, LOOKS["two voices"])
    lines = chapter.source.staves[WHOLE].split("\n")
    percent = next(n for n, line in enumerate(lines) if "\\repeat percent" in line)
    times = int(lines[percent].split()[2])
    first = int(lines[percent + 1].split(", bar ")[1].split(",")[0])
    lines[percent + 1] = lines[percent + 1].replace("hiHat8", "bassDrum8", 1)
    (found,) = prove([chapter.with_staff(WHOLE, "\n".join(lines))])
    assert {one.place.bar for one in found} == {*range(first, first + times)}
