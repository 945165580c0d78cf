"""What the proof says when it cannot prove, and what it says of repeats and of bars that do not add up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from engraver import proof
from engraver.engraving import Job, Workshop
from engraver.errors import EngravingError, ProofError
from engraver.lilypond import Source
from engraver.lilypond.notes import Sound
from engraver.proof.compare_ink import on_staff
from engraver.proof.regrouped import compare_regrouped
from engraver.proof.source import keys
from engraver.rhythm import Groove, Instrument, Layer

REPEATS = """title: Twice round
meter: 2/4
tempo: 90
step: eighth
bars: 5
repeats:
  - {bars: 1-2, times: 4}
  - {bars: 3-5, times: 2, endings: ["4", "5"]}
layers:
  - name: All
    strokes:
      snare: {bar 1: "x-g-", bar 2: "X---", bar 3: "xx--", bar 4: "---x", bar 5: "xxxx"}
"""
WHOLE = "the whole groove"


def sounds(count: int) -> dict[Sound, str]:
    return {Sound(Instrument(f"drum {n}")): f"drum{n}" for n in range(count)}


def test_as_many_notes_as_midi_has_keys_can_be_told_apart() -> None:
    assert len(set(keys(sounds(127)))) == 127


def test_more_notes_than_midi_has_keys_are_refused() -> None:
    with pytest.raises(ProofError, match="128 different notes cannot be told apart in sound"):
        keys(sounds(128))


def test_two_notes_of_one_name_are_refused() -> None:
    names = {Sound(Instrument("snare ghost")): "snareGhost", Sound(Instrument("snare"), grace=True): "snareGhost"}
    with pytest.raises(ProofError, match="two different notes are both called snareGhost"):
        keys(names)


def test_a_passage_that_is_not_on_the_pages_is_refused(slates: Any) -> None:
    text = Source(slates.source.text.replace(slates.source.staves["regrouped view"], ""))
    with pytest.raises(ProofError, match="the pages do not hold regrouped view once"):
        proof.source(replace(slates.source, text=text))


def test_pages_that_cannot_be_engraved_prove_nothing(slates: Any, shop: Workshop) -> None:
    (result,) = shop.engrave([Job("slates", proof.source(slates.source) + "}")])
    with pytest.raises(EngravingError, match="the proof of slates could not be engraved"):
        proof.compare(slates.plan, slates.style, slates.source, result)


def test_notes_outside_every_passage_are_noticed(slates: Any, prove: Callable[..., list[Any]]) -> None:
    text = Source(slates.source.text + "\\score { \\new DrumStaff \\drummode { snare4 hiHat } }\n")
    (found,) = prove([replace(slates, source=replace(slates.source, text=text))])
    assert [str(one) for one in found] == ["slates, the pages: 2 columns of notes are in no passage"]


@pytest.mark.parametrize(
    "old, new, told",
    [
        ("volta 4", "volta 3", "bar 1, step 1: what begins here is played 3 times in the sound, not 4"),
        ("volta 4", "volta 6", "bar 1, step 1: what begins here is played 6 times in the sound, not 4"),
        ("volta 2", "volta 3", "bar 3, step 1: what begins here is played 3 times in the sound, not 2"),
    ],
)
def test_a_repeat_within_the_groove_is_counted(
    old: str, new: str, told: str, make: Callable[..., Any], prove: Callable[..., list[Any]]
) -> None:
    chapter = make(REPEATS)
    staff = chapter.source.staves[WHOLE]
    assert staff.count(old) == 2  # once a voice
    ((one,),) = prove([chapter.with_staff(WHOLE, staff.replace(old, new))])
    assert str(one) == f"slates, {WHOLE}, {told}"


def test_a_stroke_that_is_no_longer_regrouped_is_noticed(slates: Any) -> None:
    passage = slates.plan.regrouped
    first = passage.groove.strokes[0]
    (found,) = compare_regrouped(slates.plan.groove, replace(passage, groove=passage.groove.only(lambda s: s != first)))
    assert (found.onset, found.what) == (0, "bass drum of the groove is missing in the regrouped view")


def test_a_stroke_that_regrouping_adds_is_noticed(slates: Any) -> None:
    passage, drum = slates.plan.regrouped, slates.plan.groove.strokes[0]
    added = Layer("added", (replace(drum, instrument=Instrument("cowbell")),))
    more = replace(passage.groove, layers=(*passage.groove.layers, added))
    (found,) = compare_regrouped(slates.plan.groove, replace(passage, groove=more))
    assert found.what == "cowbell of the regrouped view is not in the groove"


def test_regrouped_bars_that_do_not_add_up_are_noticed(slates: Any) -> None:
    passage = slates.plan.regrouped
    short: Groove = replace(passage.groove, bars=passage.groove.bars[:-1])
    (found,) = compare_regrouped(slates.plan.groove, replace(passage, groove=short))
    assert found.what == "its bars hold 60 steps, the groove 64"
    gap = replace(
        passage.groove, bars=(replace(passage.groove.bars[0], length=Fraction(1, 2)), *passage.groove.bars[1:])
    )
    (found,) = compare_regrouped(slates.plan.groove, replace(passage, groove=gap))
    assert found.what == "the bar does not begin where the one before it ends"


@pytest.mark.parametrize(
    "position, words",
    [
        (0, "on line 3"),
        (-4, "on line 1"),
        (4, "on line 5"),
        (1, "in space 3"),
        (-3, "in space 1"),
        (5, "above the staff, position 5"),
        (-5, "below the staff, position -5"),
    ],
)
def test_lines_and_spaces_count_from_the_bottom(position: int, words: str) -> None:
    """Common practice, no source."""
    assert on_staff(position) == words


def test_reading_the_ink_changes_no_page(slates: Any, shop: Workshop) -> None:
    """So what is read is the ink of the very pages that go into the book."""
    pages, proved = shop.engrave([Job("pages", slates.source.text), Job("proof", proof.source(slates.source))])
    assert pages.pdf and proved.pdf
    assert pages.pdf.read_bytes() == proved.pdf.read_bytes()
