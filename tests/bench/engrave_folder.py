"""Engraves the texts of a folder and prints the processor seconds inside the jobs: what the bench measures of ours.

`python tests/bench/engrave_folder.py LILYPOND FOLDER INCLUDE ...`. It is a program of its own, to be measured.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from engraver.engraving import Engine, Job, Workshop


def engrave_folder(engine: Engine, folder: Path, include: list[Path]) -> float:
    with Workshop(engine, include, folder / "store") as shop:
        shop.warm_up()
        jobs = [Job(path.stem, path.read_text("utf-8")) for path in sorted(folder.glob("*.ly"))]
        results = shop.engrave(jobs)
        assert shop.is_warm
    assert not [result.failure for result in results if result.failure]
    return sum(result.seconds for result in results)


if __name__ == "__main__":
    lilypond, folder, *include = sys.argv[1:]
    print(engrave_folder(Engine.find(lilypond), Path(folder), [Path(name) for name in include]))
