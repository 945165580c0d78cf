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


def test_the_hands_alone_are_a_half() -> None:
    """Fives go from a loop of two cells to four bars against the beat: the hands of these bars come before them."""
    plan = plan_of((LADDERS / "triplets.yaml").read_text("utf-8"))
    [half] = [each for each in plan.exercises if is_between(each)]
    assert half.title == "Cycle. The hands."
    assert {s.instrument.name for s in half.passage.groove.strokes} == {"ride"}


@pytest.mark.parametrize("name", PLANS)
def test_half_of_the_bars_begins_where_a_cell_does(name: str) -> None:
    plan = PLANS[name]
    for exercise in plan.exercises:
        if is_between(exercise) and exercise.title.endswith(("bar.", "bars.")):
            starts = [n * plan.facts.step for n in plan.facts.cells.places] if plan.facts.cells else []
            assert exercise.passage.offset in (plan.groove.pickup, *starts)


def test_half_of_a_phrase_under_two_bar_lines_is_called_what_it_is() -> None:
    [half] = [each for each in PLANS["side-gate"].exercises if is_between(each)]
    assert half.title == "The phrase as it is counted. Without the cross-stick." and half.twin is None
    assert [str(bar.meter) for bar in half.passage.groove.bars] == ["4/4"] * 3


def test_of_two_instruments_that_come_in_together_one_can_come_first() -> None:
    """Snare drum and left foot strike on 2 and 4: half of these strokes have as many limbs at once as all of them."""
    [half] = [each for each in PLANS["tin-roof"].exercises if is_between(each)]
    assert half.title == "Add: Backbeat. Without the foot hi-hat."
    assert [str(name) for name in half.passage.groove.instruments] == ["bass drum", "ride", "snare"]


# ------------------------------------------------------------------ what an exercise may hold, and what it says
def test_what_stays_when_a_layer_is_added_is_in_the_exercise() -> None:
    """The bass drum is known from the exercises of the feet, but no part of it: only the hand is named."""
    [added, *_] = of_kind(PLANS["porch-light"], ExerciseKind.LAYERS)
    assert added.task[0].text == "“Hand” stays as it was."
    assert {s.instrument.name for s in added.passage.groove.strokes} == {"hi-hat", "snare"}


GHOSTS = """title: Ghosts in the middle
tempo: 80
layers:
  - {name: Hand, role: time, strokes: {hi-hat: "x-x-x-x-x-x-x-x-"}}
  - {name: Snare, role: meter, strokes: {snare: "----X-g-----X-g-"}}
  - {name: Feet, role: figure, strokes: {bass drum: "x-----x---x-----"}}
"""


@pytest.mark.parametrize("kind", [ExerciseKind.ACCENTS, ExerciseKind.GHOSTS])
def test_loud_and_soft_strokes_are_split_among_layers_that_are_known(kind: ExerciseKind) -> None:
    """The bass drum comes in later than the ghost notes."""
    [exercise] = of_kind(plan_of(GHOSTS), kind)
    snare = [int(s.onset * 16) for s in exercise.passage.groove.strokes if s.instrument.name == "snare"]
    assert snare == ([4, 12] if kind is ExerciseKind.ACCENTS else [6, 14])
    assert {s.instrument.name for s in exercise.passage.groove.strokes} == {"hi-hat", "snare"}


def test_ghost_notes_in_a_layer_of_their_own_are_left_out_already() -> None:
    assert not of_kind(PLANS["counterweights"], ExerciseKind.ACCENTS)


def test_what_was_counted_to_is_not_played_alone_again() -> None:
    """Nothing keeps the time in Seven Lamps, so that bass drum and snare drum are counted to."""
    plan = PLANS["seven-lamps"]
    assert of_kind(plan, ExerciseKind.PULSE) and not of_kind(plan, ExerciseKind.ALONE)
    assert [each.title for each in of_kind(PLANS["side-gate"], ExerciseKind.ALONE)]


def test_a_hand_that_always_strikes_with_the_foot_has_nothing_to_say() -> None:
    [exercise] = of_kind(PLANS["five-doors"], ExerciseKind.HAND_AND_FEET)
    assert not exercise.said
    assert exercise.task[0].text == "They always strike together: listen for one sound."


def test_layers_come_before_cells_and_cells_before_the_restart() -> None:
    kinds = [each.kind for each in PLANS["tin-roof"].exercises]
    assert kinds.index(ExerciseKind.LAYERS) < kinds.index(ExerciseKind.CELLS) < kinds.index(ExerciseKind.RESTART)


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
        (84, 300, (44, 54, 64, 74, 84)),  # 9 a step would do; it is even or ends with 5
        (66, 300, (34, 42, 50, 58, 66)),
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
