"""Groove files and the ladders they must give, one case a file. `pytest --update` rewrites; read the diff.

Windows are written as steps, so that a case can be checked by counting: `bass drum 0 5 10` are strokes on the first,
sixth and eleventh step of the exercise.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from engraver.chapters import ChapterPlan, Exercise, Passage
from tests.chapters.test_plan import plan_of

CASES = sorted((Path(__file__).parents[1] / "golden" / "exercises").glob("*.yaml"))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_the_ladder_reads(path: Path, request: pytest.FixtureRequest) -> None:
    golden, text = path.with_suffix(".txt"), ladder_of(plan_of(path.read_text("utf-8")))
    if request.config.getoption("--update"):
        golden.write_text(text, "utf-8")
    assert text == golden.read_text("utf-8")


def test_every_golden_ladder_has_its_groove() -> None:
    assert sorted(path.stem for path in CASES[0].parent.glob("*.txt")) == [path.stem for path in CASES]


def ladder_of(plan: ChapterPlan) -> str:
    return "\n\n".join("\n".join(_exercise(n, e)) for n, e in enumerate(plan.exercises, start=1)) + "\n"


def _exercise(number: int, exercise: Exercise) -> Iterator[str]:
    assert exercise.stage and exercise.kind
    yield f"{number}  {exercise.stage.name.lower()}, {exercise.kind.value}, grade {exercise.grade}"
    yield f"   {exercise.title} {''.join(block.text for block in exercise.task)}"
    yield f"   {' '.join(map(str, exercise.tempi))}, {exercise.repeats} times"
    yield from _window(exercise.passage)
    if exercise.said:
        step = exercise.passage.groove.step
        yield f"   say {'  '.join(f'{word} {_steps(onset, step)}' for onset, word in exercise.said)}"
    if exercise.twin:
        yield "   and below it"
        yield from _window(exercise.twin)


def _window(passage: Passage) -> Iterator[str]:
    groove = passage.groove
    bars = " ".join(str(bar.meter) for bar in groove.bars)
    begins = _steps(passage.offset * passage.scale, groove.step)
    letters = " ".join((r.letter or "-") + ("(cut)" if r.cut else "") for r in passage.ribbons)
    yield f"   {bars}, from step {begins}{', cells ' if letters else ''}{letters}"
    for instrument in groove.instruments:
        onsets = [_steps(s.onset, groove.step) for s in groove.strokes if s.instrument == instrument]
        yield f"   {instrument} {' '.join(onsets)}"


def _steps(onset: Fraction, step: Fraction) -> str:
    return str(onset / step)
