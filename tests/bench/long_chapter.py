"""How a long chapter is engraved in parts, against the same in one text: `python tests/bench/long_chapter.py --help`.

A book of generated grooves and one that goes on for many bars is engraved from nothing both ways, turn about, and so is
the long chapter alone, and what one changed stroke leaves to be engraved of it; in one run. The floor is the processor
time inside the jobs divided by the cores. What more cores would take is computed from the seconds of the jobs.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from heapq import heapreplace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from engraver import definition
from engraver.engraving import Engine, Job, Workshop
from engraver.lilypond import ChapterSource
from engraver.manuscript.planning import plan_book
from tests.bench.engraving import CORES, INCLUDE, Bench, heading, row
from tests.bench.generated_books import LONG, write_book

Way = Callable[[ChapterSource], Sequence[str]]
MORE_CORES = (2, 4, 8)
WAYS: dict[str, Way] = {"in one text": lambda made: (made.text,), "in parts": lambda made: made.parts}


def planned(book: Path) -> list[ChapterSource]:
    return [chapter.source for chapter in plan_book(definition.read(book))]


def another_stroke(book: Path) -> None:
    """The last stroke of the last fill is accented, or no longer."""
    file = book / "grooves" / f"{LONG}.yaml"
    head, marks = file.read_text("utf-8").rsplit("tom: ", 1)
    file.write_text(f"{head}tom: {marks[:3]}{'x' if marks[3] == 'X' else 'X'}{marks[4:]}", "utf-8")


@dataclass(frozen=True, slots=True)
class Taken:
    """``wall``: seconds on the clock, the start of LilyPond included; ``jobs``: processor seconds of each."""

    wall: float
    jobs: tuple[float, ...]

    @property
    def floor(self) -> float:
        return sum(self.jobs) / CORES

    def on(self, cores: int) -> float:
        """Seconds until the last of so many cores is done, longest first, if a core does nothing else."""
        ends = [0.0] * cores
        for job in sorted(self.jobs, reverse=True):
            heapreplace(ends, ends[0] + job)
        return max(ends)


def engrave(bench: Bench, texts: Sequence[str]) -> Taken:
    begun = time.perf_counter()
    with Workshop(bench.engine, INCLUDE, bench.folder("store")) as shop:
        results = shop.engrave([Job(f"{number}", text) for number, text in enumerate(texts)])
    failures = [result.failure for result in results if result.failure]
    assert not failures, failures
    return Taken(time.perf_counter() - begun, tuple(result.seconds for result in results))


def compare(bench: Bench, title: str, sides: dict[str, Sequence[str]], turns: int) -> None:
    """The turn of each side that took the least time: other work on the machine only adds."""
    heading(title, "texts", "wall s", "CPU s", "wall / floor", *(f"on {cores} cores" for cores in MORE_CORES))
    taken = [[engrave(bench, texts) for texts in sides.values()] for _ in range(turns)]
    for number, (name, texts) in enumerate(sides.items()):
        best = min((turn[number] for turn in taken), key=lambda one: one.wall)
        jobs = min((turn[number] for turn in taken), key=lambda one: sum(one.jobs))
        row(name, float(len(texts)), best.wall, sum(jobs.jobs), best.wall / jobs.floor, *map(jobs.on, MORE_CORES))


def bench_all(bench: Bench, grooves: int, bars: int, turns: int) -> None:
    book = write_book(bench.folder("book"), grooves, long=bars)
    *short, long = planned(book)
    print(f"LilyPond {bench.engine.version}, {CORES} cores; load before it begins: {os.getloadavg()[0]:.1f}")
    others = [chapter.text for chapter in short]
    whole = {name: [*others, *way(long)] for name, way in WAYS.items()}
    compare(bench, f"{grooves} grooves and one of {bars} bars", whole, turns)
    compare(bench, "the long one alone", {name: way(long) for name, way in WAYS.items()}, turns)
    another_stroke(book)
    *_, changed = planned(book)
    left = {name: [text for text in way(changed) if text not in way(long)] for name, way in WAYS.items()}
    compare(bench, "one stroke of it changed", left, turns)


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--grooves", type=int, default=10, help="how many others the book has")
    arguments.add_argument("--bars", type=int, default=32, help="how long the long one is, a multiple of four")
    arguments.add_argument("--turns", type=int, default=5, help="how often each side is measured")
    given = arguments.parse_args()
    with tempfile.TemporaryDirectory(prefix="bench-") as place:
        bench_all(Bench(Engine.find(), Path(place)), given.grooves, given.bars, given.turns)


if __name__ == "__main__":
    main()
