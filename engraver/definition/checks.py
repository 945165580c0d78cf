"""What must hold of a groove beyond the form of each value: one small function a rule, listed in `CHECKS`.

Rules about the grid and the form stand here, the others beside it by subject.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from engraver.definition.bars import Numbers, no_bar
from engraver.definition.exercise_checks import (
    cells_fit_the_phrase,
    exercises_are_listed_or_made,
    exercises_lie_within_the_groove,
    exercises_name_what_there_is,
    kinds_choose_their_own_window,
    tempos_climb,
)
from engraver.definition.layer_checks import (
    layer_names_differ,
    layers_do_something,
    layers_lie_within_the_groove,
    no_stroke_meets_another,
    patterns_fit,
    rows_of_sticking_fit,
    something_is_struck,
    sticking_stands_at_strokes,
    tuplets_stay_within_their_bar,
)
from engraver.definition.meters import check_meters
from engraver.definition.pattern import MOST_STEPS
from engraver.definition.schema import GrooveDefinition, RepeatDefinition
from engraver.definition.subject import Check, Subject
from engraver.errors import Position, Problem, counted
from engraver.style import Style


def check_groove(groove: GrooveDefinition, style: Style, unsound: Iterable[str] = ()) -> Iterator[Problem]:
    """Every fault the rules find; a rule about keys that have faults already is passed over."""
    subject, broken = Subject(groove, style), set(unsound)
    for check in CHECKS:
        if broken.isdisjoint(check.needs):
            problems = tuple(check.rule(subject))
            yield from problems
            broken |= check.breaks if problems else set()


def every_bar_has_one_meter(subject: Subject) -> Iterable[Problem]:
    return check_meters(subject.groove.meter, subject.groove.bars)


def the_grid_is_of_a_sensible_size(subject: Subject) -> Iterator[Problem]:
    steps = subject.grid.span.length / subject.groove.step
    if steps > MOST_STEPS:
        hint = f"at most {MOST_STEPS} fit in one groove: make it two, or use a longer step"
        yield Problem(subject.groove.at("bars"), f"the groove has {int(steps)} steps", hint)


def phrase_is_not_longer_than_the_groove(subject: Subject) -> Iterator[Problem]:
    groove = subject.groove
    if groove.phrase and groove.phrase > groove.bars:
        message = f"a phrase of {groove.phrase} bars is longer than the groove"
        yield Problem(groove.at("phrase"), message, f"the groove has {counted(groove.bars, 'bar')}")


def pickup_is_shorter_than_a_bar(subject: Subject) -> Iterator[Problem]:
    first = subject.grid.bars[0]
    if subject.grid.pickup >= first.length:
        message = f"a pickup of {counted(subject.groove.pickup, 'step')} is not shorter than bar 1"
        yield Problem(subject.groove.at("pickup"), message, f"bar 1 has {first.length / subject.groove.step} steps")


def sections_lie_apart(subject: Subject) -> Iterator[Problem]:
    sections = subject.groove.sections
    return _lie_apart([(each.bars, each.at("bars"), f'section "{each.name}"') for each in sections], subject)


def repeats_lie_apart(subject: Subject) -> Iterator[Problem]:
    return _lie_apart([(each.bars, each.at("bars"), "repeat") for each in subject.groove.repeats], subject)


def _lie_apart(ranges: list[tuple[Numbers, Position, str]], subject: Subject) -> Iterator[Problem]:
    seen: dict[int, int] = {}
    for bars, place, noun in ranges:
        if bars.last > subject.groove.bars:
            yield no_bar(place, bars.last, subject.groove.bars)
            continue
        if twice := [number for number in bars.numbers if number in seen]:
            line = seen[twice[0]]
            yield Problem(
                place, f"bar {twice[0]} of this {noun} is in the one of line {line} too", "let them lie apart"
            )
        seen |= dict.fromkeys(bars.numbers, place.line)


def endings_end_their_repeat(subject: Subject) -> Iterator[Problem]:
    for repeat in subject.groove.repeats:
        if repeat.endings:
            yield from _check_endings(repeat)


def _check_endings(repeat: RepeatDefinition) -> Iterator[Problem]:
    place = repeat.at("endings")
    numbers = [number for ending in repeat.endings for number in ending.numbers]
    if numbers != list(range(numbers[0], repeat.bars.last + 1)) or numbers[0] < repeat.bars.first:
        hint = "write them in order, each next to the one before: [3, 4]"
        yield Problem(place, f"these endings do not fill the end of bars {repeat.bars}", hint)
    elif len(repeat.endings) > repeat.times:
        yield Problem(
            place, f"{len(repeat.endings)} endings cannot be played in {repeat.times} times", "at most one each time"
        )


_EXTENT = "where layers lie"  # no key of its own
_GRID = frozenset({"meter", "bars", "step"})
_LAID = _GRID | {"phrase", "pickup", "layers"}

CHECKS: tuple[Check, ...] = (
    Check(every_bar_has_one_meter, frozenset({"meter", "bars"}), frozenset({"meter"})),
    Check(the_grid_is_of_a_sensible_size, _GRID | {"pickup"}, frozenset({"bars"})),
    Check(phrase_is_not_longer_than_the_groove, frozenset({"phrase", "bars"}), frozenset({"phrase"})),
    Check(pickup_is_shorter_than_a_bar, _GRID | {"pickup"}, frozenset({"pickup"})),
    Check(layer_names_differ, frozenset()),
    Check(layers_lie_within_the_groove, frozenset({"meter", "bars"}), frozenset({"layers", _EXTENT})),
    Check(layers_do_something, frozenset({"layers"})),
    Check(patterns_fit, _GRID | {"phrase", "pickup", _EXTENT}, frozenset({"layers"})),
    Check(tuplets_stay_within_their_bar, _LAID),
    Check(no_stroke_meets_another, _LAID),
    Check(something_is_struck, _LAID),
    Check(rows_of_sticking_fit, _GRID | {"phrase", "pickup", "sticking"}, frozenset({"sticking"})),
    Check(sticking_stands_at_strokes, _LAID | {"sticking"}),
    Check(sections_lie_apart, frozenset({"bars"})),
    Check(repeats_lie_apart, frozenset({"bars"}), frozenset({"repeats"})),
    Check(endings_end_their_repeat, frozenset({"repeats"})),
    Check(cells_fit_the_phrase, _GRID | {"phrase"}),
    Check(exercises_name_what_there_is, frozenset({"layers"})),
    Check(exercises_lie_within_the_groove, frozenset({"meter", "bars"})),
    Check(exercises_are_listed_or_made, frozenset({"exercises", "ladder"})),
    Check(kinds_choose_their_own_window, frozenset({"exercises"})),
    Check(tempos_climb, frozenset()),
)
