"""What a build that remembers nothing spends on what: `python tests/bench/cold_build.py [FOLDER]`.

The whole command for the book in FOLDER (the demo book if none is named), a few times, each into a folder of its own;
seconds of processors, and what share of them reading, writing LilyPond and binding have. Loading the program counts in
the whole.
"""

from __future__ import annotations

import os
import re
import sys
import tempfile
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench.measured_run import Measured, build

ROOT = Path(__file__).parents[2]
TURNS = 5
STAGES = ("reading", "writing LilyPond", "binding")
_WORK = re.compile(r" s  (.+), ([\d.]+) s of them at work")


def cold_build(folder: Path) -> Measured:
    with tempfile.TemporaryDirectory(prefix="bench-") as out:
        return build(folder, Path(out))


def at_work(measured: Measured) -> dict[str, float]:
    """The seconds of each stage, then those of all together and of the whole command."""
    told = {stage: float(seconds) for stage, seconds in _WORK.findall(measured.said)}
    stages = {stage: told[stage] for stage in STAGES}
    return {**stages, "together": sum(stages.values()), "the whole command": measured.processor}


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "book"
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    cold_build(folder)  # compiles what is not compiled yet: an installed program is
    turns = [cold_build(folder) for _ in range(TURNS)]
    rows = [at_work(turn) for turn in turns]
    print(f"{folder.name}, {TURNS} cold builds, medians: {median(turn.wall for turn in turns):.2f} s on the clock")
    for name in rows[0]:
        share = median(row[name] / row["the whole command"] for row in rows)
        print(f"{name:<20}{median(row[name] for row in rows):>8.3f} s of processors{share:>8.1%}")


if __name__ == "__main__":
    main()
