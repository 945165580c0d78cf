"""What no body can play, and what few can: what is said of it, and where."""

# ruff: noqa: E501 - what is said is told line by line

from __future__ import annotations

from pathlib import Path

import pytest

from engraver import definition
from engraver.chapters import playability
from engraver.manuscript.planning import read_facts
from engraver.style import Style

HEAD = "title: Test\ntempo: {tempo}\nlayers:\n  - name: All\n    strokes:\n"

# tempo, lanes and sticking | what is refused or warned of
CASES = {
    "three hands": (
        ("80", 'crash: "x--- ---- ---- ----"\nride: "x--- ---- ---- ----"\nsnare: "x--- ---- ---- ----"', ""),
        "refused 6: bar 1, beat 1, step 1: the crash, the ride and the snare fall together: 3 strokes for 2 limbs | "
        "leave a stroke out, or move it to another step",
    ),
    "two pedals for one foot": (
        ("80", 'left bass drum: "---- x--- ---- ----"\nfoot hi-hat: "---- x--- ---- ----"', ""),
        "refused 6: bar 1, beat 2, step 5: the foot hi-hat and the left bass drum fall together, and all of them are "
        "the left foot's | leave a stroke out, or move it to another step",
    ),
    "a foot that is too fast": (
        ("140", 'bass drum: "x-x- x-x- xxxx xxxx"', ""),
        "refused 6: bar 1, beat 3, step 9: the right foot plays 9.3 strokes a second from here on; 8.6 is the most that "
        "any player keeps up | write tempo 129 or less or let two feet take turns: a row of feet under sticking:, or "
        "the left bass drum",
    ),
    "a sticking that is too fast": (
        ("180", 'snare: "xxxx xxxx xxxx xxxx"', 'sticking: {hands: "RRRR RRRR RLRL RLRL"}'),
        "refused 6: bar 1, beat 1, step 1: the right hand plays 12 strokes a second from here on; 10.1 is the most that "
        "any player keeps up | write tempo 151 or less or give some of its strokes to the other hand: without the row "
        "of sticking it can be played",
    ),
    "two strokes faster than a rebound": (
        ("320", 'snare: "=--- ---- =--- ----"', ""),
        "refused 6: bar 1, beat 1, step 1: the right hand plays 42.7 strokes a second from here on; 20.1 is the most "
        "for a stroke and its rebound | write tempo 151 or less",
    ),
    "a pedal that is up and down": (
        ("80", 'open hi-hat: "x--- ---- ---- ----"\nfoot hi-hat: "x--- ---- x--- ----"', ""),
        "refused 6: bar 1, beat 1, step 1: the foot hi-hat and the open hi-hat fall together, and the hi-hat's pedal "
        "cannot be up and down | leave one of them out, or write an open hi-hat where the foot is up",
    ),
    "an open hi-hat that nothing closes": (
        (
            "80",
            'open hi-hat: "x--- ---- ---- ----"\nhi-hat: "---- x--- ---- ----"\nleft bass drum: "---- x--- ---- ----"',
            "",
        ),
        "refused 8: bar 1, beat 2, step 5: the left foot plays the left bass drum, and has to close the open hi-hat at "
        "the same moment | keep the hi-hat open there, or give the other stroke to the other foot",
    ),
    "a hi-hat held by nothing": (
        ("80", 'hi-hat: "x--- x--- x--- x---"\nleft bass drum: "---- x--- ---- ----"', ""),
        "warned 6: bar 1, beat 2, step 5: the hi-hat and the left bass drum fall together: with the left foot away from "
        "its pedal the hi-hat is not closed | write an open hi-hat, or tell the reader that a clutch holds it",
    ),
    "a very fast hand": (
        ("130", 'ride: "xxxx xxxx xxxx xxxx"', 'sticking: {hands: "RRRR RRRR RRRR RRRR"}'),
        "warned 6: bar 1, beat 1, step 1: the right hand plays 8.7 strokes a second from here on; 8 is the end of what "
        "is hard, and few players go beyond it | write tempo 120 or less",
    ),
    "a flam beside another stroke": (
        ("80", 'hi-hat: "x-x- x-x- x-x- x-x-"\nsnare: "---- f--- ---- ----"', ""),
        "warned 7: bar 1, beat 2, step 5: a flam on the snare takes two hands, and the left hand has to play it alone, "
        "since the right hand strikes something else | leave the other stroke out there, or let the graces be a rebound",
    ),
    "two sticks on a bell": (
        ("80", 'ride bell: "x--- ---- ---- ----"', 'sticking: {hands: "B--- ---- ---- ----"}'),
        "warned 6: bar 1, beat 1, step 1: both hands strike the ride bell at one moment, on one surface | let one hand "
        "play it, or another instrument",
    ),
    "a long way": (
        (
            "200",
            'crash: "x--- ---- ---- ----"\nlow floor tom: "-x-- ---- ---- ----"',
            'sticking: {hands: "RR-- ---- ---- ----"}',
        ),
        "warned 7: bar 1, beat 1, step 1: the right hand goes 146.7 dm a second between the crash and the low floor "
        "tom; 60 is a long way already | write tempo 81 or less",
    ),
}


def told(tempo: str, lanes: str, sticking: str) -> list[str]:
    text = HEAD.format(tempo=tempo) + "".join(f"      {lane}\n" for lane in lanes.split("\n")) + sticking + "\n"
    written = definition.parse_groove(text, Path("test.yaml"))
    groove, facts = read_facts(written, Style())
    body = playability(written, groove, facts.limbs)
    found = [("refused", each) for each in body.refusals] + [("warned", each) for each in body.warnings]
    return [f"{how} {p.position.line}: {p.message} | {p.hint}" for how, p in found if p.position]


@pytest.mark.parametrize("case", CASES)
def test_what_is_said_and_where(case: str) -> None:
    written, expected = CASES[case]
    assert told(*written) == [expected]


def test_a_beat_that_everybody_plays_meets_no_objection() -> None:
    lanes = 'hi-hat: "x-x- x-x- x-x- x-x-"\nsnare: "---- x--- ---- x---"\nbass drum: "x--- ---- x-x- ----"'
    assert told("120", lanes, "") == []
