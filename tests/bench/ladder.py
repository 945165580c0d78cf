"""How long the ladder of a groove takes to make: `python tests/bench/ladder.py`."""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from engraver import analysis, definition
from engraver.chapters.ladder import ladder
from engraver.style import standard_kit, words
from tests.bench.analysis import sixteen_bars

LEAST = "title: Bench\ntempo: 96\nlayers: [{name: One, strokes: {snare: x}}]\nmeter: 4/4\nstep: whole\n"


def milliseconds(turns: int = 10) -> float:
    """Of sixteen bars of six instruments: processor time, the least of several turns, since other programs run too."""
    groove, kit, say = sixteen_bars(), standard_kit(), words("en")
    facts = analysis.analyse(groove, places=kit.places())
    written = definition.parse_groove(LEAST)
    times = []
    for _ in range(turns):
        start = time.process_time()
        ladder(written, groove, facts, kit, say)
        times.append(time.process_time() - start)
    return min(times) * 1000


def main() -> None:
    groove, kit = sixteen_bars(), standard_kit()
    facts = analysis.analyse(groove, places=kit.places())
    made = ladder(definition.parse_groove(LEAST), groove, facts, kit, words("en"))
    print(f"{len(made.exercises)} exercises of {len(groove.bars)} bars, {len(groove.strokes)} strokes")
    print(f"the ladder: {milliseconds():.1f} ms")


if __name__ == "__main__":
    main()
