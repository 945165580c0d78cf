"""Books of any size, as YAML like an author's: a number of grooves and a seed in, a folder with a book out.

The same number and seed give the same bytes. Grooves differ in meter, step, length, cell, layers, ornaments and words;
titles and texts are put together from plain words and mean nothing.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

_FIRST = [
    "Amber",
    "Birch",
    "Copper",
    "Dusty",
    "Early",
    "Flint",
    "Grey",
    "Hollow",
    "Iron",
    "Juniper",
    "Linen",
    "Marble",
    "Narrow",
    "Olive",
    "Paper",
    "Quiet",
]
_SECOND = [
    "Arch",
    "Bench",
    "Candle",
    "Ditch",
    "Engine",
    "Ferry",
    "Gate",
    "Harness",
    "Inlet",
    "Kettle",
    "Ladder",
    "Meadow",
    "Needle",
    "Orchard",
    "Pulley",
]
_WORDS = [
    "the",
    "cell",
    "turns",
    "under",
    "a",
    "bar",
    "that",
    "stays",
    "where",
    "it",
    "was",
    "and",
    "every",
    "hand",
    "knows",
    "its",
    "way",
    "back",
    "before",
    "the",
    "foot",
    "has",
    "counted",
    "what",
    "is",
    "left",
    "over",
    "at",
    "the",
    "end",
    "of",
    "a",
    "line",
    "while",
    "soft",
    "strokes",
    "fill",
    "the",
    "gaps",
    "of",
    "the",
    "figure",
]

LONG = "long-groove"


@dataclass(frozen=True, slots=True)
class Ground:
    """What a groove stands on: its meter, its step, how many steps a bar has and where its beats begin.

    ``fastest`` is the most beats a minute at which hands can play every step.
    """

    meter: str
    step: str
    steps: int
    beats: tuple[int, ...]
    cells: tuple[int, ...]
    fastest: int


GROUNDS = (
    Ground("4/4", "sixteenth", 16, (0, 4, 8, 12), (3, 5, 6, 7), 100),
    Ground("4/4", "sixteenth", 16, (0, 4, 8, 12), (5, 7, 9), 100),
    Ground("3/4", "sixteenth", 12, (0, 4, 8), (5, 7), 100),
    Ground("6/8", "sixteenth", 12, (0, 6), (4, 5), 66),
    Ground("7/8", "sixteenth", 14, (0, 4, 8), (3, 4, 5), 160),
    Ground("4/4", "eighth triplet", 12, (0, 3, 6, 9), (4, 5), 110),
    Ground("5/4", "eighth", 10, (0, 2, 4, 6, 8), (3,), 140),
)


def write_book(folder: Path, grooves: int, seed: int = 1, *, long: int = 0) -> Path:
    """Makes ``folder`` a book of so many grooves; what else lies in it stays.

    ``long``: the bars of one more groove, the last, that goes on without repeating a bar; 0 for none.
    """
    (folder / "grooves").mkdir(parents=True, exist_ok=True)
    made = {f"groove-{number:03d}": groove(number, seed) for number in range(1, grooves + 1)}
    if long:
        made[LONG] = long_groove(long, seed)
    for name, value in made.items():
        _write(folder / "grooves" / f"{name}.yaml", value)
    _write(folder / "book.yaml", _book(list(made)))
    (folder / "style.yaml").write_text("counting: first bar\n", "utf-8")
    return folder


def _write(path: Path, value: Mapping[str, Any]) -> None:
    path.write_text(yaml.safe_dump(dict(value), sort_keys=False, allow_unicode=True, width=110), "utf-8")


def _book(names: Sequence[str]) -> dict[str, Any]:
    words = {"title": "Many Small Wheels", "author": "A. N. Author", "rights": "All rights reserved.", "language": "en"}
    return words | {"date": "2026-01-01", "chapters": list(names)}


def groove(number: int, seed: int = 1) -> dict[str, Any]:
    """The groove of this number, as the value of its YAML file."""
    chance = random.Random(f"{seed}/{number}")
    ground = GROUNDS[number % len(GROUNDS)]
    bars = chance.choice((4, 4, 4, 8))
    title = f"{chance.choice(_FIRST)} {chance.choice(_SECOND)} {number}"
    head = {
        "title": title,
        "subtitle": _sentence(chance, 6),
        "meter": ground.meter,
        "tempo": chance.randrange(48, ground.fastest),
    }
    layers = [_cycle(ground, chance), *_backbeat(ground, chance, bars), *_fill(ground, chance, bars)]
    cards = [{"title": _sentence(chance, 3), "text": _sentence(chance, 12)} for _ in range(chance.randrange(3))]
    more = {"listen": cards} if cards else {}
    text = "\n\n".join(" ".join(_sentence(chance, 14) for _ in range(2)) for _ in range(chance.randrange(1, 3)))
    return head | {"step": ground.step, "bars": bars, "text": text, "layers": layers} | more


def long_groove(bars: int, seed: int = 1) -> dict[str, Any]:
    """Ghost notes are others in every bar, a second foot joins in the second half, and every quarter ends with a fill.

    ``bars`` from 8, a multiple of 4. No bar is another's twin, so that few exercises are shorter than the whole.
    """
    chance = random.Random(f"{seed}/long/{bars}")
    ground = GROUNDS[0]
    soft = {f"bar {bar}": _ghost_row(ground, chance) for bar in range(1, bars + 1)}
    figure = {"bass drum": {"cycle": "x--x-"}, "ride": {"cycle": "X-x--"}}
    layers = [
        {"name": "Cycle", "role": "figure", "strokes": figure},
        {"name": "Backbeat", "role": "meter", "strokes": {"snare": _backbeat_row(ground)}},
        {"name": "Ghost notes", "strokes": {"snare": soft}},
        {"name": "Second foot", "strokes": {"left bass drum": {f"bars {bars // 2 + 1}-{bars}": "--x---------x---"}}},
    ]
    for bar in range(bars // 4, bars + 1, bars // 4):
        layers.append(_fill_in(ground, chance, bar) | {"name": f"Fill in bar {bar}"})
    head = {"title": f"Long Wall of {bars} Bars", "meter": ground.meter, "tempo": 70, "step": ground.step, "bars": bars}
    return head | {"text": _sentence(chance, 14), "layers": layers, "ladder": {"most": 40}}


def _sentence(chance: random.Random, words: int) -> str:
    return " ".join(chance.choice(_WORDS) for _ in range(words)).capitalize() + "."


def _cycle(ground: Ground, chance: random.Random) -> dict[str, Any]:
    """A figure of a foot and one hand, that share no step but the first."""
    length = chance.choice(ground.cells)
    foot = ["x"] + [chance.choice("x--") for _ in range(length - 1)]
    hand = ["X"] + ["-" if mark == "x" else chance.choice("x-") for mark in foot[1:]]
    cymbal = chance.choice(("ride", "hi-hat", "crash"))
    strokes = {"bass drum": {"cycle": "".join(foot)}, cymbal: {"cycle": "".join(hand)}}
    return {"name": "Cycle", "role": "figure", "strokes": strokes}


def _backbeat(ground: Ground, chance: random.Random, bars: int) -> list[dict[str, Any]]:
    """A snare drum on some of the beats, and ghost notes between them in every other bar."""
    where = ",".join(str(bar) for bar in range(2, bars + 1, 2))
    return [
        {"name": "Backbeat", "role": "meter", "strokes": {"snare": _backbeat_row(ground)}},
        {"name": "Ghost notes", "strokes": {"snare": {f"bars {where}": _ghost_row(ground, chance)}}},
    ]


def _backbeat_row(ground: Ground) -> str:
    return "".join("X" if n in ground.beats[1::2] else "-" for n in range(ground.steps))


def _ghost_row(ground: Ground, chance: random.Random) -> str:
    """Three, none of them on the backbeat."""
    free = [n for n in range(ground.steps) if n not in ground.beats[1::2]]
    soft = chance.sample(free, 3)
    return "".join("g" if n in soft else "-" for n in range(ground.steps))


def _fill(ground: Ground, chance: random.Random, bars: int) -> list[dict[str, Any]]:
    """The last beat of the last bar, in two out of three grooves."""
    return [] if chance.random() < 1 / 3 else [_fill_in(ground, chance, bars)]


def _fill_in(ground: Ground, chance: random.Random, bar: int) -> dict[str, Any]:
    first = ground.beats[-1]
    length = ground.steps - first
    drum = chance.choice(("high tom", "floor tom", "snare"))
    pattern = chance.choice("fx") + "".join(chance.choice("xxX") for _ in range(length - 1))
    silence = ["snare", "ride", "hi-hat", "crash"]
    beats = str(len(ground.beats))
    strokes = {drum: pattern}
    return {"name": "Fill", "role": "fill", "bars": bar, "beats": beats, "silence": silence, "strokes": strokes}
