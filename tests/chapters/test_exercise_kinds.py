"""What each kind of exercise makes, and which of them stay. Onsets and expected texts are counted by hand."""

from __future__ import annotations

import csv
from fractions import Fraction
from itertools import pairwise
from math import lcm
from pathlib import Path

import pytest

from engraver.chapters import ChapterPlan, Exercise
from engraver.chapters.halfway import MOST_LEFT, WIDEST
from engraver.chapters.ladder import BETWEEN, MOST
from engraver.chapters.tempos import climb
from engraver.definition import ExerciseKind
from tests.chapters.test_plan import PLANS, plan_of

RESULTANTS = Path(__file__).parents[1] / "sources" / "rhythm" / "resultants.csv"
LADDERS = Path(__file__).parents[1] / "golden" / "exercises"


def resultants() -> list[tuple[int, int, list[int]]]:
    """Two pulses, every a and every b units, and the intervals of both together. Source: in the table itself."""
    with RESULTANTS.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    found = [(*map(int, list(row.values())[:2]), [int(n) for n in row["resultant"].split("+")]) for row in rows]
    return [(a, b, both) for a, b, both in found if a < 7 and a % b]


def of_kind(plan: ChapterPlan, kind: ExerciseKind) -> list[Exercise]:
    return [exercise for exercise in plan.exercises if exercise.kind is kind]


@pytest.mark.parametrize(("hand", "foot", "intervals"), resultants())
def test_hand_and_foot_are_said_as_their_resultant(hand: int, foot: int, intervals: list[int]) -> None:
    """The bar is as long as both need to meet, twice over, so that it is no shorter than their pattern."""
    steps = lcm(hand, foot)
    plan = plan_of(
        f"title: Two pulses\nmeter: {steps}/8\ntempo: 60\nstep: eighth\nlayers:\n"
        f'  - {{name: Hand, role: time, strokes: {{ride: {{cycle: "x{"-" * (hand - 1)}"}}}}}}\n'
        f'  - {{name: Foot, role: figure, strokes: {{bass drum: {{cycle: "x{"-" * (foot - 1)}"}}}}}}\n'
        "bars: 1\n"
    )
    [exercise] = [each for each in plan.exercises if each.said]
    said = [onset * 8 for onset, _ in exercise.said]
    assert [b - a for a, b in pairwise([*said, steps])] == intervals
    words = {onset * 8: word for onset, word in exercise.said}
    expected = {n: "both" if not n % hand + n % foot else "hand" if not n % hand else "foot" for n in range(steps)}
    assert words == {n: word for n, word in expected.items() if not (n % hand and n % foot)}


# ------------------------------------------------------------------ which of them stay
@pytest.mark.parametrize("name", PLANS)
def test_a_chapter_has_room_for_a_dozen_and_three_between(name: str) -> None:
    assert len(PLANS[name].exercises) <= MOST + BETWEEN


def test_with_less_room_the_ranks_say_who_stays() -> None:
    """Four: the whole, two layers of three (of equal rank the earlier) and hand with feet, which ranks as they do."""
    text = (LADDERS / "fives.yaml").read_text("utf-8")
    kinds = [each.kind for each in plan_of(text + "ladder: {most: 4}\n").exercises if not is_between(each)]
    assert kinds == [ExerciseKind.HAND_AND_FEET, ExerciseKind.LAYERS, ExerciseKind.LAYERS, ExerciseKind.WHOLE]


def is_between(exercise: Exercise) -> bool:
    return "next exercise" in exercise.task[0].text


def test_a_kind_can_be_left_out() -> None:
    text = (LADDERS / "fives.yaml").read_text("utf-8")
    plan = plan_of(text + "ladder: {without: [cells, changes]}\n")
    assert not of_kind(plan, ExerciseKind.CELLS) and not of_kind(plan, ExerciseKind.CHANGES)
    assert of_kind(plan, ExerciseKind.RESTART)


# ------------------------------------------------------------------ halves of steps
@pytest.mark.parametrize("name", PLANS)
def test_a_half_lies_between_what_was_played_and_what_comes_next(name: str) -> None:
    exercises = PLANS[name].exercises
    whole = exercises[-1].difficulty.total
    for index, exercise in enumerate(exercises):
        if is_between(exercise):
            low = max(each.difficulty.total for each in exercises[:index])
            high = exercises[index + 1].difficulty.total
            assert high - low > WIDEST * whole
            assert low < exercise.difficulty.total < high
            assert max(exercise.difficulty.total - low, high - exercise.difficulty.total) <= MOST_LEFT * (high - low)


def test_half_of_the_bars_and_the_hands_alone_are_halves() -> None:
    """The frame of fives goes from a loop of one bar to four bars against the beat: its hands come before it."""
    plan = plan_of((LADDERS / "fives.yaml").read_text("utf-8"))
    [half] = [each for each in plan.exercises if is_between(each)]
    assert half.title == "Frame. The hands."
    assert {s.instrument.name for s in half.passage.groove.strokes} == {"crash"}


# ------------------------------------------------------------------ pickup
def test_the_last_exercise_has_the_pickup_once_and_repeats_what_comes_after_it() -> None:
    last = plan_of((LADDERS / "pickup.yaml").read_text("utf-8")).exercises[-1]
    groove = last.passage.groove
    assert groove.pickup == Fraction(2, 16) and last.passage.repeats == 1 and last.repeats == 4
    [repeat] = groove.repeats
    assert (repeat.first, repeat.last, repeat.times) == (1, 2, 4)
    assert [s.onset * 16 for s in groove.strokes if s.onset < groove.pickup] == [0, 1]


# ------------------------------------------------------------------ tempos
@pytest.mark.parametrize(
    ("goal", "easy", "row"),
    [
        (96, 300, (56, 66, 76, 86, 96)),  # from no more than three fifths, 57.6, in equal steps
        (100, 40, (40, 55, 70, 85, 100)),  # the limbs want it slower
        (100, 41, (40, 55, 70, 85, 100)),
        (60, 20, (20, 30, 40, 50, 60)),
        (3, 1, (1, 2, 3)),
        (1, 1, (1,)),
    ],
)
def test_tempos_climb_in_equal_steps_from_an_easy_one(goal: int, easy: int, row: tuple[int, ...]) -> None:
    assert climb(goal, easy) == row


def test_where_a_foot_is_fast_the_climb_begins_slower() -> None:
    """Sixteenths of one foot: at three fifths of 90, 54, it strikes 3.6 times a second; 3 are easy, at 45."""
    [*_, last] = plan_of('title: F\ntempo: 90\nlayers: [{name: A, strokes: {bass drum: {cycle: "x"}}}]\n').exercises
    assert last.tempi[0] <= 45
    assert last.tempi[-1] == 90


# ------------------------------------------------------------------ warnings about an author's own list
OWN = """exercises:
  - {title: All of it}
  - {title: Feet, instruments: [bass drum]}
  - {title: All again, bars: 1-4}
"""


def test_a_list_that_falls_or_jumps_is_kept_and_the_author_told_where() -> None:
    text = (LADDERS / "fives.yaml").read_text("utf-8")
    plan = plan_of(text + OWN)
    assert [exercise.title for exercise in plan.exercises] == ["All of it", "Feet", "All again"]
    first = text.count("\n") + 1
    told = [(problem.position.line - first, problem.message) for problem in plan.warnings if problem.position]
    assert told == [
        (2, '"Feet" is easier than the exercise before it'),
        (3, '"All again" is a wide step up from the exercise before it'),
    ]


def test_a_tempo_that_no_limb_can_follow_is_told() -> None:
    """One hand in sixteenths: 1208 strokes of two in a minute are 604 of one, and four of them a beat: tempo 151."""
    hands = 'layers: [{name: Hand, strokes: {ride: "xxxx xxxx xxxx xxxx"}}]\nsticking: {hands: "RRRR RRRR RRRR RRRR"}'
    plan = plan_of(f"title: One hand\ntempo: 100\n{hands}\nexercises: [{{tempo: {{from: 100, to: 152}}}}]\n")
    [told] = plan.warnings
    assert told.message == "at tempo 152 the right hand would be faster in this exercise than any player's"
    assert told.hint == "it can be played up to tempo 151"


def test_a_kind_that_the_groove_has_nothing_for_is_told() -> None:
    text = (LADDERS / "bars.yaml").read_text("utf-8")
    plan = plan_of(text + "exercises: [{kind: ghosts}, {kind: whole}]\n")
    assert [exercise.kind for exercise in plan.exercises] == [ExerciseKind.WHOLE]
    assert [p.message for p in plan.warnings] == ['this groove has nothing for exercises of the kind "ghosts"']


def test_what_the_author_says_of_a_kind_takes_the_place_of_what_the_program_says() -> None:
    text = (LADDERS / "bars.yaml").read_text("utf-8")
    own = "exercises: [{kind: whole, title: Everything, text: Twice., tempo: {from: 60, to: 70, by: 4}, repeats: 2}]\n"
    [exercise] = plan_of(text + own).exercises
    assert (exercise.title, exercise.task[0].text, exercise.tempi) == ("Everything", "Twice.", (60, 64, 68, 70))
    assert exercise.repeats == exercise.passage.repeats == 2
