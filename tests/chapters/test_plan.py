"""The plan of a groove that was worked out by hand: twelve cells of five sixteenths, four steps left over.

Steps count from 0. Ghost notes fall on steps 19, 22, 51 and 54: in the fourth cell on its last step, in the fifth on
its third, in the eleventh on its second and last. So the letters are A A A B C A A A A A D A.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from engraver import analysis, chapters, definition
from engraver.chapters import ChapterPlan, Exercise, Passage
from engraver.definition import ExerciseKind
from engraver.rhythm import Groove, Stroke
from engraver.style import standard_kit, words
from tests.conftest import BOOK
from tests.definition.test_slate_stairs import SLATE_STAIRS

LADDER = SLATE_STAIRS[: SLATE_STAIRS.index("exercises:")]
LETTERS = ["A", "A", "A", "B", "C", "A", "A", "A", "A", "A", "D", "A"]


def plan_of(text: str) -> ChapterPlan:
    groove = definition.parse_groove(text)
    made, stated = definition.to_groove(groove), groove.cells
    cells = analysis.StatedCells(stated.length, stated.start - 1) if stated else None
    return chapters.plan(
        groove, made, analysis.analyse(made, cells, places=standard_kit().places()), words("en"), standard_kit()
    )


@pytest.fixture(scope="module")
def plan() -> ChapterPlan:
    return plan_of(LADDER)


# ------------------------------------------------------------------ regrouped view
def test_three_cells_make_a_bar_and_what_is_left_over_the_last(plan: ChapterPlan) -> None:
    assert plan.regrouped is not None
    # three fives are fifteen, nearest to the bar's sixteen; 4 x 15 + 4 = 64
    assert [str(bar.meter) for bar in plan.regrouped.groove.bars] == ["15/16"] * 4 + ["1/4"]


def test_regrouping_moves_no_stroke(plan: ChapterPlan) -> None:
    assert plan.regrouped is not None
    assert plan.regrouped.groove.strokes == plan.groove.strokes
    assert plan.regrouped.groove.length == plan.groove.length == 4


def test_each_cell_has_its_letter_and_the_remainder_is_cut_off(plan: ChapterPlan) -> None:
    assert plan.regrouped is not None
    *cells, rest = plan.regrouped.ribbons
    assert [ribbon.letter for ribbon in cells] == LETTERS
    assert {(ribbon.length, ribbon.cut) for ribbon in cells} == {(Fraction(5, 16), False)}
    assert (rest.letter, rest.length, rest.cut) == ("A", Fraction(4, 16), True)


def test_triplets_are_respelled_as_plain_notes() -> None:
    """Five eighth triplets become five eighths: all times are one and a half times as long."""
    plan = plan_of(
        "title: Sand\ntempo: 80\nstep: eighth triplet\nbars: 2\ncells: {length: 5}\n"
        'layers: [{name: Fives, strokes: {ride: {cycle: "x-x--"}}}]\n'
    )
    assert plan.regrouped is not None and plan.regrouped.scale == Fraction(3, 2)
    # 24 steps: four fives, two to a bar of ten, four left over
    assert [str(bar.meter) for bar in plan.regrouped.groove.bars] == ["10/8", "10/8", "2/4"]
    assert [s.onset * 8 for s in plan.regrouped.groove.strokes] == [0, 2, 5, 7, 10, 12, 15, 17, 20, 22]


def test_the_mirror_of_the_letters_has_its_moment_in_the_regrouped_view() -> None:
    """Threes A B B A and one step left over: the axis is after the second cell."""
    plan = plan_of(
        "title: Sand\ntempo: 80\nstep: sixteenth\nmeter: 13/16\nbars: 1\ncells: {length: 3}\n"
        'layers: [{name: Threes, strokes: {ride: "x--x--x--x---", snare: "----x--x-----"}}]\n'
    )
    assert plan.regrouped is not None
    assert plan.facts.cells is not None and "".join(plan.facts.cells.full) == "ABBA"
    assert plan.regrouped.mirrors == (Fraction(6, 16),)


def test_letters_that_are_no_mirror_have_no_axis(plan: ChapterPlan) -> None:
    assert plan.facts.full_sequence is not None and not plan.facts.full_sequence.palindrome
    assert plan.regrouped is not None and plan.regrouped.mirrors == ()


def test_a_cell_that_is_the_bar_is_not_regrouped_but_lettered_over_the_groove() -> None:
    plan = plan_of(
        "title: Bars\ntempo: 80\nstep: eighth\nbars: 3\ncells: {length: 8}\n"
        'layers: [{name: A, strokes: {bass drum: {bars 1-3: "x--x----", }, snare: {bar 2: "--g-----"}}}]\n'
    )
    assert plan.regrouped is None
    assert [ribbon.letter for ribbon in plan.whole.ribbons] == ["A", "B", "A"]
    # read from both ends they are the same: halfway through the second of three bars
    assert plan.whole.mirrors == (Fraction(3, 2),)


# ------------------------------------------------------------------ cell key
def test_each_cell_has_one_card_where_it_first_comes(plan: ChapterPlan) -> None:
    found = [(card.cell.letter, card.cell.count, card.passage.offset * 16) for card in plan.cards]
    assert found == [("A", 9, 0), ("B", 1, 15), ("C", 1, 20), ("D", 1, 50)]
    assert {str(bar.meter) for card in plan.cards for bar in card.passage.groove.bars} == {"5/16"}


def test_a_card_shows_the_figure_and_not_the_backbeat(plan: ChapterPlan) -> None:
    """The backbeat falls on step 8 of each bar, so on 24 in the fifth cell: step 4 of it is silent on its card."""
    card = next(card for card in plan.cards if card.cell.letter == "C")
    snares = [s.onset * 16 for s in card.passage.groove.strokes if s.instrument.name == "snare"]
    assert snares == [2]


# ------------------------------------------------------------------ exercises
def test_the_ladder_goes_from_the_first_layer_to_the_whole(plan: ChapterPlan) -> None:
    first = plan.exercises[0].passage.groove
    assert {s.instrument.name for s in first.strokes} == {"bass drum", "crash"}  # those of the layer "Frame"
    whole = plan.exercises[-1].passage.groove
    assert (whole.strokes, whole.bars) == (plan.groove.strokes, plan.groove.bars)


def test_into_the_restart_is_the_last_bar_and_the_first(plan: ChapterPlan) -> None:
    """Bar 4 begins on step 48, within the tenth cell; the fill is left out, since it hides where the cells are."""
    exercise = next(e for e in plan.exercises if "restart" in e.title)
    row = [(ribbon.letter, ribbon.length * 16, ribbon.cut) for ribbon in exercise.passage.ribbons]
    assert row == [
        ("A", 2, True),
        ("D", 5, False),
        ("A", 5, False),
        ("A", 4, True),
        ("A", 5, False),
        ("A", 5, False),
        ("A", 5, False),
        ("B", 1, True),
    ]
    bass = [s.onset * 16 for s in exercise.passage.groove.strokes if s.instrument.name == "bass drum"]
    # in bar 4 cells begin on 50, 55 and 60, in bar 1 on 0, 5, 10 and 15; the second stroke of the last one is bar 2's
    assert bass == [2, 3, 7, 8, 12, 13, 16, 17, 21, 22, 26, 27, 31]


def test_an_author_s_own_list_is_kept_as_written() -> None:
    [exercise] = plan_of(SLATE_STAIRS).exercises
    assert exercise.tempi == (60, 66, 72, 78, 84, 90, 96)
    frame = plan_of(SLATE_STAIRS).groove.keep(["Frame"])
    assert exercise.passage.groove.strokes == frame.strokes


def test_an_own_exercise_may_be_some_beats_of_a_bar() -> None:
    own = "exercises:\n  - {instruments: [crash], bars: 2, beats: 2-3, repeats: 5}\n"
    [exercise] = plan_of(LADDER + own).exercises
    # beats 2 and 3 of bar 2 are steps 20 to 27; crashes on 20 and 25
    assert (exercise.passage.offset * 16, exercise.passage.groove.length * 16) == (20, 8)
    assert [s.onset * 16 for s in exercise.passage.groove.strokes] == [0, 5]
    assert exercise.passage.repeats == 5


# ------------------------------------------------------------------ every exercise of the demo book
PLANS = {
    groove.name: plan_of((BOOK / "grooves" / f"{groove.name}.yaml").read_text("utf-8"))
    for groove in (chapter.groove for chapter in definition.read(BOOK).chapters)
}
EXERCISES = [(name, n) for name, made in PLANS.items() for n in range(len(made.exercises))]


@pytest.mark.parametrize(("name", "number"), EXERCISES)
def test_an_exercise_is_a_window_of_its_groove(name: str, number: int) -> None:
    plan = PLANS[name]
    exercise = plan.exercises[number]
    written = {(s.onset, *sound(s)) for layer in played(plan).layers for s in layer.strokes}
    strokes = exercise.passage.groove.strokes
    assert strokes
    assert any(
        {(home(s.onset / exercise.passage.scale, start, exercise, plan), *sound(s)) for s in strokes} <= written
        for start in starts(exercise, plan)
    )


def sound(stroke: Stroke) -> tuple[object, ...]:
    return stroke.instrument, stroke.touch, stroke.ornament


def starts(exercise: Exercise, plan: ChapterPlan) -> list[Fraction]:
    """The times at which that is played which is written where the exercise begins: several, where it is repeated."""
    offset = exercise.passage.offset
    index = plan.groove.bar_at(offset)
    turns = [turn for turn, bar in enumerate(plan.groove.played_bars) if bar == index]
    return [played(plan).bars[turn].start + offset - plan.groove.bars[index].start for turn in turns]


def home(onset: Fraction, offset: Fraction, exercise: Exercise, plan: ChapterPlan) -> Fraction:
    """Where a time of an exercise lies in the groove: a loop comes round, and after the end the phrase begins again."""
    cells = plan.facts.cells
    if cells and exercise.kind in (ExerciseKind.CELLS, ExerciseKind.CHANGES):
        onset %= len(exercise.letters) * cells.length * plan.facts.step
    begin = plan.groove.pickup
    return onset + offset if offset < begin else (onset + offset - begin) % (played(plan).length - begin) + begin


def played(plan: ChapterPlan) -> Groove:
    """Repeats written out, as a student plays them."""
    return replace(plan.groove.performed(), pickup=plan.groove.pickup) if plan.groove.repeats else plan.groove


@pytest.mark.parametrize("name", PLANS)
def test_the_last_exercise_is_the_whole_groove(name: str) -> None:
    """Pickup and all."""
    whole, last = played(PLANS[name]), PLANS[name].exercises[-1].passage.groove
    assert (last.strokes, last.bars, last.pickup) == (whole.strokes, whole.bars, whole.pickup)


@pytest.mark.parametrize("name", PLANS)
def test_no_view_loses_or_adds_time(name: str) -> None:
    plan = PLANS[name]
    for passage in plan.passages:
        assert ends_meet(passage.groove)
        assert not passage.ribbons or sum(r.length for r in passage.ribbons) == passage.groove.length, passage.name
    if plan.regrouped:
        assert undone(plan.regrouped) == [(s.onset, s.instrument) for s in plan.groove.strokes]


def ends_meet(groove: Groove) -> bool:
    """Each bar begins where the one before ends, and every stroke lies in one."""
    edges = [Fraction(0), *(bar.span.end for bar in groove.bars)]
    return [bar.start for bar in groove.bars] == edges[:-1] and all(s.onset < edges[-1] for s in groove.strokes)


def undone(passage: Passage) -> list[tuple[Fraction, object]]:
    return [(s.onset / passage.scale, s.instrument) for s in passage.groove.strokes]


@pytest.mark.parametrize("name", PLANS)
def test_tempos_climb_to_the_tempo_of_the_groove(name: str) -> None:
    plan = PLANS[name]
    for exercise in plan.exercises:
        assert list(exercise.tempi) == sorted(set(exercise.tempi)) and exercise.tempi[0] > 0
        if not plan.definition.exercises:
            assert exercise.tempi[-1] == plan.groove.tempo.bpm


# ------------------------------------------------------------------ questions
def test_how_many_cells_twice_the_phrase_holds(plan: ChapterPlan) -> None:
    """Eight bars are 128 sixteenths; 25 fives are 125, and 3 are left over."""
    asked = plan.questions[0]
    assert "8 bars" in asked.text[0].text
    answer = asked.answer[0].text
    assert answer == "8 bars are 128 steps. 25 whole cells of five take 125 of them. Three steps are left over."


def test_where_nothing_is_left_over_nothing_is_asked() -> None:
    plan = plan_of(
        "title: Threes\ntempo: 80\nstep: eighth\nbars: 3\ncells: {length: 3}\n"
        'layers: [{name: A, strokes: {bass drum: {cycle: "x--"}}}]\n'
    )
    assert [text for question in plan.questions for text in question.text if "bars long" in text.text] == []


def test_the_cells_that_would_complete_a_mirror() -> None:
    """A A B B B A is no mirror; with one more A it is, about its fourth letter."""
    plan = plan_of(
        "title: Mirror\nmeter: 12/8\ntempo: 80\nstep: eighth\nbars: 1\ncells: {length: 2}\n"
        'layers: [{name: A, strokes: {bass drum: "x-x-x-x-x-x-", snare: "-----x-x-x--"}}]\n'
    )
    cells, sequence = plan.facts.cells, plan.facts.full_sequence
    assert cells is not None and sequence is not None
    assert cells.full == ("A", "A", "B", "B", "B", "A")  # snares on the second step of cells 3, 4 and 5
    [asked] = [question for question in plan.questions if question.row]
    assert (asked.row, asked.centre) == (("A", "A", "B", "B", "B", "A", "A"), 3)
    assert asked.answer[0].text.startswith("A")


def test_the_author_s_questions_come_first() -> None:
    own = "questions:\n  - {question: Which foot?, answer: The right one.}\n"
    plan = plan_of(LADDER + own)
    assert plan.questions[0].text[0].text == "Which foot?"
    assert len(plan.questions) == 2
