"""How often constructed grooves are read right, and how long it takes: `python tests/bench/analysis.py [number]`."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from engraver.analysis import Analysis, analyse
from engraver.rhythm import Groove
from tests.analysis import constructed
from tests.analysis.constructed import Constructed
from tests.analysis.patterns import cycle_layer, groove, layer


def is_right(made: Constructed, found: Analysis) -> bool:
    """The length that was put in and its letters; two bars at a time are as right as one."""
    cells = found.cells
    if cells is None:
        return False
    if cells.length == 2 * made.length and made.length == constructed.BAR:
        pairs = [made.skeleton[i : i + 2] for i in range(0, len(made.skeleton), 2)]
        return len(set(pairs)) == len(set(cells.skeleton))
    letters = ("".join(cells.skeleton), "".join(cells.full))
    return cells.length == made.length and letters == (made.skeleton, made.full)


def share_right(grooves: Iterable[Constructed]) -> float:
    results = [is_right(made, analyse(made.groove)) for made in grooves]
    return sum(results) / len(results)


def share_false(grooves: Iterable[Groove]) -> float:
    """How many grooves without cells are said to have some for sure."""
    results = [(cells := analyse(each).cells) is not None and cells.sure for each in grooves]
    return sum(results) / len(results)


def sixteen_bars() -> Groove:
    """Six instruments over sixteen bars of sixteenths."""
    frame = cycle_layer("Frame", {"bass drum": "x-x--", "crash": "X----"}, 256, restart=64)
    time_lanes = layer("Time", {"hi-hat": "x-x-" * 64, "foot hi-hat": "--x-" * 64})
    backbeat = layer("Backbeat", {"snare": "----X-------X---" * 16})
    ghosts = layer("Ghosts", {"snare": ("-" * 16 + "--g----g-g------") * 8})
    fill = layer("Fill", {"high tom": "xxx-x-x-", "floor tom": "---x-x-x"}, start=248, silences=[(248, 256, "snare")])
    return groove([time_lanes, frame, backbeat, ghosts, fill], bars=16)


def milliseconds(made: Groove, turns: int = 10) -> float:
    """Processor time, the least of several turns, since other programs share the machine."""
    times = []
    for _ in range(turns):
        start = time.process_time()
        analyse(made)
        times.append(time.process_time() - start)
    return min(times) * 1000


def main() -> None:
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    start = time.process_time()
    print(f"cells across the bar right: {share_right(constructed.crossing(number, 1)):.1%} of {number}")
    print(f"bar forms right:            {share_right(constructed.forms(number, 1)):.1%} of {number}")
    print(f"structureless, false cells: {share_false(constructed.structureless(number, 1)):.1%} of {number}")
    print(f"making and reading them:    {time.process_time() - start:.1f} s")
    print(f"one groove of 16 bars:      {milliseconds(sixteen_bars()):.1f} ms")
    for each in (number // 4, number // 2, number):
        grooves = [made.groove for made in constructed.crossing(each, 2)]
        start = time.process_time()
        for made in grooves:
            analyse(made)
        spent = time.process_time() - start
        print(f"{each:>5} grooves: {spent:.2f} s, {spent / each * 1000:.2f} ms each")


if __name__ == "__main__":
    main()
