"""What holds of the ladder of every groove. A stroke of an exercise is looked up in the groove on its own here, by
the window's place, so that the ladder is not its own witness.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import groupby, pairwise

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engraver import analysis, definition
from engraver.analysis import Analysis, Assignment
from engraver.chapters.exercises import KINDS
from engraver.chapters.ladder import BETWEEN, MOST, ladder
from engraver.chapters.plan import Exercise, Passage
from engraver.chapters.stages import Stage
from engraver.definition import ExerciseKind, GrooveDefinition
from engraver.rhythm import ZERO, Groove, Limb, Limbs, Meter, Stroke, parse_value
from engraver.style import standard_kit, words
from tests.properties.strategies import written_grooves

KIT, SAY = standard_kit(), words("en")
# How many grooves each test draws: `LADDERS=300 pytest tests/properties/test_ladder.py` draws 2,100 in all, in minutes.
quick = settings(
    max_examples=int(os.environ.get("LADDERS", "40")), deadline=None, suppress_health_check=[HealthCheck.too_slow]
)


@st.composite
def sources(draw: st.DrawFn) -> str:
    """A groove, perhaps with a fill over the end of it, a pickup, repeats, or a stated cell."""
    source = draw(written_grooves()).source
    head = dict(line.split(": ", 1) for line in source.split("\nlayers:")[0].splitlines())
    steps = int(Meter.parse(head["meter"]).length / parse_value(head["step"]))
    if draw(st.booleans()):
        fill = f'      low tom: "{"x" * steps}"\n'
        source += f"  - name: Fill\n    role: fill\n    bars: {head['bars']}\n    silence: all\n    strokes:\n{fill}"
    if steps > 2 and draw(st.booleans()):
        source += '  - name: Lead in\n    strokes:\n      mid tom: {pickup: "xx"}\n'
        source = source.replace("\nlayers:", "\npickup: 2\nlayers:")
    if draw(st.booleans()):
        source += f"cells: {{length: {draw(st.integers(1, steps))}}}\n"
    if head["bars"] != "1" and draw(st.booleans()):
        source += f"repeats: [{{bars: 1-{head['bars']}, times: 2, endings: [{head['bars']}]}}]\n"
    return source


def read(source: str) -> tuple[GrooveDefinition, Groove, Analysis]:
    written = definition.parse_groove(source)
    groove, stated = definition.to_groove(written), written.cells
    cells = analysis.StatedCells(stated.length, stated.start - 1) if stated else None
    return written, groove, analysis.analyse(groove, cells, places=KIT.places())


def made(source: str) -> tuple[Groove, Analysis, tuple[Exercise, ...]]:
    written, groove, facts = read(source)
    return groove, facts, ladder(written, groove, facts, KIT, SAY).exercises


def sound(stroke: Stroke) -> tuple[object, ...]:
    return stroke.instrument, stroke.touch, stroke.ornament


def performed(groove: Groove) -> Groove:
    return replace(groove.performed(), pickup=groove.pickup) if groove.repeats else groove


# ------------------------------------------------------------------ the ladder as a whole
@quick
@given(sources())
def test_the_ladder_ends_with_the_whole_groove(source: str) -> None:
    groove, _, exercises = made(source)
    last = exercises[-1]
    assert (last.stage, last.kind) == (Stage.WHOLE, ExerciseKind.WHOLE)
    assert last.passage.groove.strokes == performed(groove).strokes
    assert last.passage.groove.bars == performed(groove).bars
    assert len(exercises) <= MOST + BETWEEN


@quick
@given(sources())
def test_no_two_exercises_are_the_same_and_none_is_silent(source: str) -> None:
    _, _, exercises = made(source)
    held = [(e.passage.groove.strokes, e.passage.groove.bars, e.passage.scale, e.twin is None) for e in exercises]
    assert all(strokes for strokes, *_ in held)
    assert all(one != other for index, one in enumerate(held) for other in held[:index])


@quick
@given(sources())
def test_stages_follow_each_other_and_within_one_no_exercise_is_easier_than_the_one_before(source: str) -> None:
    _, _, exercises = made(source)
    stages = [exercise.stage for exercise in exercises]
    assert stages == sorted(stages, key=lambda stage: stage or 0)
    for _, inside in groupby(exercises, key=lambda exercise: exercise.stage):
        totals = [exercise.difficulty.total for exercise in inside]
        assert totals == sorted(totals)


# ------------------------------------------------------------------ each exercise
@quick
@given(sources())
def test_every_stroke_of_an_exercise_is_a_stroke_of_the_groove(source: str) -> None:
    groove, facts, exercises = made(source)
    for exercise in exercises:
        assert any(fits(exercise, exercise.passage, start, groove, facts) for start in starts(exercise.passage, groove))
        if exercise.twin:
            assert exercise.twin.groove.length * exercise.passage.scale == exercise.passage.groove.length
            below = [(s.onset * exercise.passage.scale, *sound(s)) for s in exercise.twin.groove.strokes]
            assert below == [(s.onset, *sound(s)) for s in exercise.passage.groove.strokes]


def fits(exercise: Exercise, passage: Passage, start: Fraction, groove: Groove, facts: Analysis) -> bool:
    """Before or after what a layer silences; a loop of cells comes round, and after the end the groove begins again."""
    whole = performed(groove)
    written = {(s.onset, *sound(s)) for layer in whole.layers for s in layer.strokes}
    begin = whole.pickup if start >= whole.pickup else ZERO  # after the end comes bar 1
    turn = whole.length
    if facts.cells and exercise.kind in (ExerciseKind.CELLS, ExerciseKind.CHANGES):
        turn = len(exercise.letters) * facts.cells.length * facts.step
    times = ((s, s.onset / passage.scale % turn + start) for s in passage.groove.strokes)
    home = ((stroke, (onset - begin) % (whole.length - begin) + begin) for stroke, onset in times)
    return all((onset, *sound(stroke)) in written for stroke, onset in home)


def starts(passage: Passage, groove: Groove) -> Iterator[Fraction]:
    """When that is played which is written where the passage begins."""
    index, whole = groove.bar_at(passage.offset), performed(groove)
    for turn, bar in enumerate(groove.played_bars):
        if bar == index:
            yield whole.bars[turn].start + passage.offset - groove.bars[index].start


@quick
@given(sources())
def test_tempos_rise_to_a_goal_no_faster_than_the_groove_and_begin_where_every_limb_is_at_ease(source: str) -> None:
    groove, facts, exercises = made(source)
    for exercise in exercises:
        tempi, passage = exercise.tempi, exercise.passage
        assert list(tempi) == sorted(set(tempi)) and tempi[0] >= 1 and tempi[-1] <= groove.tempo.bpm
        limbs = analysis.carry(facts.limbs, passage.groove, passage.offset, passage.scale)
        if tempi[0] > 1:
            assert all(is_at_ease(limbs, limb, tempi[0]) for limb in Limb)


def is_at_ease(limbs: Assignment, limb: Limb, bpm: int) -> bool:
    """Four strokes a second for a hand, three for a foot, over four strokes; twice that from one to the next."""
    onsets = sorted({stroke.onset for stroke in limbs.of(limb)})
    second = limbs.tempo.beat * bpm / 60
    ring = [*onsets, *(onset + limbs.length for onset in onsets)]
    most = 4 if limb.limbs is Limbs.HANDS else 3
    close = all(second / (b - a) <= 2 * most for a, b in pairwise(ring))
    return close and all(3 * second / (b - a) <= most for a, b in zip(ring, ring[3:], strict=False) if len(onsets) > 3)


# ------------------------------------------------------------------ an author's own list
@quick
@given(sources(), st.data())
def test_the_author_s_list_is_kept_as_written(source: str, data: st.DataObject) -> None:
    names = [layer.name for layer in definition.parse_groove(source).layers]
    bars = definition.parse_groove(source).bars
    chosen = data.draw(st.lists(st.tuples(st.sampled_from(names), st.integers(1, bars)), min_size=1, max_size=5))
    lines = [f"  - {{title: No {n}, layers: [{name}], bars: {bar}}}\n" for n, (name, bar) in enumerate(chosen)]
    groove, _, exercises = made(source + "exercises:\n" + "".join(lines))
    assert [exercise.title for exercise in exercises] == [f"No {n}" for n in range(len(chosen))]
    for exercise, (name, bar) in zip(exercises, chosen, strict=True):
        window = groove.keep([name]).slice(groove.bars[bar - (0 if groove.pickup else 1)].span)
        assert exercise.passage.groove.strokes == window.strokes
        assert exercise.stage is None


@quick
@given(sources(), st.lists(st.sampled_from(ExerciseKind), min_size=1, max_size=4, unique=True))
def test_a_list_of_kinds_has_them_in_its_order(source: str, kinds: list[ExerciseKind]) -> None:
    listed = "".join(f"  - kind: {kind.value}\n" for kind in kinds)
    written, groove, facts = read(source + "exercises:\n" + listed)
    found = ladder(written, groove, facts, KIT, SAY)
    order = [kind for kind, _ in groupby(exercise.kind for exercise in found.exercises)]
    missing = [problem for problem in found.warnings if "nothing for exercises" in problem.message]
    assert order == [kind for kind in kinds if kind in order]
    assert len(order) + len(missing) == len(kinds)


def test_every_kind_has_its_name() -> None:
    assert [kind.name for kind in KINDS] == list(ExerciseKind)
    assert all(one.stage <= other.stage for one, other in pairwise(KINDS))
