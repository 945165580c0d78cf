"""Grooves made from a known cell, phrase and order of letters, and grooves without any; every seed gives the same.

No published program finds cells, so what was put in is the only honest answer to compare with.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass

from engraver.analysis.pulse import period
from engraver.rhythm import Groove
from tests.analysis.patterns import groove, layer

BAR = 16
CROSSING = (3, 5, 6, 7, 9, 10, 11)
FORMS = ("AAAA", "AAAB", "AABA", "ABAB", "ABAC", "AABB", "AABC")
Cell = tuple[str, str]  # bass drum, snare


@dataclass(frozen=True)
class Constructed:
    """``skeleton`` and ``full``: the letters of one phrase, or of all where the phrases differ."""

    groove: Groove
    length: int
    phrase: int
    skeleton: str
    full: str


def crossing(number: int, seed: int) -> Iterator[Constructed]:
    """A cell that crosses the bar, starting over after two or four bars, ghosts in some of the cells."""
    dice = random.Random(f"crossing {seed}")
    return (_crossing(dice) for _ in range(number))


def _crossing(dice: random.Random) -> Constructed:
    length, bars = dice.choice(CROSSING), dice.choice((2, 4))
    phrase = bars * BAR
    cell = _cell(dice, length)
    number = phrase // length
    rests = [step for step in range(length) if cell[1][step] == "-"]
    ghost = dice.choice(rests)
    # Every second cell, a run at the end, or none: the ghosts a teacher adds are no noise.
    kind = dice.choice(("second", "late", "none"))
    ghosted = {"second": range(1, number, 2), "late": range(number // 2, number), "none": range(0)}[kind]
    row = ["-"] * phrase
    for index in ghosted:
        row[index * length + ghost] = "g"
    times = dice.choice((1, 2)) if bars == 4 else 2
    lines = {name: _cut(line, phrase) * times for name, line in zip(("bass drum", "snare"), cell, strict=True)}
    made = groove(
        [_time(dice, bars * times), layer("Figure", lines), layer("Ghosts", {"snare": "".join(row) * times})],
        bars=bars * times,
    )
    full = "".join("B" if index in ghosted else "A" for index in range(number))
    return Constructed(made, length, phrase, "A" * number, full)


def forms(number: int, seed: int) -> Iterator[Constructed]:
    """Four bars in a form of two or three different bars, ghosts in one bar."""
    dice = random.Random(f"forms {seed}")
    return (_form(dice) for _ in range(number))


def _form(dice: random.Random) -> Constructed:
    form = dice.choice(FORMS)
    bars = dict(zip("ABC", _different_bars(dice), strict=True))
    lines = {name: "".join(bars[letter][row] for letter in form) for row, name in enumerate(("bass drum", "snare"))}
    ghosted = dice.randrange(4)
    ghosts = ["-"] * 4 * BAR
    for step in dice.sample([s for s in range(BAR) if bars[form[ghosted]][1][s] == "-"], 2):
        ghosts[ghosted * BAR + step] = "g"
    layers = [_time(dice, 4), layer("Figure", lines), layer("Ghosts", {"snare": "".join(ghosts)})]
    alone = form.count(form[ghosted]) == 1
    following = "ABCD"[len(set(form))]
    full = form if alone else form[:ghosted] + following + form[ghosted + 1 :]
    return Constructed(groove(layers, bars=4), BAR, 4 * BAR, form, full)


def structureless(number: int, seed: int) -> Iterator[Groove]:
    """Four bars in which every step is struck or not by the throw of a coin."""
    dice = random.Random(f"structureless {seed}")
    for _ in range(number):
        density = dice.uniform(0.2, 0.5)
        lines = {name: _random(dice, 4 * BAR, density) for name in ("bass drum", "snare")}
        yield groove([_time(dice, 4), layer("Figure", lines)], bars=4)


def _time(dice: random.Random, bars: int):
    return layer("Time", {"hi-hat": dice.choice(("x-x-", "x---")) * 4 * bars})


def _random(dice: random.Random, steps: int, density: float) -> str:
    return "".join("x" if dice.random() < density else "-" for _ in range(steps))


def _cut(cell: str, steps: int) -> str:
    return (cell * (steps // len(cell) + 1))[:steps]


def _cell(dice: random.Random, length: int) -> Cell:
    """Not itself made of shorter cells; neither drum a plain pulse with the beat; room for a ghost."""
    while True:
        cell = _random(dice, length, 0.45), _random(dice, length, 0.3)
        columns = list(zip(*cell, strict=True)) * 2
        steady = any(period(line * 4) in (1, 2, 4) for line in cell)
        if period(columns) == length and not steady and "-" in cell[1]:
            return cell


def _different_bars(dice: random.Random) -> list[Cell]:
    """Three bars, none of two equal halves. B is another bar or A with strokes changed, C is A with strokes changed."""
    while True:
        first = _bar(dice)
        second = _changed(dice, first) if dice.random() < 0.5 else _bar(dice)
        third = _changed(dice, first)
        if len({first, second, third}) == 3 and all(cell[0][:8] != cell[0][8:] for cell in (first, second, third)):
            return [first, second, third]


def _bar(dice: random.Random) -> Cell:
    return _random(dice, BAR, 0.35), dice.choice(("----x-------x---", "----x--x----x---", "----x-------x-x-"))


def _changed(dice: random.Random, cell: Cell) -> Cell:
    line = list(cell[0])
    for step in dice.sample(range(BAR), dice.choice((1, 2, 3))):
        line[step] = "x" if line[step] == "-" else "-"
    return "".join(line), cell[1]
