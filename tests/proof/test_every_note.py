"""No note of a page can change unnoticed; random grooves lose nothing."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from engraver import lilypond
from engraver.chapters import Passage
from engraver.rhythm import Groove
from engraver.style import words
from tests.properties.strategies import grooves

WHOLE = "the whole groove"
BARS = 4


def test_every_single_note_is_proved(slates: Any, prove: Callable[..., list[Any]]) -> None:
    """Each note of the full groove once becomes another drum's: grace notes, chord members, tuplets, all of them."""
    places = {bar: _notes(slates, bar) for bar in range(1, BARS + 1)}
    assert min(map(len, places.values())) > 12
    rounds = max(map(len, places.values()))
    sheets = [[notes[turn] for notes in places.values() if turn < len(notes)] for turn in range(rounds)]
    for sheet, found in zip(sheets, prove([_changed(slates, sheet) for sheet in sheets]), strict=True):
        for kind in ("sound", "ink"):
            bars = {one.place.bar for one in found if f"in the {kind}" in one.what}
            assert bars == {bar for bar, _ in sheet}, (sheet, [*map(str, found)])


def _notes(chapter: Any, bar: int) -> list[tuple[int, tuple[int, int]]]:
    """Where the notes of a bar stand in the text of the staff."""
    staff = chapter.source.staves[WHOLE]
    names = re.compile(rf"\b({'|'.join(chapter.source.names.values())})(?![A-Za-z])")
    lines = [m.span() for m in re.finditer(rf"^.*% {WHOLE}, bar {bar}, .*$", staff, re.MULTILINE)]
    return [(bar, found.span()) for start, end in lines for found in names.finditer(staff, start, end)]


def _changed(chapter: Any, sheet: list[tuple[int, tuple[int, int]]]) -> Any:
    staff = chapter.source.staves[WHOLE]
    for _, (start, end) in sorted(sheet, key=lambda note: note[1], reverse=True):
        other = "floorTom" if staff[start:end] == "highTom" else "highTom"
        staff = staff[:start] + other + staff[end:]
    return chapter.with_staff(WHOLE, staff)


# No shrinking: it would engrave for minutes, and a difference names bar and step of one of ten short grooves.
@settings(max_examples=3, deadline=None, derandomize=True, database=None, phases=[Phase.generate])
@given(drawn=st.lists(grooves(3), min_size=10, max_size=10))
def test_random_grooves_lose_nothing(slates: Any, prove: Callable[..., list[Any]], drawn: list[Groove]) -> None:
    (found,) = prove([_chapter_of(slates, drawn)])
    assert [str(difference) for difference in found] == []


def _chapter_of(like: Any, drawn: list[Groove]) -> Any:
    """A chapter whose exercises are these grooves."""
    say = words("en")
    exercises = tuple(
        replace(like.plan.exercises[0], passage=Passage(f"exercise {n}", groove, repeats=n % 3 + 1), twin=None, said=())
        for n, groove in enumerate(drawn, start=1)
    )
    plan = replace(like.plan, exercises=exercises)
    return replace(like, plan=plan, source=lilypond.chapter(plan, like.style, say))
